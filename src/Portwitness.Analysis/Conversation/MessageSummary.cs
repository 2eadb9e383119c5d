using Portwitness.PowerDelivery.Framing;
using Portwitness.PowerDelivery.Headers;

namespace Portwitness.Analysis.Conversation;

/// <summary>One message for a listing.</summary>
/// <param name="Index">Counted from 1.</param>
/// <param name="TimeUs">Microseconds from the start of the capture.</param>
/// <param name="Sop">Whom it is between.</param>
/// <param name="Header">Its header; bits that were not shown are 0.</param>
/// <param name="HeaderKnown">One bit for each bit of the header that was shown.</param>
/// <param name="Hex">Header and payload.</param>
/// <param name="KnownHex">Mask of the bits that were shown; empty when all were.</param>
/// <param name="CrcOk">Whether the CRC was right; null when not known.</param>
/// <param name="Meaning">One line for people.</param>
public sealed record MessageSummary(
    long Index, long TimeUs, SopKind Sop, MessageHeader Header, ushort HeaderKnown, string Hex, string KnownHex,
    bool? CrcOk, string Meaning);
