using Portwitness.Captures;
using Portwitness.PowerDelivery.Framing;
using Portwitness.PowerDelivery.Headers;

namespace Portwitness.Synthesis;

/// <summary>Who sends.</summary>
internal enum Sender
{
    /// <summary>The port that is captured; it is the downstream facing port.</summary>
    Source,

    /// <summary>The port's partner.</summary>
    Sink,

    /// <summary>The cable's marker.</summary>
    CablePlug,
}

/// <summary>
/// Puts messages on the line: MessageIDs, CRC, GoodCRC, retries (R3.2v1.1, 6.7.1) and the time that bits take. A record's
/// time is that of the first bit of its preamble.
/// </summary>
internal sealed class Transmitter(ICaptureSink records, int revisionCode, Jitter jitter)
{
    private const int SopKindCount = 5;

    // nRetryCount: 2, in R2.0 3 (R3.2v1.1, Table 6.70).
    private readonly int _attempts = revisionCode < 2 ? 4 : 3;
    private readonly int[,] _messageIds = new int[SopKindCount, 3];

    /// <summary>What the next message has to suffer; used up by the message that it fits.</summary>
    public Mishap? Mishap { get; set; }

    /// <summary>Whether messages take their time without being recorded.</summary>
    public bool Unrecorded { get; set; }

    /// <summary>The end of what was last sent, in microseconds.</summary>
    public long NowUs { get; private set; }

    /// <summary>Specification Revision of all headers.</summary>
    public int RevisionCode => revisionCode;

    /// <summary>Lets time go by.</summary>
    public void Pause(long us) => NowUs += us;

    /// <summary>Goes on to a time, unless it is past.</summary>
    public void GoTo(long us) => NowUs = Math.Max(NowUs, us);

    /// <summary>Begins MessageIDs anew: of one SOP kind, or of all.</summary>
    public void ResetMessageIds(SopKind? sop = null)
    {
        for (int kind = 0; kind < SopKindCount; kind++)
        {
            for (int sender = 0; sender < 3 && (sop is null || (int)sop == kind); sender++)
            {
                _messageIds[kind, sender] = 0;
            }
        }
    }

    /// <summary>Sends a message after a gap, builds its header, and lets the other side acknowledge it.</summary>
    /// <param name="sop">SOP or SOP'.</param>
    /// <param name="sender">Who sends.</param>
    /// <param name="kind">Class and type.</param>
    /// <param name="payload">Whole words behind the header.</param>
    /// <param name="gapUs">From the end of what was last sent.</param>
    /// <param name="heard">Whether anybody is there to acknowledge; otherwise all retries go out.</param>
    public void Send(
        SopKind sop, Sender sender, MessageKind kind, ReadOnlySpan<byte> payload, long gapUs, bool heard = true)
    {
        int count = payload.Length / 4;
        if (count > 0 && Suffer(MishapKind.WrongCount) is not null)
        {
            count += count < 7 ? 1 : -1;
        }

        Span<byte> message = stackalloc byte[2 + payload.Length];
        int messageId = _messageIds[(int)sop, (int)sender];
        WriteHeader(message, sop, sender, kind, count, Suffer(MishapKind.SameId) is null ? messageId : (messageId + 7) & 7);
        payload.CopyTo(message[2..]);
        SendRaw(sop, sender, message, gapUs, heard);
    }

    /// <summary>Sends bytes as they are; the MessageID counts on from that of their header.</summary>
    public void SendRaw(SopKind sop, Sender sender, ReadOnlySpan<byte> message, long gapUs, bool heard = true)
    {
        MessageHeader header = new((ushort)(message[0] | (message[1] << 8)));
        long jitterUs = jitter.NextUs();
        Pause(Suffer(MishapKind.Gap)?.Number ?? gapUs + jitterUs);
        if (header.Kind == MessageKind.GoodCRC)
        {
            Record(sop, message, crcWrong: Suffer(MishapKind.BadCrc) is not null);
            return;
        }

        int wrong = Suffer(MishapKind.BadCrc)?.Number ?? 0;
        Mishap? retryGap = Suffer(MishapKind.RetryGap);
        int attempts = _attempts + (Suffer(MishapKind.ExtraRetries)?.Number ?? 0);
        int lost = !heard || attempts > _attempts ? attempts
            : Suffer(MishapKind.DropGoodCrc)?.Number ?? (retryGap is null ? 0 : 1);
        if (Suffer(MishapKind.WrongGoodCrc) is not null)
        {
            Record(sop, message, crcWrong: false);
            long retryUs = NowUs + Gaps.Receive + Gaps.Retry;
            Pause(Gaps.Transmit);
            Acknowledge(sop, sender, (header.MessageId + 4) & 7);
            GoTo(retryUs);
        }

        for (int attempt = 0; attempt < attempts; attempt++)
        {
            Record(sop, message, crcWrong: attempt < wrong);
            if (attempt >= wrong && attempt >= lost)
            {
                Pause(Suffer(MishapKind.LateGoodCrc)?.Number ?? Gaps.Transmit);
                Acknowledge(sop, sender, header.MessageId);
                break;
            }

            Pause(retryGap?.Number ?? Gaps.Receive + (attempt < attempts - 1 ? Gaps.Retry : 0));
        }

        _messageIds[(int)sop, (int)sender] = (header.MessageId + 1) & 7;
    }

    /// <summary>Sends a reset signal: preamble and ordered set (R3.2v1.1, 5.6.4 and 5.6.5).</summary>
    public void Signal(SignalKind kind)
    {
        Pause(Gaps.InterFrameGap);
        records.OnSignal(new SignalRecord(NowUs, 0, kind));
        Pause(Microseconds(FrameEncoder.PreambleBits + (5 * OrderedSet.Length)));
    }

    /// <summary>Takes the mishap if it is of this kind, and of this number when one is given.</summary>
    public Mishap? Suffer(MishapKind kind, int? number = null)
    {
        if (Mishap is not { } mishap || mishap.Kind != kind || (number is not null && mishap.Number != number))
        {
            return null;
        }

        Mishap = null;
        return mishap;
    }

    private void Acknowledge(SopKind sop, Sender sender, int messageId)
    {
        Sender receiver = sender != Sender.Source ? Sender.Source : sop == SopKind.Sop ? Sender.Sink : Sender.CablePlug;
        Span<byte> goodCrc = stackalloc byte[2];
        WriteHeader(goodCrc, sop, receiver, MessageKind.GoodCRC, 0, messageId);
        Record(sop, goodCrc, crcWrong: false);
    }

    private void WriteHeader(Span<byte> message, SopKind sop, Sender sender, MessageKind kind, int count, int messageId)
    {
        bool isPort = sop == SopKind.Sop;
        bool isSource = sender == Sender.Source;
        ushort header = MessageHeader.Create(
            kind, count, messageId, isPort ? isSource : sender == Sender.CablePlug, isPort && isSource, revisionCode).Raw;
        message[0] = (byte)header;
        message[1] = (byte)(header >> 8);
    }

    private void Record(SopKind sop, ReadOnlySpan<byte> message, bool crcWrong)
    {
        if (!Unrecorded)
        {
            uint crc = MessageCrc.Of(message);
            records.OnMessage(new MessageRecord
            {
                TimeUs = NowUs,
                Line = 0,
                Sop = sop,
                Bytes = message,
                Crc = crcWrong ? crc ^ 1 : crc,
                CrcOk = crcWrong ? false : null,
            });
        }

        Pause(Microseconds(FrameEncoder.BitCount(message.Length)));
    }

    // fBitRate is 300 kbit/s, nominal (R3.2v1.1, 5.8.1): ten thirds of a microsecond a bit.
    private static long Microseconds(int bits) => ((bits * 10) + 2) / 3;
}
