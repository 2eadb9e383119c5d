using Portwitness.PowerDelivery.Layout;
using Portwitness.PowerDelivery.Units;

namespace Portwitness.PowerDelivery.ExtendedBlocks;

/// <summary>Source_Capabilities_Extended, SCEDB, 25 bytes (R3.2v1.1, Table 6.54); 24 before EPR (from memory).</summary>
/// <param name="Block">The bytes.</param>
public sealed record SourceCapabilitiesExtendedBlock(DataBlock Block)
{
    /// <summary>Bytes 0 and 1; 0xFFFF for none.</summary>
    public static readonly BlockField VidField =
        BlockField.Bytes("VID", 0, 2).Means(raw => raw == 0xFFFF ? "none" : null);

    /// <summary>Bytes 2 and 3.</summary>
    public static readonly BlockField PidField = BlockField.Bytes("PID", 2, 2);

    /// <summary>Bytes 4 to 7; 0 for none.</summary>
    public static readonly BlockField XidField = BlockField.Bytes("XID", 4, 4).Means(raw => raw == 0 ? "none" : null);

    /// <summary>Byte 8.</summary>
    public static readonly BlockField FirmwareVersionField = BlockField.Bytes("FW Version", 8, 1);

    /// <summary>Byte 9.</summary>
    public static readonly BlockField HardwareVersionField = BlockField.Bytes("HW Version", 9, 1);

    /// <summary>Byte 11; 0 when hold-up is not supported.</summary>
    public static readonly BlockField HoldupTimeField =
        BlockField.Bytes("Holdup Time", 11, 1, FieldUnit.Milliseconds).Codes((0, "not supported"));

    /// <summary>Byte 23, bits 6 to 0.</summary>
    public static readonly BlockField SprPdpField =
        new(23, 1, new BitField("SPR Source PDP Rating", 6, 0, FieldUnit.Milliwatts, 1000));

    /// <summary>Byte 24, since R3.1; 0 for an SPR source.</summary>
    public static readonly BlockField EprPdpField =
        BlockField.Bytes("EPR Source PDP Rating", 24, 1, FieldUnit.Milliwatts, 1000).Codes((0, "none, an SPR source"));

    private static readonly BlockField LoadMagnitudeField = new(10, 1, BitField.Flag("Load Step Magnitude", 2)
        .Codes((0, "25 % of IoC"), (1, "90 % of IoC")));

    private static readonly BlockField LoadSlewField = new(10, 1, new BitField("Load Step Slew Rate", 1, 0)
        .Codes((0, "150 mA/µs"), (1, "500 mA/µs")));

    private static readonly BlockField Ps2Field = BlockField.Flag("PS2 Compliant", 12, 2);
    private static readonly BlockField Ps1Field = BlockField.Flag("PS1 Compliant", 12, 1);
    private static readonly BlockField LpsField = BlockField.Flag("LPS Compliant", 12, 0);
    private static readonly BlockField ProtectiveEarthField = BlockField.Flag("Ground is protective earth", 13, 2);
    private static readonly BlockField GroundPinField = BlockField.Flag("Ground pin supported", 13, 1);
    private static readonly BlockField LowTouchField = BlockField.Flag("Low touch current", 13, 0);
    private static readonly PeakCurrentFields Peak1 = PeakCurrentFields.At("Peak Current 1", 14, "VBUS Droop");
    private static readonly PeakCurrentFields Peak2 = PeakCurrentFields.At("Peak Current 2", 16, "VBUS Droop");
    private static readonly PeakCurrentFields Peak3 = PeakCurrentFields.At("Peak Current 3", 18, "VBUS Droop");

    private static readonly BlockField TouchTempField = BlockField.Bytes("Touch Temp", 20, 1)
        .Codes((0, "IEC 60950-1"), (1, "IEC 62368-1 TS1"), (2, "IEC 62368-1 TS2"));

    private static readonly BlockField InternalBatteryField = BlockField.Flag("Internal battery", 21, 2);
    private static readonly BlockField UnconstrainedField = BlockField.Flag("External supply unconstrained", 21, 1);
    private static readonly BlockField ExternalSupplyField = BlockField.Flag("External supply", 21, 0);
    private static readonly BlockField HotSwappableField = new(22, 1, new BitField("Hot swappable battery slots", 7, 4));
    private static readonly BlockField FixedBatteriesField = new(22, 1, new BitField("Fixed batteries", 3, 0));

    /// <summary>All bytes.</summary>
    public static BlockLayout Layout { get; } = new(
        "Source Capabilities Extended Data Block", "R3.2v1.1 Table 6.54", BlockTail.None,
        VidField, PidField, XidField, FirmwareVersionField, HardwareVersionField,
        BlockField.Reserved(10, 7, 3), LoadMagnitudeField, LoadSlewField, HoldupTimeField,
        BlockField.Reserved(12, 7, 3), Ps2Field, Ps1Field, LpsField,
        BlockField.Reserved(13, 7, 3), ProtectiveEarthField, GroundPinField, LowTouchField,
        Peak1.Droop, Peak1.Duty, Peak1.Period, Peak1.Overload, Peak2.Droop, Peak2.Duty, Peak2.Period, Peak2.Overload,
        Peak3.Droop, Peak3.Duty, Peak3.Period, Peak3.Overload, TouchTempField,
        BlockField.Reserved(21, 7, 3), InternalBatteryField, UnconstrainedField, ExternalSupplyField,
        HotSwappableField, FixedBatteriesField, BlockField.Reserved(23, 7, 7), SprPdpField, EprPdpField);

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

    /// <summary>A load step may be 90 % of the operating current; otherwise 25 %.</summary>
    public bool? LoadStepOf90Percent => Block.GetFlag(LoadMagnitudeField);

    /// <summary>0 150 mA/µs, 1 500 mA/µs; others reserved.</summary>
    public int? LoadSlewCode => Block.GetScaled(LoadSlewField);

    /// <summary>0 to 255 ms, 0 when not supported.</summary>
    public int? HoldupTimeMs => Block.GetScaled(HoldupTimeField);

    /// <summary>Limited power source.</summary>
    public bool? LpsCompliant => Block.GetFlag(LpsField);

    /// <summary>Power source class 1.</summary>
    public bool? Ps1Compliant => Block.GetFlag(Ps1Field);

    /// <summary>Power source class 2.</summary>
    public bool? Ps2Compliant => Block.GetFlag(Ps2Field);

    /// <summary>Low touch current.</summary>
    public bool? LowTouchCurrent => Block.GetFlag(LowTouchField);

    /// <summary>There is a ground pin.</summary>
    public bool? GroundPin => Block.GetFlag(GroundPinField);

    /// <summary>The ground is a protective earth.</summary>
    public bool? ProtectiveEarth => Block.GetFlag(ProtectiveEarthField);

    /// <summary>Bytes 14 and 15.</summary>
    public PeakCurrent? PeakCurrent1 => Peak1.Read(Block);

    /// <summary>Bytes 16 and 17.</summary>
    public PeakCurrent? PeakCurrent2 => Peak2.Read(Block);

    /// <summary>Bytes 18 and 19.</summary>
    public PeakCurrent? PeakCurrent3 => Peak3.Read(Block);

    /// <summary>0 IEC 60950-1, 1 IEC 62368-1 TS1, 2 TS2; others reserved.</summary>
    public int? TouchTempCode => Block.GetScaled(TouchTempField);

    /// <summary>The source has an external supply.</summary>
    public bool? ExternalSupply => Block.GetFlag(ExternalSupplyField);

    /// <summary>That supply is unconstrained; means something with <see cref="ExternalSupply"/> only.</summary>
    public bool? ExternalSupplyUnconstrained => Block.GetFlag(UnconstrainedField);

    /// <summary>The source has a battery of its own.</summary>
    public bool? InternalBattery => Block.GetFlag(InternalBatteryField);

    /// <summary>Slots, 0 to 4 in use.</summary>
    public int? HotSwappableBatterySlots => Block.GetScaled(HotSwappableField);

    /// <summary>Batteries, 0 to 4 in use.</summary>
    public int? FixedBatteries => Block.GetScaled(FixedBatteriesField);

    /// <summary>0 to 127 W; of an EPR source the most it gives in SPR mode.</summary>
    public Power? SprSourcePdp => Watts(SprPdpField);

    /// <summary>0 to 255 W, 0 for an SPR source; null before R3.1.</summary>
    public Power? EprSourcePdp => Watts(EprPdpField);

    /// <summary>Bytes beyond those of R3.2v1.1.</summary>
    public DataBlock Remainder => Block.From(Layout.Size);

    private Power? Watts(BlockField field) => Block.GetScaled(field) is { } value ? Power.FromMilliwatts(value) : null;
}
