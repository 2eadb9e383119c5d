using Portwitness.PowerDelivery.Layout;

namespace Portwitness.PowerDelivery.ExtendedBlocks;

/// <summary>Get_Battery_Cap and Get_Battery_Status: which battery is asked for, 1 byte (R3.2v1.1, 6.5.4 and 6.5.5).</summary>
/// <param name="Block">The bytes.</param>
public sealed record BatteryReferenceBlock(DataBlock Block)
{
    private static readonly BlockField ReferenceField = BlockField.Bytes("Battery Reference", 0, 1)
        .Means(raw => raw switch
        {
            <= 3 => $"fixed battery {raw}",
            <= 7 => $"hot swappable battery {raw}",
            _ => $"reserved ({raw})",
        });

    /// <summary>All bytes.</summary>
    public static BlockLayout Layout { get; } = new(
        "Battery reference", "R3.2v1.1 6.5.4", BlockTail.None, ReferenceField);

    /// <summary>0 to 3 a fixed battery, 4 to 7 a hot swappable one; others reserved.</summary>
    public int? Reference => Block.GetScaled(ReferenceField);

    /// <summary>Bytes beyond those of R3.2v1.1.</summary>
    public DataBlock Remainder => Block.From(Layout.Size);
}
