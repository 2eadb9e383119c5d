using Portwitness.PowerDelivery.Layout;
using Portwitness.PowerDelivery.Units;

namespace Portwitness.PowerDelivery.ExtendedBlocks;

/// <summary>Battery_Capabilities, BCDB, 9 bytes (R3.2v1.1, Table 6.59).</summary>
/// <param name="Block">The bytes.</param>
public sealed record BatteryCapabilitiesBlock(DataBlock Block)
{
    private const uint UnknownCapacity = 0xFFFF;
    private static readonly BlockField VidField = BlockField.Bytes("VID", 0, 2);
    private static readonly BlockField PidField = BlockField.Bytes("PID", 2, 2);
    private static readonly BlockField DesignField = Capacity("Battery Design Capacity", 4);
    private static readonly BlockField LastFullField = Capacity("Battery Last Full Charge Capacity", 6);
    private static readonly BlockField InvalidReferenceField = BlockField.Flag("Invalid Battery Reference", 8, 0);

    /// <summary>All bytes.</summary>
    public static BlockLayout Layout { get; } = new(
        "Battery Capability Data Block", "R3.2v1.1 Table 6.59", BlockTail.None,
        VidField, PidField, DesignField, LastFullField, BlockField.Reserved(8, 7, 1), InvalidReferenceField);

    /// <summary>USB vendor id.</summary>
    public int? VendorId => Block.GetScaled(VidField);

    /// <summary>USB product id.</summary>
    public int? ProductId => Block.GetScaled(PidField);

    /// <summary>0 to 6553.4 Wh in steps of 0.1 Wh, 0 when there is no battery; null when the battery does not know it.</summary>
    public Energy? DesignCapacity => Read(DesignField);

    /// <summary>As of <see cref="DesignCapacity"/>, at the last full charge.</summary>
    public Energy? LastFullChargeCapacity => Read(LastFullField);

    /// <summary>The battery that was asked for does not exist.</summary>
    public bool? InvalidReference => Block.GetFlag(InvalidReferenceField);

    /// <summary>Bytes beyond those of R3.2v1.1.</summary>
    public DataBlock Remainder => Block.From(Layout.Size);

    private static BlockField Capacity(string name, int offset) =>
        BlockField.Bytes(name, offset, 2, FieldUnit.MilliwattHours, 100)
            .Codes((0, "no battery"), (UnknownCapacity, "unknown"));

    private Energy? Read(BlockField field) => Block.Get(field) is { } raw && raw != UnknownCapacity
        ? Energy.FromMilliwattHours(Block.GetScaled(field)!.Value)
        : null;
}
