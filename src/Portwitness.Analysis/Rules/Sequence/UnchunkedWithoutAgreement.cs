using Portwitness.Analysis.Evidence;
using Portwitness.Analysis.Exchanges;
using Portwitness.Analysis.Phrases;
using Portwitness.Following.Links;
using Portwitness.PowerDelivery.Framing;
using Portwitness.PowerDelivery.Headers;
using Portwitness.PowerDelivery.Limits;
using Portwitness.PowerDelivery.PowerData;

namespace Portwitness.Analysis.Rules.Sequence;

/// <summary>An extended message is sent unchunked although the partners have not both said that they support it.</summary>
internal sealed class UnchunkedWithoutAgreement : SequenceRule, IHearsBegan
{
    private const int Revision3Code = 2;

    /// <inheritdoc/>
    public override RuleDescription Description { get; } = new()
    {
        Name = "unchunked-without-agreement",
        Severity = Severity.Violation,
        Title = "An extended message is unchunked although the partners did not agree on that",
        Clause = "R3.2v1.1 6.2.1.2, Tables 6.3, 6.9 and 6.23 to 6.26",
        Why = "A partner that knows only chunks cannot read a whole message: it ignores it or resets, and the status, the "
            + "identity or the EPR list in it is never read.",
        Evidence = "The source's list or the request of the contract in force, with the bit clear in either, and nothing missing since.",
        Editions = Editions.R3x,
        Example = new ScriptExample(
            """
            source: [5V 3A, 9V 3A]
            steps:
              - attach
              - advertise
              - contract 2 at 3A
              - send sink Get_Status
              - raw source A287 0700 2101 0000 0200 00
              - send sink Get_Status
              - send source Status 21010000020000
            """,
            "Neither the list nor the request has the bit; the source sends Status unchunked."),
        Category = RuleCategory.Sequence,
    };

    /// <inheritdoc/>
    public bool Concerns(MessageKind kind) => kind.Class == MessageClass.Extended;

    /// <inheritdoc/>
    public void OnBegan(in Delivery delivery, ConversationState conversation)
    {
        if (delivery is not { Sop: SopKind.Sop, IsWhole: true, Extended.Chunked: false } || delivery.Header.RevisionCode < Revision3Code
            || conversation.GrantedRequest is not { } granted
            || Lacking(granted.Word.UnchunkedExtendedMessagesSupported, conversation) is not { } lacking
            || !conversation.Wants(this, conversation.PartyOf(delivery)))
        {
            return;
        }

        conversation.Suspect(new Suspicion
        {
            Rule = this,
            Hit = new Hit(Verdict.Fails, $"{delivery.Kind} is unchunked; Unchunked Extended Messages Supported is clear in {lacking}.")
            {
                Expected = "Chunked = 1, unless list and request both have the bit",
                Observed = $"Chunked = 0; the bit is clear in {lacking}",
            },
            Party = conversation.PartyOf(delivery),
            TimeUs = delivery.FirstUs,
            MessageIndex = delivery.Index,
            WrongUnder = Editions.R3x,
            IsProven = delivery.Continuity == Continuity.Continuous
                && conversation.MissesNothingSince(Math.Min(conversation.ListUs, granted.TimeUs)),
            Awaits = (SopKind.Sop, !delivery.FromSourceOrPlug),
        });
    }

    // A later request that was refused may carry the sink's bit: then the sink has said that it supports it.
    private static Phrase? Lacking(bool isGranted, ConversationState conversation)
    {
        bool sinkLacksIt = !isGranted && conversation.Requested is { Word.UnchunkedExtendedMessagesSupported: false };
        OfferedObject first = conversation.Contracts.InForce is [var object1, ..] ? object1 : default;
        bool sourceLacksIt = first.Is(PowerObjectKind.Fixed) && first.Knows(FixedSourceSupply.UnchunkedField)
            && !first.AsSource().AsFixed().UnchunkedExtendedMessagesSupported;
        return (sourceLacksIt, sinkLacksIt) switch
        {
            (true, true) => "the source's list and in the sink's request",
            (true, false) => "the source's list",
            (false, true) => "the sink's request",
            _ => null,
        };
    }
}
