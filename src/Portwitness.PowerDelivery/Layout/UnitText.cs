using System.Globalization;
using Portwitness.PowerDelivery.Units;

namespace Portwitness.PowerDelivery.Layout;

/// <summary>A raw value with its unit, and how it is counted when the step is not the unit itself.</summary>
internal static class UnitText
{
    private const int HexWidth = 16;

    internal static string Of(BitField field, uint raw)
    {
        if (field.Unit == FieldUnit.None)
        {
            return field.Width < HexWidth ? Number(raw) : Hex(raw, field.Width);
        }

        if (field.Unit == FieldUnit.Flag)
        {
            return raw == 0 ? "no" : "yes";
        }

        int value = checked((int)(raw * (long)field.Scale));
        (string amount, string unit) = field.Unit switch
        {
            FieldUnit.Millivolts => (Voltage.FromMillivolts(value).ToString(), "mV"),
            FieldUnit.Milliamperes => (Current.FromMilliamperes(value).ToString(), "mA"),
            FieldUnit.Milliwatts => (Power.FromMilliwatts(value).ToString(), "mW"),
            FieldUnit.MilliwattHours => (Energy.FromMilliwattHours(value).ToString(), "mWh"),
            FieldUnit.Milliseconds => ($"{Number(value)} ms", "ms"),
            FieldUnit.Percent => ($"{Number(value)} %", "%"),
            _ => ($"{Number(value)} °C", "°C"),
        };
        return field.Scale is 1 or 1000 ? amount : $"{amount} ({Number(raw)} x {Number(field.Scale)} {unit})";
    }

    internal static string Hex(uint raw, int width) =>
        "0x" + raw.ToString($"X{(width + 3) / 4}", CultureInfo.InvariantCulture);

    private static string Number(long value) => value.ToString(CultureInfo.InvariantCulture);
}
