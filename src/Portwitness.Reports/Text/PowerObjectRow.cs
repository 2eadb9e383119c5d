using System.Globalization;
using Portwitness.Contracts.V1;

namespace Portwitness.Reports.Text;

/// <summary>One Power Data Object as a row: position, word, kind, voltage, current, power, remarks.</summary>
internal static class PowerObjectRow
{
    public static string[] Of(PowerObject offered)
    {
        (string kind, string voltage, string current, string power) = offered.KindCase switch
        {
            PowerObject.KindOneofCase.Fixed => Fixed(offered.Fixed),
            PowerObject.KindOneofCase.Battery => (
                "battery", Range(offered.Battery.HasMinVoltageMv, offered.Battery.MinVoltageMv, offered.Battery.HasMaxVoltageMv, offered.Battery.MaxVoltageMv),
                "", Amounts.Watts(offered.Battery.HasMaxPowerMw ? offered.Battery.MaxPowerMw : null)),
            PowerObject.KindOneofCase.Variable => (
                "variable", Range(offered.Variable.HasMinVoltageMv, offered.Variable.MinVoltageMv, offered.Variable.HasMaxVoltageMv, offered.Variable.MaxVoltageMv),
                Amounts.Amperes(offered.Variable.HasMaxCurrentMa ? offered.Variable.MaxCurrentMa : null), ""),
            PowerObject.KindOneofCase.Pps => (
                "PPS", Range(offered.Pps.HasMinVoltageMv, offered.Pps.MinVoltageMv, offered.Pps.HasMaxVoltageMv, offered.Pps.MaxVoltageMv),
                Amounts.Amperes(offered.Pps.HasMaxCurrentMa ? offered.Pps.MaxCurrentMa : null), ""),
            PowerObject.KindOneofCase.SprAvs => SprAvs(offered.SprAvs),
            PowerObject.KindOneofCase.EprAvs => (
                "EPR AVS", Range(offered.EprAvs.HasMinVoltageMv, offered.EprAvs.MinVoltageMv, offered.EprAvs.HasMaxVoltageMv, offered.EprAvs.MaxVoltageMv),
                "", Amounts.Watts(offered.EprAvs.HasPdpW ? offered.EprAvs.PdpW * 1000L : null)),
            PowerObject.KindOneofCase.Padding => ("padding", "", "", ""),
            PowerObject.KindOneofCase.Reserved => ("reserved", "", "", ""),
            _ => ("kind ?", "", "", ""),
        };
        return
        [
            offered.Position.ToString(CultureInfo.InvariantCulture), Word(offered), kind, voltage, current, power,
            string.Join(", ", PowerObjectFlags.Of(offered)),
        ];
    }

    /// <summary>The word; a hexadecimal digit any of whose bits were not seen is "?".</summary>
    public static string Word(PowerObject offered)
    {
        if (!offered.HasKnownBits)
        {
            return offered.RawHex;
        }

        char[] digits = offered.RawHex.ToCharArray();
        for (int digit = 0; digit < 8; digit++)
        {
            if (((offered.KnownBits >> (28 - (4 * digit))) & 0xF) != 0xF && digits.Length == 10)
            {
                digits[2 + digit] = '?';
            }
        }

        return new string(digits);
    }

    private static (string Kind, string Voltage, string Current, string Power) Fixed(FixedSupply supply)
    {
        int? voltage = supply.HasVoltageMv ? supply.VoltageMv : null;
        int? current = supply.HasMaxCurrentMa ? supply.MaxCurrentMa : null;
        return ("fixed", Amounts.Volts(voltage), Amounts.Amperes(current), Amounts.Watts(Amounts.Milliwatts(voltage, current)));
    }

    private static (string Kind, string Voltage, string Current, string Power) SprAvs(SprAvsSupply supply)
    {
        string to15 = Amounts.Amperes(supply.HasMaxCurrent15VMa ? supply.MaxCurrent15VMa : null);
        string to20 = Amounts.Amperes(supply.HasMaxCurrent20VMa ? supply.MaxCurrent20VMa : null);
        return supply is { HasMaxCurrent20VMa: true, MaxCurrent20VMa: 0 }
            ? ("SPR AVS", "9 to 15 V", to15, "")
            : ("SPR AVS", "9 to 15 V, 15 to 20 V", $"{to15}, {to20}", "");
    }

    private static string Range(bool hasMinimum, int minimum, bool hasMaximum, int maximum) =>
        Amounts.VoltRange(hasMinimum ? minimum : null, hasMaximum ? maximum : null);
}
