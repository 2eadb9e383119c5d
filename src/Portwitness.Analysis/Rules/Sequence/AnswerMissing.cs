using Portwitness.Analysis.Evidence;
using Portwitness.Analysis.Exchanges;
using Portwitness.Analysis.Phrases;
using Portwitness.Following.Exchanges;
using Portwitness.Following.Links;
using Portwitness.PowerDelivery.Framing;
using Portwitness.PowerDelivery.Headers;

namespace Portwitness.Analysis.Rules.Sequence;

/// <summary>A request that was acknowledged got no answer.</summary>
internal sealed class AnswerMissing : SequenceRule, IHearsUnanswered
{
    /// <inheritdoc/>
    public override RuleDescription Description { get; } = new()
    {
        Name = "answer-missing",
        Severity = Severity.Violation,
        Title = "A request was acknowledged but not answered",
        Clause = "R3.2v1.1 Tables 6.68 and 6.77 to 6.79, 6.4.2, 6.6.2",
        Why = "Whoever asks waits for the answer and then resets. A request for power without Accept, Reject or Wait, or an Accept "
            + "without PS_RDY, makes a device stop charging and begin again.",
        Evidence = "The request's GoodCRC; and then the next message of whoever owes the answer, with a MessageID that shows that none "
            + "was missed. A reset when the timer runs out leaves it open, but for PS_RDY after Accept.",
        Example = new ScriptExample(
            "source: [5V 3A, 9V 3A]\nsteps: [attach, advertise, contract 2 at 3A, send sink Get_Source_Info, pause 28ms, soft-reset sink]",
            "Get_Source_Info is acknowledged, and the sink resets after 30 ms without an answer."),
        Category = RuleCategory.Sequence,
    };

    /// <inheritdoc/>
    public void OnUnanswered(Exchange exchange, long timeUs, bool isProven, ConversationState conversation) =>
        Suspect(exchange, isProven, null, conversation);

    /// <inheritdoc/>
    public void OnSuperseded(Exchange exchange, in Delivery next, ConversationState conversation) =>
        Suspect(exchange, true, (SopKind.Sop, !next.FromSourceOrPlug), conversation);

    private void Suspect(
        Exchange exchange, bool isProven, (SopKind Sop, bool FromSourceOrPlug)? awaits, ConversationState conversation)
    {
        // In R2.0 a port may leave a VDM unanswered (from memory).
        bool mayBeIgnored = exchange.Row.Request == MessageKind.VendorDefined && exchange.Request.Header.RevisionCode < 2;
        if (mayBeIgnored || !conversation.Wants(this, conversation.Other(exchange.Request)))
        {
            return;
        }

        Delivery last = exchange.IsInSequel ? exchange.Answer : exchange.Request;
        conversation.Suspect(new Suspicion
        {
            Rule = this,
            Hit = new Hit(Verdict.Fails, $"{Capital(AwaitedText.Of(conversation.Other(exchange.Request)))} owed {AwaitedText.Owed(exchange)}, and did not give it.")
            {
                Expected = AwaitedText.Owed(exchange),
                Observed = exchange.IsInSequel ? Phrase.Of($"nothing after {exchange.Answer.Kind}") : $"nothing after {exchange.Row.Name}",
            },
            Party = conversation.Other(exchange.Request),
            TimeUs = last.FirstUs,
            FromUs = exchange.Request.FirstUs,
            MessageIndex = last.Index,
            IsProven = isProven,
            Awaits = awaits,
        });
    }

    private static string Capital(string text) => char.ToUpperInvariant(text[0]) + text[1..];
}
