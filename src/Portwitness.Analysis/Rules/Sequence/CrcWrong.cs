using Portwitness.Analysis.Evidence;
using Portwitness.Analysis.Exchanges;
using Portwitness.Following.Links;
using Portwitness.PowerDelivery.Headers;

namespace Portwitness.Analysis.Rules.Sequence;

/// <summary>Messages were received with a wrong CRC.</summary>
internal sealed class CrcWrong : SequenceRule, IHearsClosed, IHearsGarbled
{
    /// <inheritdoc/>
    public override RuleDescription Description { get; } = new()
    {
        Name = "crc-wrong",
        Severity = Severity.Caution,
        Title = "Messages were received with a wrong CRC",
        Clause = "R3.2v1.1 5.6.2, 6.7.1",
        Why = "Noise, a poor cable or contact, the sender or the instrument itself: the capture does not say which. A message that "
            + "was sent again did its work. What was not sent again is not known, and nothing is learned from it.",
        Evidence = "The CRC, or the receiver's word on it (\"crc\", \"crc_ok\").",
        Example = new ScriptExample(
            "source: [5V 3A, 9V 3A]\nsteps: [attach, advertise with bad-crc 3, advertise, contract 2 at 3A]",
            "All three attempts at a list have a wrong CRC."),
        Category = RuleCategory.Sequence,
    };

    /// <inheritdoc/>
    public void OnClosed(in Delivery delivery, Closing closing, long timeUs, ConversationState conversation)
    {
        if (delivery.GarbledAttempts > 0)
        {
            conversation.Report(
                this,
                new Hit(Verdict.CannotTell, "What was received wrongly was sent again, as it should be.")
                {
                    IsNote = true, Expected = "a right CRC", Observed = "a wrong CRC, then the message again",
                },
                delivery.FirstUs, delivery.Index);
        }
    }

    /// <inheritdoc/>
    public void OnGarbled(Garbled garbled, ConversationState conversation)
    {
        bool isGoodCrc = new MessageHeader(garbled.Header).Kind == MessageKind.GoodCRC;
        conversation.Report(
            this,
            isGoodCrc
                ? new Hit(Verdict.CannotTell, "A GoodCRC was received wrongly; its receiver may have heard it.")
                {
                    IsNote = true, Expected = "a right CRC", Observed = "a GoodCRC with a wrong CRC",
                }
                : new Hit(Verdict.CannotTell, "It did not come again, so that what it said is not known; nothing was learned from it.")
                {
                    Expected = "a right CRC",
                    Observed = "a wrong CRC, and not the message again",
                    NextStep = "Capture again with a short cable and the instrument close to the port.",
                },
            garbled.FirstUs, garbled.Index);
    }
}
