using System.Buffers.Binary;
using System.Collections.Immutable;
using Portwitness.PowerDelivery.Framing;
using Portwitness.PowerDelivery.Headers;

namespace Portwitness.PowerDelivery.Messages;

/// <summary>
/// Puts the data blocks of one sender on one SOP kind together from their chunks (R3.2v1.1, 6.2.1.2), and says what is
/// wrong with them. It never throws on what a message holds, and holds one block of at most 511 bytes.
/// </summary>
/// <remarks>
/// Hand each message of the sender to <see cref="HearSender"/> and, where they are captured, each of the receiver to
/// <see cref="HearReceiver"/>: so each message goes to two assemblers, one for each direction. Call
/// <see cref="BreakOff"/> at a reset and at the end.
/// </remarks>
/// <param name="sop">The SOP kind that is listened to.</param>
public sealed class ChunkAssembler(SopKind sop)
{
    private const ushort HeaderBits = 0x8E1F; // Extended, MessageID, Message Type
    private const ushort ExtendedHeaderBits = 0xFDFF; // all but the reserved bit

    private static readonly ChunkResult Passed = Result(ChunkOutcome.PassedThrough, default, []);

    private readonly ChunkBuffer buffer = new();
    private (MessageHeader Header, ExtendedHeader Extended)? last;
    private int requested;
    private bool receiverIsSeen;

    /// <summary>Takes a message of the sender.</summary>
    /// <param name="message">The message.</param>
    /// <param name="known">One bit for each bit of the message that was shown; empty when all were.</param>
    public ChunkResult HearSender(in MessageView message, ReadOnlySpan<byte> known = default)
    {
        if (Unreadable(message, known) is { } unreadable)
        {
            return unreadable;
        }

        if (message.ExtendedHeader is not { } extended)
        {
            return HearOther(message);
        }

        return extended.RequestChunk ? HearRequest(message, extended) : HearChunk(message, extended, known);
    }

    /// <summary>Takes a message of the receiver: a request for a chunk, or what breaks the block off.</summary>
    /// <param name="message">The message.</param>
    /// <param name="known">One bit for each bit of the message that was shown; empty when all were.</param>
    public ChunkResult HearReceiver(in MessageView message, ReadOnlySpan<byte> known = default)
    {
        receiverIsSeen = true;
        return Unreadable(message, known)
            ?? (message.ExtendedHeader is { RequestChunk: true } request ? HearRequest(message, request) : HearOther(message));
    }

    /// <summary>Forgets what was begun; null when nothing was. For resets, detaching, and the end of a capture.</summary>
    public ChunkResult? BreakOff()
    {
        last = null;
        requested = 0;
        if (!buffer.IsCollecting)
        {
            return null;
        }

        ChunkFault fault = new(
            ChunkFaultCode.Interrupted, buffer.Next,
            $"{buffer.Kind} broke off before chunk {buffer.Next} of {buffer.ChunkCount} chunks.");
        return buffer.Finish(ChunkOutcome.Broken, [fault]);
    }

    private static ChunkResult? Unreadable(in MessageView message, ReadOnlySpan<byte> known)
    {
        int headers = message.ExtendedHeader is null ? sizeof(ushort) : 2 * sizeof(ushort);
        bool maskFits = known.IsEmpty || known.Length == headers + message.Payload.Length;
        if (!maskFits || !IsShown(known, 0, HeaderBits) 
            || (message.ExtendedHeader is not null && !IsShown(known, sizeof(ushort), ExtendedHeaderBits)))
        {
            return Result(ChunkOutcome.NotReadable, message.Header.Kind,
                [new(ChunkFaultCode.HeaderNotShown, 0, "The headers were not shown, so that no chunk can be told.")]);
        }

        return message.Header.Extended && message.ExtendedHeader is null
            ? Result(ChunkOutcome.NotReadable, message.Header.Kind,
                [new(ChunkFaultCode.NoExtendedHeader, 0, "The message ends before its extended header.")])
            : null;
    }

    private static bool IsShown(ReadOnlySpan<byte> known, int offset, ushort bits) => known.IsEmpty
        || (BinaryPrimitives.ReadUInt16LittleEndian(known[offset..]) & bits) == bits;

    private static ChunkResult Result(ChunkOutcome outcome, MessageKind kind, ImmutableArray<ChunkFault> faults) =>
        new(outcome, kind, 0, [], null, faults);

    private ChunkResult HearOther(in MessageView message)
    {
        if (message.Header.Kind == MessageKind.GoodCRC)
        {
            return Passed;
        }

        ChunkResult? broken = BreakOff();
        return broken is null
            ? Passed
            : Result(ChunkOutcome.PassedThrough, message.Header.Kind, []) with { BrokenOff = broken };
    }

    private ChunkResult HearRequest(in MessageView message, ExtendedHeader request)
    {
        List<ChunkFault> faults = [];
        int number = request.ChunkNumber;
        if (!buffer.IsCollecting || message.Header.Kind != buffer.Kind)
        {
            faults.Add(new(ChunkFaultCode.WrongRequest, number,
                $"Chunk {number} of {message.Header.Kind} is asked for, which is not being sent in chunks."));
        }
        else if (number != buffer.Next)
        {
            faults.Add(new(ChunkFaultCode.WrongRequest, number,
                $"Chunk {number} is asked for; the next is chunk {buffer.Next}."));
        }
        else
        {
            requested = number;
        }

        if (!request.Chunked || request.DataSize != 0 || message.Header.ObjectCount != 1)
        {
            faults.Add(new(ChunkFaultCode.MalformedRequest, number,
                $"A request has Chunked 1, Data Size 0 and 1 object; this has Chunked {(request.Chunked ? 1 : 0)}, "
                + $"Data Size {request.DataSize} and {message.Header.ObjectCount}."));
        }

        return Result(ChunkOutcome.ChunkRequest, message.Header.Kind, [.. faults]);
    }

    private ChunkResult HearChunk(in MessageView message, ExtendedHeader extended, ReadOnlySpan<byte> known)
    {
        MessageHeader header = message.Header;
        int number = extended.Chunked ? extended.ChunkNumber : 0;
        if (last is { } before && before.Extended == extended && before.Header.Kind == header.Kind
            && before.Header.MessageId == header.MessageId)
        {
            return Result(ChunkOutcome.Repeated, header.Kind, []);
        }

        List<ChunkFault> faults = [];
        ChunkResult? broken = number == 0 || header.Kind != buffer.Kind ? BreakOff() : null;
        last = (header, extended);
        if (!buffer.IsCollecting)
        {
            buffer.Start(header.Kind, extended);
            ChunkChecks.Start(faults, extended, number, sop);
        }
        else if (buffer.Has(number))
        {
            return Repeated(header, number, $"Chunk {number} came again with another MessageID.");
        }

        ChunkChecks.Order(faults, buffer, extended, number);
        if (receiverIsSeen && number > 0 && requested != number)
        {
            faults.Add(new(ChunkFaultCode.NotRequested, number, $"Chunk {number} came without a request for it."));
        }

        int present = buffer.Put(number, message.Payload, known.IsEmpty ? default : known[^message.Payload.Length..]);
        ChunkChecks.Content(faults, buffer, message, extended, number, present);
        ChunkResult result = buffer.IsOver(number)
            ? buffer.Finish(buffer.IsWhole ? ChunkOutcome.Complete : ChunkOutcome.Broken, faults)
            : new(ChunkOutcome.Collecting, header.Kind, buffer.Size, buffer.Chunks, null, [.. faults]);
        return broken is null ? result : result with { BrokenOff = broken };
    }

    private static ChunkResult Repeated(MessageHeader header, int number, string text) => Result(
        ChunkOutcome.Repeated, header.Kind, [new(ChunkFaultCode.RepeatedChunk, number, text)]);
}
