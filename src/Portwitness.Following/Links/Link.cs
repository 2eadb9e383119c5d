using Portwitness.PowerDelivery.Framing;
using Portwitness.PowerDelivery.Headers;

namespace Portwitness.Following.Links;

/// <summary>Messages alike that were received wrongly one after the other.</summary>
public readonly record struct Garbled(ushort Header, int Length, long FirstUs, long LastUs, long Index, int Count);

/// <summary>The messages of one sender on one SOP kind: what was sent last, and which MessageID comes next.</summary>
public sealed class Link(SopKind sop, bool fromSourceOrPlug)
{
    // A retry comes within tReceive and tRetry, 1.3 ms, of the end of the attempt before; two may be missing.
    private const long RetryWithinUs = 8_000;

    private readonly byte[] _payload = new byte[Captures.CaptureLimits.MaximumMessageBytes];
    private int _length;
    private Delivery _current;
    private int? _nextId;
    private bool _isMissed;
    private Garbled _garbled;

    /// <summary>Whom the messages are between.</summary>
    public SopKind Sop => sop;

    /// <summary>Which end sends them.</summary>
    public bool FromSourceOrPlug => fromSourceOrPlug;

    /// <summary>What was sent last, while <see cref="IsOpen"/>.</summary>
    public ref Delivery Current => ref _current;

    /// <summary>Whether something was sent that is not closed yet.</summary>
    public bool IsOpen { get; private set; }

    /// <summary>Whether the capture shows GoodCRCs for these messages.</summary>
    public bool IsAcknowledgedVisibly { get; private set; }

    /// <summary>When its sender was last heard, by a message or by the GoodCRC of one; 0 before.</summary>
    public long HeardUs { get; private set; }

    /// <summary>Whether the next MessageID is known, so that a missing message shows as a gap.</summary>
    public bool KnowsNext => _nextId is not null;

    /// <summary>Whether this message repeats the one that was sent last.</summary>
    public bool IsRetry(in HeardMessage message, long uncertaintyUs) => IsOpen
        && message.View.Header == Current.Header && message.View.ExtendedHeader == Current.Extended
        && message.View.Payload.SequenceEqual(_payload.AsSpan(0, _length))
        && message.TimeUs - Current.LastUs <= BitRate.MostUs(Current.Bits) + RetryWithinUs + uncertaintyUs;

    /// <summary>Takes a retry.</summary>
    public void Retry(in HeardMessage message)
    {
        int garbled = TakeGarbled(message, Current.Bits);
        Current.Attempts += 1 + garbled;
        Current.GarbledAttempts += garbled;
        Current.LastUs = HeardUs = message.TimeUs;
    }

    /// <summary>A message that was received wrongly; it counts as an attempt when one like it follows.</summary>
    public void Garble(in HeardMessage message)
    {
        int length = message.View.Payload.Length;
        bool again = _garbled.Count > 0 && _garbled.Header == message.View.Header.Raw && _garbled.Length == length;
        _garbled = again
            ? _garbled with { LastUs = message.TimeUs, Count = _garbled.Count + 1 }
            : new Garbled(message.View.Header.Raw, length, message.TimeUs, message.TimeUs, message.Index, 1);
    }

    /// <summary>Garbled messages that wait for one like them.</summary>
    public Garbled Waiting => _garbled;

    /// <summary>Nothing like them came.</summary>
    public void ForgetGarbled() => _garbled = default;

    /// <summary>Begins a new message.</summary>
    public void Begin(in HeardMessage message, int detail, PowerDelivery.VendorDefined.VdmHeader vdm)
    {
        MessageHeader header = message.View.Header;
        Continuity continuity = ContinuityOf(header);
        int bits = message.FrameBits;
        message.View.Payload.CopyTo(_payload);
        _length = message.View.Payload.Length;
        long firstUs = _garbled.Count > 0 ? _garbled.FirstUs : message.TimeUs;
        int garbled = TakeGarbled(message, bits);
        Current = new Delivery
        {
            Sop = sop,
            FromSourceOrPlug = fromSourceOrPlug,
            Header = header,
            Extended = message.View.ExtendedHeader,
            Index = message.Index,
            FirstUs = garbled > 0 ? firstUs : message.TimeUs,
            LastUs = message.TimeUs,
            PreviousUs = Current.Index > 0 ? Current.FirstUs : message.TimeUs,
            Bits = bits,
            Attempts = 1 + garbled,
            GarbledAttempts = garbled,
            AcknowledgedUs = -1,
            RevisionBefore = continuity == Continuity.Continuous && !_isMissed ? Current.Header.RevisionCode : -1,
            Continuity = continuity,
            MissedBefore = continuity == Continuity.Gap ? MissedUntil(header.MessageId) - 1 : 0,
            Detail = detail,
            Vdm = vdm,
            IsWhole = message.Known.IsEmpty,
        };
        (IsOpen, _isMissed, HeardUs) = (true, false, message.TimeUs);
        _nextId = (header.MessageId + 1) & 7;
    }

    /// <summary>The GoodCRC for what was sent last.</summary>
    public void Acknowledge(long timeUs)
    {
        Current.AcknowledgedUs = timeUs;
        IsAcknowledgedVisibly = true;
    }

    /// <summary>A GoodCRC whose role is that of the message: whose MessageID was counted is not known any more.</summary>
    public void AcknowledgeByItsOwnRole()
    {
        Current.HasGoodCrcOfItsOwnRole = true;
        _nextId = null;
    }

    /// <summary>Messages up to one with this MessageID that the capture does not have, that one included; at least 1.</summary>
    public int MissedUntil(int messageId) => _nextId is { } next ? ((messageId - next) & 7) + 1 : 1;

    /// <summary>A GoodCRC for a message that the capture does not have.</summary>
    public void Miss(int messageId, long timeUs)
    {
        (IsOpen, _isMissed, HeardUs) = (false, true, timeUs);
        _nextId = (messageId + 1) & 7;
    }

    /// <summary>Nothing more will be said of what was sent last.</summary>
    public void Close() => IsOpen = false;

    /// <summary>Counters begin anew, or are not known any more.</summary>
    public void Reset()
    {
        IsOpen = false;
        _nextId = null;
        _garbled = default;
    }

    private Continuity ContinuityOf(MessageHeader header)
    {
        if (_nextId is not { } expected)
        {
            return Continuity.Fresh;
        }

        if (header.MessageId == expected)
        {
            return Continuity.Continuous;
        }

        // Without a GoodCRC the sender may count on or not; without any in the capture, nothing can be told.
        bool isSame = header.MessageId == ((expected - 1) & 7);
        return isSame && Current.IsAcknowledged ? Continuity.Same
            : isSame ? Continuity.Fresh
            : Continuity.Gap;
    }

    private int TakeGarbled(in HeardMessage message, int bits)
    {
        Garbled before = _garbled;
        bool belongs = before.Count > 0 && before.Header == message.View.Header.Raw
            && before.Length == message.View.Payload.Length
            && message.TimeUs - before.LastUs <= BitRate.MostUs(bits) + RetryWithinUs;
        if (belongs)
        {
            _garbled = default;
        }

        return belongs ? before.Count : 0;
    }
}
