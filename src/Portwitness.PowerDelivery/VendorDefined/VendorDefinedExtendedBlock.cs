using Portwitness.PowerDelivery.ExtendedBlocks;
using Portwitness.PowerDelivery.Layout;

namespace Portwitness.PowerDelivery.VendorDefined;

/// <summary>Vendor_Defined_Extended, VDEDB, 4 to 260 bytes (R3.2v1.1, Table 6.53).</summary>
/// <remarks>That its first four bytes are an unstructured VDM header is from memory.</remarks>
/// <param name="Block">The bytes.</param>
public sealed record VendorDefinedExtendedBlock(DataBlock Block)
{
    private static readonly BlockField WordField = BlockField.Bytes("VDM Header", 0, 4);

    /// <summary>All bytes: the header's fields; what the vendor defines follows.</summary>
    public static BlockLayout Layout { get; } = new(
        "Vendor Defined Extended Data Block", "R3.2v1.1 Table 6.53 (header from memory)", BlockTail.Opaque,
        [.. VdmHeader.UnstructuredLayout.Fields.Select(field => new BlockField(0, 4, field))]);

    /// <summary>The header; null when it is missing or was not wholly shown.</summary>
    public VdmHeader? Header => Block.Get(WordField) is { } raw ? new VdmHeader(raw) : null;

    /// <summary>What the vendor defines, 0 to 256 bytes.</summary>
    public DataBlock Data => Block.From(Layout.Size);

    /// <summary>Builds the block.</summary>
    public static VendorDefinedExtendedBlock Create(VdmHeader header, ReadOnlySpan<byte> data) =>
        new(DataBlock.Of([0, 0, 0, 0, .. data]).With(WordField, header.Raw));
}
