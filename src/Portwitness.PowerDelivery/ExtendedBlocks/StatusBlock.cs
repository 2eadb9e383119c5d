using Portwitness.PowerDelivery.Layout;

namespace Portwitness.PowerDelivery.ExtendedBlocks;

/// <summary>Status of a port, on SOP: SDB, 7 bytes (R3.2v1.1, Table 6.55); 5 or 6 in R3.0 (from memory).</summary>
/// <param name="Block">The bytes.</param>
public sealed record StatusBlock(DataBlock Block)
{
    private static readonly BlockField TemperatureField = CablePlugStatusBlock.TemperatureField;

    private static readonly BlockField OtherInternalField = BlockField.Flag("Internal power, not a battery", 1, 4);
    private static readonly BlockField BatteryField = BlockField.Flag("Internal power from a battery", 1, 3);

    private static readonly BlockField MainsField =
        new(1, 1, BitField.Flag("External power AC/DC", 2).Codes((0, "DC"), (1, "AC")));

    private static readonly BlockField ExternalField = BlockField.Flag("External power", 1, 1);
    private static readonly BlockField HotSwappableField = new(2, 1, new BitField("Hot swappable batteries in use", 7, 4));
    private static readonly BlockField FixedField = new(2, 1, new BitField("Fixed batteries in use", 3, 0));

    private static readonly BlockField CurrentLimitField = new(
        3, 1, BitField.Flag("CL/CV mode, PPS only", 4).Codes((0, "constant voltage"), (1, "current limit")));

    private static readonly BlockField OvpField = BlockField.Flag("OVP event", 3, 3);
    private static readonly BlockField OtpField = BlockField.Flag("OTP event", 3, 2);
    private static readonly BlockField OcpField = BlockField.Flag("OCP event", 3, 1);

    private static readonly BlockField TemperatureStatusField = new(4, 1, TemperatureStatus.Field);
    private static readonly BlockField LimitTemperatureField = BlockField.Flag("Power limited by temperature", 5, 5);
    private static readonly BlockField LimitEventField = BlockField.Flag("Power limited by event flags", 5, 4);
    private static readonly BlockField LimitExternalField = BlockField.Flag("Power limited by external power", 5, 3);
    private static readonly BlockField LimitPortsField = BlockField.Flag("Power limited by other ports", 5, 2);
    private static readonly BlockField LimitCableField = BlockField.Flag("Power limited by the cable", 5, 1);
    private static readonly BlockField IndicatorField = new(6, 1, new BitField("Power state indicator", 5, 3));
    private static readonly BlockField StateField = new(6, 1, new BitField("New power state", 2, 0));

    /// <summary>All bytes.</summary>
    public static BlockLayout Layout { get; } = new(
        "Status Data Block", "R3.2v1.1 Table 6.55", BlockTail.None,
        TemperatureField,
        BlockField.Reserved(1, 7, 5), OtherInternalField, BatteryField, MainsField, ExternalField,
        BlockField.Reserved(1, 0, 0), HotSwappableField, FixedField,
        BlockField.Reserved(3, 7, 5), CurrentLimitField, OvpField, OtpField, OcpField, BlockField.Reserved(3, 0, 0),
        BlockField.Reserved(4, 7, 3), TemperatureStatusField, BlockField.Reserved(4, 0, 0),
        BlockField.Reserved(5, 7, 6), LimitTemperatureField, LimitEventField, LimitExternalField, LimitPortsField,
        LimitCableField, BlockField.Reserved(5, 0, 0), BlockField.Reserved(6, 7, 6), IndicatorField, StateField);

    /// <summary>Degrees Celsius: 0 not supported, 1 below 2.</summary>
    public int? InternalTemperature => Block.GetScaled(TemperatureField);

    /// <summary>The port gets external power.</summary>
    public bool? ExternalPower => Block.GetFlag(ExternalField);

    /// <summary>External power is AC; means something with <see cref="ExternalPower"/> only.</summary>
    public bool? ExternalPowerIsAc => Block.GetFlag(MainsField);

    /// <summary>Power comes from a battery of its own.</summary>
    public bool? BatteryPower => Block.GetFlag(BatteryField);

    /// <summary>Power comes from another internal source.</summary>
    public bool? OtherInternalPower => Block.GetFlag(OtherInternalField);

    /// <summary>Fixed batteries in use: bit 0 to bit 3 for battery 0 to 3.</summary>
    public int? FixedBatteries => Block.GetScaled(FixedField);

    /// <summary>Hot swappable batteries in use: bit 0 to bit 3 for battery 4 to 7.</summary>
    public int? HotSwappableBatteries => Block.GetScaled(HotSwappableField);

    /// <summary>Over-current protection acted.</summary>
    public bool? Ocp => Block.GetFlag(OcpField);

    /// <summary>Over-temperature protection acted.</summary>
    public bool? Otp => Block.GetFlag(OtpField);

    /// <summary>Over-voltage protection acted.</summary>
    public bool? Ovp => Block.GetFlag(OvpField);

    /// <summary>A PPS limits its current; otherwise it holds its voltage.</summary>
    public bool? CurrentLimit => Block.GetFlag(CurrentLimitField);

    /// <summary>0 not supported, 1 normal, 2 warning, 3 over temperature.</summary>
    public int? TemperatureStatusCode => Block.GetScaled(TemperatureStatusField);

    /// <summary>The cable limits the power.</summary>
    public bool? LimitedByCable => Block.GetFlag(LimitCableField);

    /// <summary>Other ports of the product limit the power.</summary>
    public bool? LimitedByOtherPorts => Block.GetFlag(LimitPortsField);

    /// <summary>Too little external power limits the power.</summary>
    public bool? LimitedByExternalPower => Block.GetFlag(LimitExternalField);

    /// <summary>What the event flags tell limits the power.</summary>
    public bool? LimitedByEvent => Block.GetFlag(LimitEventField);

    /// <summary>Temperature limits the power.</summary>
    public bool? LimitedByTemperature => Block.GetFlag(LimitTemperatureField);

    /// <summary>New power state, 0 to 7; the codes' names were not at hand.</summary>
    public int? PowerStateCode => Block.GetScaled(StateField);

    /// <summary>Power state indicator, 0 to 7; the codes' names were not at hand.</summary>
    public int? PowerStateIndicatorCode => Block.GetScaled(IndicatorField);

    /// <summary>Bytes beyond those of R3.2v1.1.</summary>
    public DataBlock Remainder => Block.From(Layout.Size);
}
