using Portwitness.Analysis.Profile;
using Portwitness.PowerDelivery.Layout;
using Portwitness.PowerDelivery.Messages;
using Portwitness.PowerDelivery.PowerData;
using Wire = Portwitness.Contracts.V1;

namespace Portwitness.Service.Translation;

/// <summary>Power Data Objects. A member is set only when every bit of its field was shown.</summary>
internal static class PowerObjectTranslation
{
    /// <param name="offered">The object.</param>
    /// <param name="list">The list that it stands in: some bits mean different things for a source and a sink.</param>
    public static Wire.PowerObject ToContract(this OfferedObject offered, MessageKind list)
    {
        Wire.PowerObject translated = new()
        {
            Position = offered.Position,
            Raw = offered.Raw,
            RawHex = $"0x{offered.Raw:X8}",
        };
        if (offered.Known != uint.MaxValue)
        {
            translated.KnownBits = offered.Known;
        }

        // Only EPR lists are filled up with zeroes (R3.2v1.1, 6.5.15.1); elsewhere zero is a fixed supply of 0 V.
        if (offered.IsZero && list.Class == MessageClass.Extended)
        {
            translated.Padding = new();
        }
        else if (offered.KindIsKnown)
        {
            SetKind(translated, offered, IsSink(list));
        }

        return translated;
    }

    private static void SetKind(Wire.PowerObject translated, OfferedObject offered, bool sink)
    {
        switch (offered.Kind)
        {
            case PowerObjectKind.Fixed:
                translated.Fixed = FixedSupplyTranslation.Read(offered, sink);
                break;
            case PowerObjectKind.Battery:
                translated.Battery = Battery(offered);
                break;
            case PowerObjectKind.Variable:
                translated.Variable = Variable(offered);
                break;
            case PowerObjectKind.Pps:
                translated.Pps = Pps(offered, sink);
                break;
            case PowerObjectKind.SprAvs:
                translated.SprAvs = SprAvs(offered, sink);
                break;
            case PowerObjectKind.EprAvs:
                translated.EprAvs = EprAvs(offered, sink);
                break;
            default:
                translated.Reserved = new();
                break;
        }
    }

    private static Wire.BatterySupply Battery(OfferedObject offered)
    {
        Wire.BatterySupply supply = new();
        BitLayout layout = BatterySourceSupply.Layout;
        offered.Read(layout, "Minimum Voltage", value => supply.MinVoltageMv = value);
        offered.Read(layout, "Maximum Voltage", value => supply.MaxVoltageMv = value);
        offered.Read(layout, "Maximum Allowable Power", value => supply.MaxPowerMw = value);
        return supply;
    }

    private static Wire.VariableSupply Variable(OfferedObject offered)
    {
        Wire.VariableSupply supply = new();
        BitLayout layout = VariableSourceSupply.Layout;
        offered.Read(layout, "Minimum Voltage", value => supply.MinVoltageMv = value);
        offered.Read(layout, "Maximum Voltage", value => supply.MaxVoltageMv = value);
        offered.Read(layout, "Maximum Current", value => supply.MaxCurrentMa = value);
        return supply;
    }

    private static Wire.PpsSupply Pps(OfferedObject offered, bool sink)
    {
        Wire.PpsSupply supply = new();
        BitLayout layout = PpsSourceSupply.Layout;
        offered.Read(layout, "Minimum Voltage", value => supply.MinVoltageMv = value);
        offered.Read(layout, "Maximum Voltage", value => supply.MaxVoltageMv = value);
        offered.Read(layout, "Maximum Current", value => supply.MaxCurrentMa = value);
        if (!sink)
        {
            offered.Read(layout, "PPS Power Limited", value => supply.PowerLimited = value != 0);
        }

        return supply;
    }

    private static Wire.SprAvsSupply SprAvs(OfferedObject offered, bool sink)
    {
        Wire.SprAvsSupply supply = new();
        BitLayout layout = SprAvsSourceSupply.Layout;
        offered.Read(layout, "Maximum Current 9 V to 15 V", value => supply.MaxCurrent15VMa = value);
        offered.Read(layout, "Maximum Current 15 V to 20 V", value => supply.MaxCurrent20VMa = value);
        if (!sink)
        {
            offered.Read(layout, "Peak Current", value => supply.PeakCurrentCode = value);
        }

        return supply;
    }

    private static Wire.EprAvsSupply EprAvs(OfferedObject offered, bool sink)
    {
        Wire.EprAvsSupply supply = new();
        BitLayout layout = EprAvsSourceSupply.Layout;
        offered.Read(layout, "Minimum Voltage", value => supply.MinVoltageMv = value);
        offered.Read(layout, "Maximum Voltage", value => supply.MaxVoltageMv = value);
        offered.Read(layout, "PDP", value => supply.PdpW = value / 1000);
        if (!sink)
        {
            offered.Read(layout, "Peak Current", value => supply.PeakCurrentCode = value);
        }

        return supply;
    }

    private static bool IsSink(MessageKind list) =>
        list == MessageKind.SinkCapabilities || list == MessageKind.EPRSinkCapabilities;
}
