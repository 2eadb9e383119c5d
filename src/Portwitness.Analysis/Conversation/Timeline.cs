using System.Buffers.Binary;
using Portwitness.Captures;
using Portwitness.PowerDelivery.Framing;
using Portwitness.PowerDelivery.Headers;
using Portwitness.PowerDelivery.Messages;

namespace Portwitness.Analysis.Conversation;

/// <summary>
/// The conversation in lines for people: GoodCRCs, retries and what repeats are folded. Memory is bounded: it holds one
/// message that waits for its acknowledgement, and at most <see cref="RepeatFolder.Most"/> lines.
/// </summary>
internal sealed class Timeline
{
    private readonly RepeatFolder _lines = new();
    private readonly byte[] _waiting = new byte[CaptureLimits.MaximumMessageBytes];
    private int _waitingLength;
    private SopKind _waitingSop;
    private TimelineEntry? _entry;
    private bool _sawGoodCrc;

    /// <summary>The lines in order.</summary>
    public IReadOnlyList<TimelineEntry> Lines => _lines.Lines;

    /// <summary>Lines that were not kept because there were too many.</summary>
    public long Unlisted => _lines.Unlisted;

    /// <summary>A message that was received rightly.</summary>
    public void OnMessage(in MessageRecord record, in MessageView view, long index, string meaning)
    {
        ReadOnlySpan<byte> waiting = _waiting.AsSpan(0, _waitingLength);
        if (_entry is { } entry && record.Sop == _waitingSop)
        {
            MessageHeader sent = new(BinaryPrimitives.ReadUInt16LittleEndian(waiting));
            if (view.Header.Kind == MessageKind.GoodCRC && view.Header.MessageId == sent.MessageId
                && view.Header.SourceOrCablePlug != sent.SourceOrCablePlug)
            {
                _sawGoodCrc = true;
                entry.Acknowledged = true;
                return;
            }

            // A retry carries the same MessageID (R3.2v1.1, 6.7.1.1) and so is the same to the byte.
            if (record.Bytes.SequenceEqual(waiting) && record.Known.IsEmpty)
            {
                entry.Retries++;
                return;
            }
        }

        Flush();
        record.Bytes.CopyTo(_waiting);
        (_waitingLength, _waitingSop) = (record.Bytes.Length, record.Sop);
        _entry = _lines.Spare() ?? new TimelineEntry();
        _entry.Kind = TimelineKind.Message;
        (_entry.TimeUs, _entry.LastUs, _entry.MessageIndex) = (record.TimeUs, record.TimeUs, index);
        (_entry.Sop, _entry.Direction) = (record.Sop.ToText(), Direction(record.Sop, view.Header, record.Known));
        (_entry.Name, _entry.Meaning) = (view.Header.Kind.Name, meaning);
        (_entry.Acknowledged, _entry.Retries) = (null, 0);
    }

    /// <summary>A message that was received with a wrong CRC.</summary>
    public void OnBadMessage(in MessageRecord record, in MessageView view, long index)
    {
        Flush();
        _lines.Add(new TimelineEntry
        {
            Kind = TimelineKind.Message,
            TimeUs = record.TimeUs,
            LastUs = record.TimeUs,
            MessageIndex = index,
            Sop = record.Sop.ToText(),
            Name = view.Header.Kind.Name,
            Meaning = MessageMeaning.WrongCrc,
        });
    }

    /// <summary>A reset signal.</summary>
    public void OnSignal(SignalRecord signal) => Add(
        TimelineKind.Signal, signal.TimeUs, signal.Kind == SignalKind.HardReset ? "Hard Reset" : "Cable Reset", "");

    /// <summary>A frame that could not be read to its end.</summary>
    public void OnBrokenFrame(BrokenFrameRecord frame) =>
        Add(TimelineKind.Event, frame.TimeUs, "frame that broke", BrokenFrames.Text(frame));

    /// <summary>Something that happened at the bench.</summary>
    public void OnEvent(EventRecord happened) => Add(
        TimelineKind.Event, happened.TimeUs, happened.Name,
        string.Join(' ', new[] { happened.Port, happened.Value }.OfType<string>()));

    /// <summary>The capture has ended.</summary>
    public void Complete()
    {
        Flush();
        _lines.Complete();
    }

    private void Add(TimelineKind kind, long timeUs, string name, string meaning)
    {
        Flush();
        _lines.Add(new TimelineEntry { Kind = kind, TimeUs = timeUs, LastUs = timeUs, Name = name, Meaning = meaning });
    }

    // A capture that shows no GoodCRC at all, as a kernel log, does not tell who was acknowledged.
    private void Flush()
    {
        if (_entry is { } entry)
        {
            if (_sawGoodCrc && entry.Acknowledged is null && entry.Name != MessageKind.GoodCRC.Name)
            {
                entry.Acknowledged = false;
            }

            _lines.Add(entry);
            _entry = null;
        }
    }

    // Bit 8 is the power role on SOP and "cable plug" elsewhere (Table 6.1).
    private static string Direction(SopKind sop, MessageHeader header, ReadOnlySpan<byte> known) =>
        (known.IsEmpty || (known[1] & 1) != 0, sop, header.SourceOrCablePlug) switch
        {
            (false, _, _) => "",
            (_, SopKind.Sop, true) => "source → sink",
            (_, SopKind.Sop, false) => "sink → source",
            (_, _, true) => "cable → port",
            _ => "port → cable",
        };
}
