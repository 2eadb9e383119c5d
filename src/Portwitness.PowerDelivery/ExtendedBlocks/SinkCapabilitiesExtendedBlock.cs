using Portwitness.PowerDelivery.Layout;
using Portwitness.PowerDelivery.Units;

namespace Portwitness.PowerDelivery.ExtendedBlocks;

/// <summary>Sink_Capabilities_Extended, SKEDB, 24 bytes (R3.2v1.1, Table 6.65); 21 before EPR (from memory).</summary>
/// <remarks>The touch temperature is coded one higher than a source's. The bits of byte 14 and 16 are from memory.</remarks>
/// <param name="Block">The bytes.</param>
public sealed record SinkCapabilitiesExtendedBlock(DataBlock Block)
{
    private static readonly BlockField VidField =
        BlockField.Bytes("VID", 0, 2).Means(raw => raw == 0xFFFF ? "none" : null);

    private static readonly BlockField PidField = BlockField.Bytes("PID", 2, 2);
    private static readonly BlockField XidField = BlockField.Bytes("XID", 4, 4).Means(raw => raw == 0 ? "none" : null);
    private static readonly BlockField FirmwareVersionField = BlockField.Bytes("FW Version", 8, 1);
    private static readonly BlockField HardwareVersionField = BlockField.Bytes("HW Version", 9, 1);
    private static readonly BlockField VersionField = BlockField.Bytes("SKEDB Version", 10, 1);

    private static readonly BlockField LoadStepField = new(11, 1, new BitField("Load Step", 1, 0)
        .Codes((0, "150 mA/µs"), (1, "500 mA/µs")));

    private static readonly PeakCurrentFields Load =
        PeakCurrentFields.At("Sink Load Characteristics", 12, "VBUS droop tolerated");

    private static readonly BlockField Ps2Field = BlockField.Flag("Requires a PS2 source", 14, 2);
    private static readonly BlockField Ps1Field = BlockField.Flag("Requires a PS1 source", 14, 1);
    private static readonly BlockField LpsField = BlockField.Flag("Requires an LPS source", 14, 0);

    private static readonly BlockField TouchTempField = BlockField.Bytes("Touch Temp", 15, 1)
        .Codes((0, "not applicable"), (1, "IEC 60950-1"), (2, "IEC 62368-1 TS1"), (3, "IEC 62368-1 TS2"));

    private static readonly BlockField HotSwappableField = new(16, 1, new BitField("Hot swappable battery slots", 7, 4));
    private static readonly BlockField FixedBatteriesField = new(16, 1, new BitField("Fixed batteries", 3, 0));
    private static readonly BlockField AvsField = BlockField.Flag("AVS charging supported", 17, 5);
    private static readonly BlockField UnlimitedBatteryField = BlockField.Flag("Battery essentially unlimited", 17, 4);
    private static readonly BlockField BatteryField = BlockField.Flag("Battery powered", 17, 3);
    private static readonly BlockField MainsField = BlockField.Flag("Mains powered", 17, 2);
    private static readonly BlockField VbusField = BlockField.Flag("VBUS powered", 17, 1);
    private static readonly BlockField PpsField = BlockField.Flag("PPS charging supported", 17, 0);
    private static readonly BlockField SprMinimumField = SprPdp("SPR Sink Minimum PDP", 18);
    private static readonly BlockField SprOperationalField = SprPdp("SPR Sink Operational PDP", 19);
    private static readonly BlockField SprMaximumField = SprPdp("SPR Sink Maximum PDP", 20);
    private static readonly BlockField EprMinimumField = EprPdp("EPR Sink Minimum PDP", 21);
    private static readonly BlockField EprOperationalField = EprPdp("EPR Sink Operational PDP", 22);
    private static readonly BlockField EprMaximumField = EprPdp("EPR Sink Maximum PDP", 23);

    /// <summary>All bytes.</summary>
    public static BlockLayout Layout { get; } = new(
        "Sink Capabilities Extended Data Block", "R3.2v1.1 Table 6.65", BlockTail.None,
        VidField, PidField, XidField, FirmwareVersionField, HardwareVersionField, VersionField,
        BlockField.Reserved(11, 7, 2), LoadStepField, Load.Droop, Load.Duty, Load.Period, Load.Overload,
        BlockField.Reserved(14, 7, 3), Ps2Field, Ps1Field, LpsField, TouchTempField, HotSwappableField,
        FixedBatteriesField, BlockField.Reserved(17, 7, 6), AvsField, UnlimitedBatteryField, BatteryField, MainsField,
        VbusField, PpsField, BlockField.Reserved(18, 7, 7), SprMinimumField, BlockField.Reserved(19, 7, 7),
        SprOperationalField, BlockField.Reserved(20, 7, 7), SprMaximumField, EprMinimumField, EprOperationalField,
        EprMaximumField);

    /// <summary>USB vendor id; 0xFFFF for none.</summary>
    public int? VendorId => Block.GetScaled(VidField);

    /// <summary>USB product id.</summary>
    public int? ProductId => Block.GetScaled(PidField);

    /// <summary>XID of the certification, 0 for none.</summary>
    public uint? Xid => Block.Get(XidField);

    /// <summary>0 to 255.</summary>
    public int? FirmwareVersion => Block.GetScaled(FirmwareVersionField);

    /// <summary>0 to 255.</summary>
    public int? HardwareVersion => Block.GetScaled(HardwareVersionField);

    /// <summary>1 in R3.2v1.1.</summary>
    public int? BlockVersion => Block.GetScaled(VersionField);

    /// <summary>0 150 mA/µs, 1 500 mA/µs; others reserved.</summary>
    public int? LoadStepCode => Block.GetScaled(LoadStepField);

    /// <summary>What the sink draws for a while beyond its operating current.</summary>
    public PeakCurrent? LoadCharacteristics => Load.Read(Block);

    /// <summary>The sink needs a limited power source.</summary>
    public bool? RequiresLps => Block.GetFlag(LpsField);

    /// <summary>The sink needs a source of class PS1.</summary>
    public bool? RequiresPs1 => Block.GetFlag(Ps1Field);

    /// <summary>The sink needs a source of class PS2.</summary>
    public bool? RequiresPs2 => Block.GetFlag(Ps2Field);

    /// <summary>0 not applicable, 1 IEC 60950-1, 2 IEC 62368-1 TS1, 3 TS2; others reserved.</summary>
    public int? TouchTempCode => Block.GetScaled(TouchTempField);

    /// <summary>Slots, 0 to 4 in use.</summary>
    public int? HotSwappableBatterySlots => Block.GetScaled(HotSwappableField);

    /// <summary>Batteries, 0 to 4 in use.</summary>
    public int? FixedBatteries => Block.GetScaled(FixedBatteriesField);

    /// <summary>The sink can charge from a PPS.</summary>
    public bool? Pps => Block.GetFlag(PpsField);

    /// <summary>The sink can run from VBUS.</summary>
    public bool? VbusPowered => Block.GetFlag(VbusField);

    /// <summary>The sink can run from the mains.</summary>
    public bool? MainsPowered => Block.GetFlag(MainsField);

    /// <summary>The sink can run from a battery.</summary>
    public bool? BatteryPowered => Block.GetFlag(BatteryField);

    /// <summary>That battery is essentially unlimited.</summary>
    public bool? BatteryUnlimited => Block.GetFlag(UnlimitedBatteryField);

    /// <summary>The sink can charge from an AVS.</summary>
    public bool? Avs => Block.GetFlag(AvsField);

    /// <summary>0 to 127 W, rounded up to whole watts.</summary>
    public Power? SprMinimumPdp => Watts(SprMinimumField);

    /// <summary>0 to 127 W.</summary>
    public Power? SprOperationalPdp => Watts(SprOperationalField);

    /// <summary>0 to 127 W.</summary>
    public Power? SprMaximumPdp => Watts(SprMaximumField);

    /// <summary>0 to 255 W; null before R3.1.</summary>
    public Power? EprMinimumPdp => Watts(EprMinimumField);

    /// <summary>0 to 255 W; null before R3.1.</summary>
    public Power? EprOperationalPdp => Watts(EprOperationalField);

    /// <summary>0 to 255 W; null before R3.1.</summary>
    public Power? EprMaximumPdp => Watts(EprMaximumField);

    /// <summary>Bytes beyond those of R3.2v1.1.</summary>
    public DataBlock Remainder => Block.From(Layout.Size);

    private static BlockField SprPdp(string name, int offset) =>
        new(offset, 1, new BitField(name, 6, 0, FieldUnit.Milliwatts, 1000));

    private static BlockField EprPdp(string name, int offset) =>
        BlockField.Bytes(name, offset, 1, FieldUnit.Milliwatts, 1000);

    private Power? Watts(BlockField field) => Block.GetScaled(field) is { } value ? Power.FromMilliwatts(value) : null;
}
