using Portwitness.Analysis.Evidence;
using Portwitness.Analysis.Exchanges;
using Portwitness.Analysis.Phrases;
using Portwitness.Following.Exchanges;
using Portwitness.Following.Links;
using Portwitness.PowerDelivery.ExtendedBlocks;
using Portwitness.PowerDelivery.Headers;
using Portwitness.PowerDelivery.Limits;
using Portwitness.PowerDelivery.PowerData;

namespace Portwitness.Analysis.Rules.Sequence;

/// <summary>Not_Supported came where an answer is mandatory.</summary>
internal sealed class MandatoryAnswerNotSupported : SequenceRule, IHearsAnswered
{
    /// <inheritdoc/>
    public override RuleDescription Description { get; } = new()
    {
        Name = "mandatory-answer-not-supported",
        Severity = Severity.Violation,
        Title = "Not_Supported came where an answer is mandatory",
        Clause = "R3.2v1.1 Tables 6.77 to 6.79, 6.5.10",
        Why = "A device relies on what every port must tell: its list, its revision, its power, or the state of a programmable "
            + "supply. Not_Supported to anything else is no fault.",
        Evidence = "The edition for Revision, Source_Info and PPS_Status; for Source_Info also whether the port shares its power: a "
            + "single SPR port whose list never changes need not have it.",
        Example = new ScriptExample(
            "edition: R3.2\nsource: [5V 3A, 9V 3A]\nsteps: [attach, advertise, contract 2 at 3A, send sink Get_Revision, not-supported source]",
            "An R3.2 source does not say its revision."),
        Category = RuleCategory.Sequence,
    };

    /// <inheritdoc/>
    public void OnAnswered(Exchange exchange, in Delivery answer, ConversationState conversation)
    {
        if (answer.Kind != MessageKind.NotSupported || !exchange.Row.IsOwed || !conversation.Wants(this, conversation.PartyOf(answer)))
        {
            return;
        }

        Judge(exchange, answer, conversation);
    }

    // Apart, so that the other answers, nearly all, make no garbage.
    private void Judge(Exchange exchange, in Delivery answer, ConversationState conversation)
    {
        MessageKind asked = exchange.Row.Request;
        OfferedList offered = OfferedList.Of(conversation);
        (Editions wrongUnder, Func<SourceEvidence, Verdict?>? settle) = asked switch
        {
            _ when asked == MessageKind.GetSourceCap && answer.FromSourceOrPlug => (Editions.All, null),
            _ when asked == MessageKind.Request || asked == MessageKind.EPRRequest => (Editions.All, null),
            _ when asked == MessageKind.SoftReset => (Editions.All, null),
            _ when asked == MessageKind.GetRevision => (Editions.R32, null),
            _ when asked == MessageKind.GetPPSStatus && offered.HasPps => (Editions.R32, null),
            _ when asked == MessageKind.GetSinkCapExtended => (Editions.R32, null),
            _ when asked == MessageKind.GetSinkCap && !answer.FromSourceOrPlug => (Editions.All, null),
            _ when asked == MessageKind.GetSourceInfo => (Editions.R32, evidence => SettleSourceInfo(evidence, offered)),
            _ when asked == MessageKind.ExtendedControl && exchange.Request.Detail == (int)ExtendedControlType.EprKeepAlive
                && conversation.IsEpr => (Editions.All, null),
            _ when (asked == MessageKind.ExtendedControl || asked == MessageKind.EPRMode) && answer.FromSourceOrPlug
                && exchange.Request.Detail is (int)ExtendedControlType.EprGetSourceCap && offered.IsEprCapable => (Editions.All, null),
            _ => (Editions.None, (Func<SourceEvidence, Verdict?>?)null),
        };
        if (wrongUnder == Editions.None)
        {
            return;
        }

        conversation.Suspect(new Suspicion
        {
            Rule = this,
            Hit = new Hit(Verdict.Fails, $"{exchange.Row.Name} was answered with Not_Supported.")
            {
                Expected = Phrase.Join(" or ", exchange.Row.Answers.Select(static kind => Phrase.Of($"{kind}"))),
                Observed = $"Not_Supported to {exchange.Row.Name}",
                NextStep = asked == MessageKind.GetSourceInfo
                    ? "State the edition, and in the product file how many ports share power."
                    : null,
            },
            Party = conversation.PartyOf(answer),
            TimeUs = answer.FirstUs,
            FromUs = exchange.Request.FirstUs,
            MessageIndex = answer.Index,
            WrongUnder = wrongUnder,
            Settle = settle,
            IsProven = answer.Continuity == Continuity.Continuous,
        });
    }

    // Mandatory but for a single-port SPR charger with invariant objects (Table 6.77).
    private static Verdict? SettleSourceInfo(SourceEvidence evidence, OfferedList offered)
    {
        Verdict? byEdition = evidence.Settle(Editions.R32);
        bool isShared = evidence.Sharing is PowerSharing.Possible or PowerSharing.InUse;
        return byEdition is null ? null
            : offered.IsEprCapable || isShared ? byEdition
            : evidence.Sharing == PowerSharing.None ? null
            : Verdict.CannotTell;
    }

    private readonly record struct OfferedList(bool HasPps, bool IsEprCapable)
    {
        public static OfferedList Of(ConversationState conversation)
        {
            bool hasPps = false;
            bool isEpr = conversation.IsEpr;
            foreach (OfferedObject offered in conversation.Contracts.InForce)
            {
                hasPps |= offered is { KindIsKnown: true, Kind: PowerObjectKind.Pps };
                isEpr |= offered is { Position: 1, KindIsKnown: true, Kind: PowerObjectKind.Fixed } && offered.Known == uint.MaxValue
                    && offered.AsSource().AsFixed().EprCapable;
            }

            return new OfferedList(hasPps, isEpr);
        }
    }
}
