using Portwitness.PowerDelivery.Layout;

namespace Portwitness.PowerDelivery.ExtendedBlocks;

/// <summary>Get_Manufacturer_Info, GMIDB, 2 bytes (R3.2v1.1, 6.5.6). What the two bytes say is from memory.</summary>
/// <param name="Block">The bytes.</param>
public sealed record GetManufacturerInfoBlock(DataBlock Block)
{
    private static readonly BlockField TargetField = BlockField.Bytes("Manufacturer Info Target", 0, 1)
        .Codes((0, "port or cable plug"), (1, "battery"));

    private static readonly BlockField ReferenceField = BlockField.Bytes("Manufacturer Info Ref", 1, 1);

    /// <summary>All bytes.</summary>
    public static BlockLayout Layout { get; } = new(
        "Get Manufacturer Info Data Block", "R3.2v1.1 6.5.6 (bytes from memory)", BlockTail.None,
        TargetField, ReferenceField);

    /// <summary>0 port or cable plug, 1 battery; others reserved.</summary>
    public int? TargetCode => Block.GetScaled(TargetField);

    /// <summary>Which battery, 0 to 7; 0 for a port.</summary>
    public int? Reference => Block.GetScaled(ReferenceField);

    /// <summary>Bytes beyond those of R3.2v1.1.</summary>
    public DataBlock Remainder => Block.From(Layout.Size);
}
