using Portwitness.PowerDelivery.Layout;

namespace Portwitness.PowerDelivery.ExtendedBlocks;

/// <summary>Manufacturer_Info, MIDB, 5 to 26 bytes (R3.2v1.1, 6.5.7).</summary>
/// <param name="Block">The bytes.</param>
public sealed record ManufacturerInfoBlock(DataBlock Block)
{
    private static readonly BlockField VidField = BlockField.Bytes("VID", 0, 2);
    private static readonly BlockField PidField = BlockField.Bytes("PID", 2, 2);

    /// <summary>All bytes; a text follows.</summary>
    public static BlockLayout Layout { get; } = new(
        "Manufacturer Info Data Block", "R3.2v1.1 6.5.7", BlockTail.Text, VidField, PidField);

    /// <summary>USB vendor id.</summary>
    public int? VendorId => Block.GetScaled(VidField);

    /// <summary>USB product id.</summary>
    public int? ProductId => Block.GetScaled(PidField);

    /// <summary>The text up to its zero byte; bytes that cannot be printed as "\x00", those not shown as "\x??".</summary>
    public string Text => BlockText.Read(Block.From(Layout.Size));

    /// <summary>Bytes after the text's zero byte.</summary>
    public DataBlock Remainder => Block.From(Layout.Size + BlockText.LengthOf(Block.From(Layout.Size)));
}
