using Portwitness.Analysis.Evidence;
using Portwitness.Analysis.Exchanges;
using Portwitness.Analysis.Phrases;
using Portwitness.Following.Links;

namespace Portwitness.Analysis.Rules.Sequence;

/// <summary>A message was sent again more often than allowed.</summary>
internal sealed class RetriesExceeded : SequenceRule, IHearsClosed
{
    /// <inheritdoc/>
    public override RuleDescription Description { get; } = new()
    {
        Name = "retries-exceeded",
        Severity = Severity.Violation,
        Title = "A message was sent again more often than allowed",
        Clause = "R3.2v1.1 Table 6.70, 6.7.1",
        Why = "Two retries are allowed since R3.0, three in R2.0, none to cable plugs and for long unchunked messages. Whoever goes "
            + "on keeps the line busy while the partner waits for a reset.",
        Evidence = "The attempts themselves; attempts with a wrong CRC count when the header is the same.",
        Example = new ScriptExample(
            "source: [5V 3A, 9V 3A]\nsteps: [attach, advertise with extra-retries 1, soft-reset sink]",
            "Source_Capabilities is sent four times."),
        Category = RuleCategory.Sequence,
    };

    /// <inheritdoc/>
    public void OnClosed(in Delivery delivery, Closing closing, long timeUs, ConversationState conversation)
    {
        if (delivery.Attempts <= delivery.AllowedAttempts || !conversation.Wants(this, conversation.PartyOf(delivery)))
        {
            return;
        }

        Phrase sort = delivery.IsLongUnchunked ? "an unchunked message of more than 26 bytes"
            : delivery.AllowedAttempts == 1 ? "a message of a cable plug"
            : delivery.Header.RevisionCode < 2 ? "a message of R2.0" : "a message of R3.x";
        conversation.Suspect(new Suspicion
        {
            Rule = this,
            Hit = new Hit(Verdict.Fails, $"{delivery.Kind} is {sort} and was sent {delivery.Attempts} times.")
            {
                Expected = $"{delivery.AllowedAttempts} attempts at most",
                Observed = $"{delivery.Attempts} attempts at {delivery.Kind}",
            },
            Party = delivery.Sender == Party.CablePlug ? Party.CablePlug : conversation.PartyOf(delivery),
            TimeUs = delivery.FirstUs,
            MessageIndex = delivery.Index,
            ShowsItself = true,
        });
    }
}
