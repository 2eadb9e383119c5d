using Portwitness.Analysis.Evidence;
using Portwitness.Analysis.Exchanges;
using Portwitness.Analysis.Phrases;
using Portwitness.Following.Links;
using Portwitness.PowerDelivery.Messages;

namespace Portwitness.Analysis.Rules.Sequence;

/// <summary>A chunk that was asked for did not come, or a chunk is not as it must be.</summary>
internal sealed class ChunkMissing : SequenceRule, IHearsChunks
{
    /// <inheritdoc/>
    public override RuleDescription Description { get; } = new()
    {
        Name = "chunk-missing",
        Severity = Severity.Violation,
        Title = "A chunk of an extended message is missing or not as it must be",
        Clause = "R3.2v1.1 6.2.1.2, Tables 6.3, 6.4 and 6.84",
        Why = "Lists of EPR chargers come in chunks. A device that cannot put them together stays at 100 W or less, or resets.",
        Evidence = "For a missing chunk: the request for it, its GoodCRC, and the sender's next message with the next MessageID. What "
            + "the capture may have missed instead is a fault of the capture, chunks-faulty.",
        Example = new ScriptExample(
            """
            cable: EPR captive
            source: [5V 3A epr, 9V 3A, 15V 3A, 20V 5A, SPR AVS 3A/5A, 28V 5A, EPR AVS 15-28V 140W]
            steps:
              - attach
              - advertise
              - contract 4 at 5A epr
              - send sink Extended_Control 0100
              - raw source B1F7 2480 2C91 8108 2CD1 0200 2CB1 0400 F441 0600 F4B1 04E0 0000 0000 0000
              - raw sink 9194 008C 0000
              - send source Get_Revision
            """,
            "The request for chunk 1 is acknowledged, and the source asks something instead."),
        Category = RuleCategory.Sequence,
    };

    /// <inheritdoc/>
    public void OnChunkMissing(in Delivery request, in Delivery instead, ConversationState conversation)
    {
        if (conversation.Wants(this, conversation.PartyOf(instead)))
        {
            int number = request.Extended!.Value.ChunkNumber;
            Suspect(
                instead, conversation, $"Chunk {number} of {request.Kind} was asked for; {instead.Kind} came.",
                $"chunk {number} of {request.Kind}", $"{instead.Kind} instead of a chunk", showsItself: false);
        }
    }

    /// <inheritdoc/>
    public void OnChunkFault(in Delivery delivery, in ChunkFault fault, ConversationState conversation)
    {
        if (IsOfSender(fault.Code) && conversation.Wants(this, conversation.PartyOf(delivery)))
        {
            bool showsItself = fault.Code is not (ChunkFaultCode.SizeDiffers or ChunkFaultCode.NotRequested or ChunkFaultCode.RepeatedChunk);
            if (showsItself || delivery.Continuity == Continuity.Continuous)
            {
                Suspect(delivery, conversation, fault.Text, "a chunk as 6.2.1.2 has it", $"{delivery.Kind}: {fault.Code.ToString()}", showsItself);
            }
        }
    }

    /// <summary>Whether a fault is the sender's whatever the capture misses, or is judged here with what it may have missed.</summary>
    public static bool IsOfSender(ChunkFaultCode code) => code
        is ChunkFaultCode.SizeBeyondLimit or ChunkFaultCode.UnchunkedWithNumber or ChunkFaultCode.UnchunkedWithCablePlug
        or ChunkFaultCode.PaddingNotZero or ChunkFaultCode.MalformedRequest or ChunkFaultCode.SizeDiffers
        or ChunkFaultCode.NotRequested or ChunkFaultCode.RepeatedChunk;

    private void Suspect(
        in Delivery delivery, ConversationState conversation, Phrase detail, Phrase expected, Phrase observed, bool showsItself) =>
        conversation.Suspect(new Suspicion
        {
            Rule = this,
            Hit = new Hit(Verdict.Fails, detail) { Expected = expected, Observed = observed },
            Party = delivery.Sender == Party.CablePlug ? Party.CablePlug : conversation.PartyOf(delivery),
            TimeUs = delivery.FirstUs,
            FromUs = delivery.PreviousUs,
            MessageIndex = delivery.Index,
            ShowsItself = showsItself,
            Awaits = showsItself ? null : (delivery.Sop, !delivery.FromSourceOrPlug),
        });
}
