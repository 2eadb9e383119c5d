using System.Buffers.Binary;
using System.Collections.Immutable;
using Portwitness.PowerDelivery.ExtendedBlocks;
using Portwitness.PowerDelivery.Framing;
using Portwitness.PowerDelivery.Headers;
using Portwitness.PowerDelivery.Layout;
using Portwitness.PowerDelivery.Messages;
using Portwitness.PowerDelivery.PowerData;

namespace Portwitness.PowerDelivery.Explanations;

/// <summary>
/// A message field by field, in order: both headers, data objects or data block, padding, and bytes that no size accounts
/// for. Reserved bits are listed; nothing is judged. Every byte of the message is in exactly one line.
/// </summary>
public static class Explanation
{
    private const int HeaderBytes = 2;
    private const int ObjectBytes = 4;
    private const string ChunkClause = "R3.2v1.1 6.2.1.2";

    /// <summary>Explains one message.</summary>
    /// <param name="message">The message.</param>
    /// <param name="sop">Whom it is between.</param>
    /// <param name="known">One bit for each bit of the message that was shown; empty when all were.</param>
    /// <param name="block">The data block that the message's chunk completes; null to explain the message's own bytes.</param>
    /// <param name="selected">The object that a Request selects; null when it is not known.</param>
    /// <exception cref="ArgumentException">The mask is neither empty nor as long as the message.</exception>
    public static ImmutableArray<ExplainedField> Of(
        in MessageView message, SopKind sop, ReadOnlySpan<byte> known = default, DataBlock? block = null,
        SourcePowerObject? selected = null)
    {
        int headers = message.ExtendedHeader is null ? HeaderBytes : 2 * HeaderBytes;
        byte[] mask = known.IsEmpty ? AllShown(headers + message.Payload.Length) : known.ToArray();
        if (mask.Length != headers + message.Payload.Length)
        {
            throw new ArgumentException("The mask is not as long as the message.", nameof(known));
        }

        ExplainedFields lines = new();
        lines.AddHeader("header", MessageHeader.LayoutFor(sop), message.Header.Raw, Half(mask));
        ReadOnlySpan<byte> payloadMask = mask.AsSpan(headers);
        if (message.ExtendedHeader is { } extended)
        {
            lines.AddHeader("extended header", ExtendedHeader.Layout, extended.Raw, Half(mask.AsSpan(HeaderBytes)));
            AddChunk(lines, message, sop, extended, payloadMask, block);
        }
        else
        {
            for (int i = 0; i < message.CompleteObjects; i++)
            {
                AddObject(lines, message, i, sop, selected, mask);
            }
        }

        AddRest(lines, message, headers, payloadMask);
        return lines.ToImmutable();
    }

    private static void AddObject(
        ExplainedFields lines, in MessageView message, int index, SopKind sop, SourcePowerObject? selected,
        ReadOnlySpan<byte> mask)
    {
        ReadOnlySpan<byte> words = mask[HeaderBytes..];
        BitLayout layout = LayoutIsShown(message, index, words)
            ? DataObjectLayouts.For(message, index, sop, selected, Half(mask))
            : DataObjectLayouts.UnknownLayout;
        lines.AddWord($"object {index + 1}", layout, message.ObjectAt(index), Word(words, index));
    }

    // The bits that chose the layout: type bits of a power object; header and ID header of a vendor defined message.
    private static bool LayoutIsShown(in MessageView message, int index, ReadOnlySpan<byte> mask)
    {
        MessageKind kind = message.Header.Kind;
        if (kind == MessageKind.VendorDefined)
        {
            return index == 0 || (Word(mask, 0) == uint.MaxValue && (index == 1 || Word(mask, 1) == uint.MaxValue));
        }

        bool isRequestWithCopy = kind == MessageKind.EPRRequest && message.CompleteObjects > 1;
        bool isList = kind == MessageKind.SourceCapabilities || kind == MessageKind.SinkCapabilities;
        int decider = isRequestWithCopy ? 1 : index;
        return !(isRequestWithCopy || isList)
            || PowerObjectKinds.IsShown(message.ObjectAt(decider), Word(mask, decider));
    }

    private static void AddChunk(
        ExplainedFields lines, in MessageView message, SopKind sop, ExtendedHeader extended, ReadOnlySpan<byte> mask,
        DataBlock? block)
    {
        if (extended.RequestChunk)
        {
            return;
        }

        DataBlock own = DataBlock.Of(message.Data, mask[..message.Data.Length]);
        int number = extended.Chunked ? extended.ChunkNumber : 0;
        int offset = number * Limits.MessageLimits.MaxExtendedMsgChunkLen;
        if (block is null && number > 0)
        {
            lines.AddBytes(
                ExplainedFields.Bytes(offset, own.Length), "Part of the data block", own, "the chunks before are needed",
                ChunkClause);
            return;
        }

        block ??= own;
        BlockExplanation.Add(lines, message.Header.Kind, sop, block);
        if (block.Length < extended.DataSize)
        {
            lines.AddMissing(
                ExplainedFields.Bytes(block.Length, extended.DataSize - block.Length), "Rest of the data block",
                "not in this message", ChunkClause);
        }
    }

    private static void AddRest(ExplainedFields lines, in MessageView message, int headers, ReadOnlySpan<byte> mask)
    {
        int at = message.Data.Length;
        DataBlock padding = DataBlock.Of(message.Padding, mask.Slice(at, message.Padding.Length));
        lines.AddBytes(
            $"message {ExplainedFields.Bytes(headers + at, padding.Length)}", "Padding", padding,
            "fills up the last word", ChunkClause);
        at += padding.Length;
        DataBlock trailing = DataBlock.Of(message.TrailingBytes, mask[at..]);
        lines.AddBytes(
            $"message {ExplainedFields.Bytes(headers + at, trailing.Length)}", "Trailing bytes", trailing,
            "no size accounts for them", "R3.2v1.1 6.2.1");
    }

    private static byte[] AllShown(int length)
    {
        byte[] mask = new byte[length];
        Array.Fill(mask, byte.MaxValue);
        return mask;
    }

    private static ushort Half(ReadOnlySpan<byte> mask) => BinaryPrimitives.ReadUInt16LittleEndian(mask);

    private static uint Word(ReadOnlySpan<byte> mask, int index) =>
        BinaryPrimitives.ReadUInt32LittleEndian(mask[(index * ObjectBytes)..]);
}
