using Portwitness.Analysis.Evidence;
using Portwitness.Following.Links;
using Portwitness.PowerDelivery.Explanations;
using Portwitness.PowerDelivery.ExtendedBlocks;
using Portwitness.PowerDelivery.Headers;
using Portwitness.PowerDelivery.Layout;
using Portwitness.PowerDelivery.VendorDefined;

namespace Portwitness.Analysis.Rules.Messages;

/// <summary>Reserved bits of a message other than a capability list or a request are not zero.</summary>
/// <remarks>Of Enter_USB the reserved bits are those that the kernel header names nothing for; lists and requests are other rules' matter.</remarks>
internal sealed class ReservedBitsInMessage : ContentRule
{
    private const int ReservedBitOfExtendedHeader = 0x0200;

    /// <inheritdoc/>
    public override RuleDescription Description { get; } = new()
    {
        Name = "reserved-bits-in-message",
        Severity = Severity.Violation,
        Title = "Reserved bits of a message are set",
        Clause = "R3.2v1.1 Tables 6.1, 6.3, 6.27, 6.29, 6.33, 6.41, 6.46, 6.47, 6.49 to 6.52 and 6.54 to 6.66",
        Why = "Reserved bits are sent as zero. A later edition may give them a meaning, and a device that knows it then reads "
            + "something that was never said.",
        Evidence = "The bits themselves, and the edition: others than R3.2v1.1 were not read.",
        Example = new MessageExample("AA1101000003", "Bit 0 of EPR_Mode is set; the edition is not stated."),
        Category = RuleCategory.Messages,
    };

    /// <inheritdoc/>
    public override ContentFault? Find(in HeardMessage message)
    {
        if (message.View.ExtendedHeader is { } extended)
        {
            return (extended.Raw & ReservedBitOfExtendedHeader) != 0
                ? Fault("Extended Message Header", ReservedBitOfExtendedHeader, extended.Raw)
                : message.Block is { } block && message.ChunkFaults is { IsDefaultOrEmpty: true } ? InBlock(message, block) : null;
        }

        for (int at = 0; at < message.View.CompleteObjects; at++)
        {
            uint word = message.View.ObjectAt(at);
            if (LayoutOf(message, at) is { } layout && (word & layout.ReservedMask) is var set and not 0)
            {
                return Fault(layout.Name, set, word) with { IsNote = message.Kind == MessageKind.EnterUSB };
            }
        }

        // Receivers ignore bit 5 where a cable plug is spoken with (Table 6.1).
        uint bits = message.View.Header.Raw & MessageHeader.LayoutFor(message.Sop).ReservedMask;
        return bits == 0 ? null : Fault("Message Header", bits, message.View.Header.Raw) with { IsNote = true };
    }

    // Of identities the ID header and passive cables were read; version 1.0 lays both out otherwise.
    private static BitLayout? LayoutOf(in HeardMessage message, int at)
    {
        if (VendorDefinedView.TryRead(message.View, message.Sop, out VendorDefinedView vendor))
        {
            return at == 0 ? vendor.Header.Layout
                : !vendor.Header.IsIdentity || !PassiveCableVdo.IsLayoutOf(vendor.Header) ? null
                : vendor.LayoutAt(at) is var layout && (at == 1 || layout == PassiveCableVdo.Layout) ? layout : null;
        }

        return at == 0 ? DataObjectLayouts.OfFirst(message.Kind) : null;
    }

    private static ContentFault? InBlock(in HeardMessage message, DataBlock block)
    {
        if (BlockLayouts.For(message.Kind, message.Sop) is not { } layout)
        {
            return null;
        }

        foreach (BlockField field in layout.Fields)
        {
            if (field.Bits.IsReserved && block.Get(field) is { } set and not 0)
            {
                return new ContentFault(
                    $"{layout.Name}: reserved bits of byte {field.Offset} are set.", "0",
                    $"byte {field.Offset}: 0x{block.Bytes[field.Offset]:X2}");
            }
        }

        return null;
    }

    private static ContentFault Fault(string name, uint set, uint word) =>
        new($"{name}: reserved bits are set.", "0", $"bits 0x{set:X} of 0x{word:X}");
}
