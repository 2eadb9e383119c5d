using Portwitness.PowerDelivery.Headers;
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
            bool sink = list == MessageKind.SinkCapabilities || list == MessageKind.EPRSinkCapabilities;
            SetKind(translated, offered.Kind, new KnownFields(
                offered, sink ? new SinkPowerObject(offered.Raw).Layout : offered.AsSource().Layout));
        }

        return translated;
    }

    private static void SetKind(Wire.PowerObject translated, PowerObjectKind kind, KnownFields fields)
    {
        switch (kind)
        {
            case PowerObjectKind.Fixed:
                translated.Fixed = Fixed(fields);
                break;
            case PowerObjectKind.Battery:
                translated.Battery = Battery(fields);
                break;
            case PowerObjectKind.Variable:
                translated.Variable = Variable(fields);
                break;
            case PowerObjectKind.Pps:
                translated.Pps = Pps(fields);
                break;
            case PowerObjectKind.SprAvs:
                translated.SprAvs = SprAvs(fields);
                break;
            case PowerObjectKind.EprAvs:
                translated.EprAvs = EprAvs(fields);
                break;
            default:
                translated.Reserved = new();
                break;
        }
    }

    private static Wire.FixedSupply Fixed(KnownFields fields)
    {
        Wire.FixedSupply supply = new();
        fields.Read("Voltage", value => supply.VoltageMv = value);
        fields.Read("Maximum Current", value => supply.MaxCurrentMa = value);
        fields.Read("Operational Current", value => supply.MaxCurrentMa = value);
        fields.Read("Peak Current", value => supply.PeakCurrentCode = value);
        fields.ReadFlag("Dual-Role Power", value => supply.DualRolePower = value);
        fields.ReadFlag("USB Suspend Supported", value => supply.UsbSuspendSupported = value);
        fields.ReadFlag("Higher Capability", value => supply.HigherCapability = value);
        fields.ReadFlag("Unconstrained Power", value => supply.UnconstrainedPower = value);
        fields.ReadFlag("USB Communications Capable", value => supply.UsbCommunicationsCapable = value);
        fields.ReadFlag("Dual-Role Data", value => supply.DualRoleData = value);
        fields.ReadFlag("Unchunked Extended Messages Supported", value => supply.UnchunkedExtendedMessages = value);
        fields.ReadFlag("EPR Capable", value => supply.EprCapable = value);
        fields.Read("Fast Role Swap required USB Type-C Current", value => supply.FastRoleSwapCode = value);
        return supply;
    }

    private static Wire.BatterySupply Battery(KnownFields fields)
    {
        Wire.BatterySupply supply = new();
        fields.Read("Minimum Voltage", value => supply.MinVoltageMv = value);
        fields.Read("Maximum Voltage", value => supply.MaxVoltageMv = value);
        fields.Read("Maximum Allowable Power", value => supply.MaxPowerMw = value);
        fields.Read("Operational Power", value => supply.MaxPowerMw = value);
        return supply;
    }

    private static Wire.VariableSupply Variable(KnownFields fields)
    {
        Wire.VariableSupply supply = new();
        fields.Read("Minimum Voltage", value => supply.MinVoltageMv = value);
        fields.Read("Maximum Voltage", value => supply.MaxVoltageMv = value);
        fields.Read("Maximum Current", value => supply.MaxCurrentMa = value);
        fields.Read("Operational Current", value => supply.MaxCurrentMa = value);
        return supply;
    }

    private static Wire.PpsSupply Pps(KnownFields fields)
    {
        Wire.PpsSupply supply = new();
        fields.Read("Minimum Voltage", value => supply.MinVoltageMv = value);
        fields.Read("Maximum Voltage", value => supply.MaxVoltageMv = value);
        fields.Read("Maximum Current", value => supply.MaxCurrentMa = value);
        fields.ReadFlag("PPS Power Limited", value => supply.PowerLimited = value);
        return supply;
    }

    private static Wire.SprAvsSupply SprAvs(KnownFields fields)
    {
        Wire.SprAvsSupply supply = new();
        fields.Read("Maximum Current 9 V to 15 V", value => supply.MaxCurrent15VMa = value);
        fields.Read("Maximum Current 15 V to 20 V", value => supply.MaxCurrent20VMa = value);
        fields.Read("Peak Current", value => supply.PeakCurrentCode = value);
        return supply;
    }

    private static Wire.EprAvsSupply EprAvs(KnownFields fields)
    {
        Wire.EprAvsSupply supply = new();
        fields.Read("Minimum Voltage", value => supply.MinVoltageMv = value);
        fields.Read("Maximum Voltage", value => supply.MaxVoltageMv = value);
        fields.Read("PDP", value => supply.PdpW = value / 1000);
        fields.Read("Peak Current", value => supply.PeakCurrentCode = value);
        return supply;
    }
}
