using Portwitness.PowerDelivery.Layout;
using Portwitness.PowerDelivery.Units;

namespace Portwitness.PowerDelivery.ExtendedBlocks;

/// <summary>PPS_Status, PPSSDB, 4 bytes (R3.2v1.1, Table 6.62).</summary>
/// <param name="Block">The bytes.</param>
public sealed record PpsStatusBlock(DataBlock Block)
{
    private const uint NoVoltage = 0xFFFF;
    private const uint NoCurrent = 0xFF;

    private static readonly BlockField VoltageField =
        BlockField.Bytes("Output Voltage", 0, 2, FieldUnit.Millivolts, 20).Codes((NoVoltage, "not supported"));

    private static readonly BlockField CurrentField =
        BlockField.Bytes("Output Current", 2, 1, FieldUnit.Milliamperes, 50).Codes((NoCurrent, "not supported"));

    private static readonly BlockField ModeField = new(
        3, 1, BitField.Flag("OMF", 3).Codes((0, "constant voltage"), (1, "current limit")));

    private static readonly BlockField TemperatureStatusField = new(3, 1, TemperatureStatus.Field);

    /// <summary>All bytes.</summary>
    public static BlockLayout Layout { get; } = new(
        "PPS Status Data Block", "R3.2v1.1 Table 6.62", BlockTail.None,
        VoltageField, CurrentField, BlockField.Reserved(3, 7, 4), ModeField, TemperatureStatusField,
        BlockField.Reserved(3, 0, 0));

    /// <summary>Whether the source measures its voltage; null when that is not known.</summary>
    public bool? TellsVoltage => Block.Get(VoltageField) is { } raw ? raw != NoVoltage : null;

    /// <summary>0 to 1310.68 V in steps of 20 mV, within 3 %; null when not supported or not known.</summary>
    public Voltage? OutputVoltage =>
        TellsVoltage == true ? Voltage.FromMillivolts(Block.GetScaled(VoltageField)!.Value) : null;

    /// <summary>Whether the source measures its current; null when that is not known.</summary>
    public bool? TellsCurrent => Block.Get(CurrentField) is { } raw ? raw != NoCurrent : null;

    /// <summary>0 to 12.7 A in steps of 50 mA, within 150 mA; null when not supported or not known.</summary>
    public Current? OutputCurrent =>
        TellsCurrent == true ? Current.FromMilliamperes(Block.GetScaled(CurrentField)!.Value) : null;

    /// <summary>The source limits its current; otherwise it holds its voltage.</summary>
    public bool? CurrentLimit => Block.GetFlag(ModeField);

    /// <summary>0 not supported, 1 normal, 2 warning, 3 over temperature.</summary>
    public int? TemperatureStatusCode => Block.GetScaled(TemperatureStatusField);

    /// <summary>Bytes beyond those of R3.2v1.1.</summary>
    public DataBlock Remainder => Block.From(Layout.Size);
}
