using Portwitness.PowerDelivery.Layout;

namespace Portwitness.PowerDelivery.ExtendedBlocks;

/// <summary>
/// Security_Request and _Response, Firmware_Update_Request and _Response (R3.2v1.1, 6.5.8 and 6.5.9): other documents
/// define what is in them. Up to 260 bytes.
/// </summary>
/// <param name="Block">The bytes.</param>
public sealed record OpaqueBlock(DataBlock Block)
{
    /// <summary>No fields.</summary>
    public static BlockLayout Layout { get; } = new("Opaque data block", "R3.2v1.1 6.5.8", BlockTail.Opaque);
}
