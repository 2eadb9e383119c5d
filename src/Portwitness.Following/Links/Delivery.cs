using Portwitness.PowerDelivery.Framing;
using Portwitness.PowerDelivery.Headers;
using Portwitness.PowerDelivery.VendorDefined;

namespace Portwitness.Following.Links;

/// <summary>Whether a MessageID goes on from the sender's message before.</summary>
public enum Continuity
{
    /// <summary>Nothing is known of the message before: the capture or a reset begins here.</summary>
    Fresh,

    /// <summary>It goes on: nothing of this sender is missing in between.</summary>
    Continuous,

    /// <summary>The message before had the same MessageID and was acknowledged.</summary>
    Same,

    /// <summary>Messages are missing from the capture.</summary>
    Gap,
}

/// <summary>One message from its first attempt to its acknowledgement (R3.2v1.1, 6.7.1).</summary>
public struct Delivery
{
    /// <summary>Detail of a message whose content was not shown, or that has none.</summary>
    public const int NoDetail = -1;

    /// <summary>Whom it is between.</summary>
    public SopKind Sop { get; set; }

    /// <summary>Bit 8 of the header: which of the two ends sent it.</summary>
    public bool FromSourceOrPlug { get; set; }

    /// <summary>Its header.</summary>
    public MessageHeader Header { get; set; }

    /// <summary>Its extended header, if it has one.</summary>
    public ExtendedHeader? Extended { get; set; }

    /// <summary>Index of the first attempt, counted from 1.</summary>
    public long Index { get; set; }

    /// <summary>Time of the first attempt.</summary>
    public long FirstUs { get; set; }

    /// <summary>Time of its sender's message before; its own when there was none.</summary>
    public long PreviousUs { get; set; }

    /// <summary>Time of the last attempt.</summary>
    public long LastUs { get; set; }

    /// <summary>Bits of its frame.</summary>
    public int Bits { get; set; }

    /// <summary>How often it was sent.</summary>
    public int Attempts { get; set; }

    /// <summary>Those of them that were received wrongly.</summary>
    public int GarbledAttempts { get; set; }

    /// <summary>Time of the GoodCRC; -1 when none was seen.</summary>
    public long AcknowledgedUs { get; set; }

    /// <summary>Whether every bit of it was shown.</summary>
    public bool IsWhole { get; set; }

    /// <summary>Its GoodCRC says the same power role as it does: one of the two is wrong (R3.2v1.1, 6.2.1.1.4).</summary>
    public bool HasGoodCrcOfItsOwnRole { get; set; }

    /// <summary>A GoodCRC may have come that the capture shows only as garbled.</summary>
    public bool AcknowledgementIsGarbled { get; set; }

    /// <summary>Whether the capture shows GoodCRCs for this sender's messages.</summary>
    public bool AcknowledgementsAreShown { get; set; }

    /// <summary>Specification Revision of the sender's message before, if nothing is missing in between; otherwise -1.</summary>
    public int RevisionBefore { get; set; }

    /// <summary>How its MessageID follows the one before.</summary>
    public Continuity Continuity { get; set; }

    /// <summary>Messages of its sender that are missing before it, as far as MessageIDs tell.</summary>
    public int MissedBefore { get; set; }

    /// <summary>Action of EPR_Mode, type of Extended_Control, SVID and command of a structured VDM.</summary>
    public int Detail { get; set; }

    /// <summary>The header of a structured VDM; zeroes of other messages.</summary>
    public VdmHeader Vdm { get; set; }

    /// <summary>Whether a structured VDM asks or answers.</summary>
    public readonly VdmCommandType VdmType => Vdm.CommandType;

    /// <summary>What it is.</summary>
    public readonly MessageKind Kind => Header.Kind;

    /// <summary>Whether a GoodCRC was seen.</summary>
    public readonly bool IsAcknowledged => AcknowledgedUs >= 0;

    /// <summary>
    /// Whether its MessageID shows that nothing of its sender is missing before it. A 0 after a 7 does not: a reset that the
    /// capture misses begins there, too.
    /// </summary>
    public readonly bool GoesOnForCertain => Continuity == Continuity.Continuous && Header.MessageId != 0;

    /// <summary>A request for a chunk, or a chunk other than the first.</summary>
    public readonly bool IsLaterChunk =>
        Extended is { } extended && (extended.RequestChunk || (extended.Chunked && extended.ChunkNumber > 0));

    /// <summary>Whether chunks follow this one.</summary>
    public readonly bool HasMoreChunks => Extended is { Chunked: true, RequestChunk: false } extended
        && extended.DataSize > (extended.ChunkNumber + 1) * PowerDelivery.Limits.MessageLimits.MaxExtendedMsgChunkLen;

    /// <summary>A message that is never sent again: of a cable plug, or unchunked and longer than a chunk (R3.2v1.1, Table 6.70).</summary>
    public readonly bool IsNeverRetried => (Sop != SopKind.Sop && FromSourceOrPlug) || IsLongUnchunked;

    /// <summary>Unchunked and longer than a chunk.</summary>
    public readonly bool IsLongUnchunked => Extended is { Chunked: false } extended
        && extended.DataSize > PowerDelivery.Limits.MessageLimits.MaxExtendedMsgChunkLen;

    /// <summary>Attempts that are allowed in all.</summary>
    public readonly int AllowedAttempts =>
        IsNeverRetried ? 1 : 1 + PowerDelivery.Limits.MessageLimits.RetryCount(Header.RevisionCode);

    /// <summary>The first bit of the first attempt.</summary>
    public readonly Moment Start => new(FirstUs, Bits, AtEnd: false);

    /// <summary>The end of the last attempt.</summary>
    public readonly Moment End => new(LastUs, Bits, AtEnd: true);

    /// <summary>Who sent it.</summary>
    public readonly Party Sender => Sop == SopKind.Sop
        ? FromSourceOrPlug ? Party.Source : Party.Sink
        : FromSourceOrPlug ? Party.CablePlug : Party.Unsure;
}
