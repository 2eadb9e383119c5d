using Portwitness.Analysis.Conversation;
using Portwitness.PowerDelivery.Framing;
using Portwitness.PowerDelivery.Headers;
using Wire = Portwitness.Contracts.V1;

namespace Portwitness.Service.Translation;

/// <summary>One message of a listing.</summary>
internal static class MessageTranslation
{
    private const ushort SenderBit = 0x0100;
    private const ushort RevisionBits = 0x00C0;

    public static Wire.DecodedMessage ToContract(this MessageSummary summary)
    {
        MessageHeader header = summary.Header;
        Wire.DecodedMessage translated = new()
        {
            Index = summary.Index,
            TimeUs = summary.TimeUs,
            Sop = summary.Sop.ToText(),
            Message = header.Kind.Name,
            Sender = Sender(summary),
            MessageId = header.MessageId,
            Revision = Revision(summary),
            ObjectCount = header.ObjectCount,
            Hex = summary.Hex,
            Meaning = summary.Meaning,
            KnownHex = summary.KnownHex,
        };
        if (summary.CrcOk is { } crcOk)
        {
            translated.CrcOk = crcOk;
        }

        return translated;
    }

    // Bit 8 is the power role on SOP and "cable plug" elsewhere; a port that talks to a plug may be either end.
    private static string Sender(MessageSummary summary) => (summary.HeaderKnown & SenderBit, summary.Sop) switch
    {
        (0, _) => "unknown",
        (_, SopKind.Sop) => summary.Header.SourceOrCablePlug ? "source" : "sink",
        _ => summary.Header.SourceOrCablePlug ? "cable" : "unknown",
    };

    private static string Revision(MessageSummary summary) => (summary.HeaderKnown & RevisionBits) != RevisionBits
        ? "unknown"
        : summary.Header.RevisionCode switch
        {
            0 => "R1.0",
            1 => "R2.0",
            2 => "R3.x",
            _ => "invalid",
        };
}
