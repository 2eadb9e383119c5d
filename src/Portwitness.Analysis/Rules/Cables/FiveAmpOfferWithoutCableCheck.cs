using Portwitness.Analysis.Evidence;
using Portwitness.Analysis.Phrases;
using Portwitness.Analysis.Profile;
using Portwitness.PowerDelivery.Limits;
using Portwitness.PowerDelivery.Units;

namespace Portwitness.Analysis.Rules.Cables;

/// <summary>More than 3 A is offered before the cable said that it carries more.</summary>
public sealed class FiveAmpOfferWithoutCableCheck : CableRule
{
    /// <inheritdoc/>
    public override RuleDescription Description { get; } = new()
    {
        Name = "five-amp-offer-without-cable-check",
        Severity = Severity.Violation,
        Title = "More than 3 A is offered without asking the cable",
        Clause = "R3.2v1.1 4.4",
        Why = "A source must ask the cable's marker before it offers more than 3 A. One that offers 5 A to any cable can overheat "
            + "the thin wires of a 3 A cable. A cable that is fixed to the charger need not be asked.",
        Evidence = "The attach, and an instrument that records SOP'. Whether R2.0 asks for the same is from memory.",
        Example = new ScriptExample(
            """
            records_sop: [SOP, SOP']
            source: [5V 3A, 9V 3A, 15V 3A, 20V 5A]
            steps: [attach, advertise, contract 4 at 5A]
            """,
            "20 V is offered with 5 A, and no message went to the cable."),
        Category = RuleCategory.Cables,
    };

    /// <inheritdoc/>
    public override void Check(CableCase seen, IHitSink hits)
    {
        if (seen.Moment != CableMoment.OfferAbove3A || seen.Offer is not var (position, current) || seen.Captive
            || seen.Inquiry == CableInquiry.Answered || seen.RecordsSopPrime == false)
        {
            return;
        }

        // A capture that begins late shows nothing that is suspect where the cable is stated to carry 5 A.
        bool statedFor5A = seen.Stated?.CurrentMilliamperes > Electrical.UnmarkedCableMaximum.Milliamperes;
        if (!seen.SinceAttach && seen.Inquiry == CableInquiry.NotAsked && statedFor5A)
        {
            return;
        }

        bool asked = seen.Inquiry == CableInquiry.Unanswered;
        bool proved = seen.SinceAttach && seen.RecordsSopPrime == true && seen.Inquiry != CableInquiry.Unclear
            && (seen.Editions & (Editions.R10 | Editions.R20)) == 0
            && !(asked && statedFor5A);
        hits.Report(this, new Hit(proved ? Verdict.Fails : Verdict.CannotTell, Detail(seen, current))
        {
            Position = position,
            Expected = "a marker that says 5 A, in its answer to Discover Identity on SOP'",
            Observed = seen.Inquiry switch
            {
                CableInquiry.NotAsked => proved ? "not asked" : "no question seen",
                CableInquiry.Unanswered => "asked, no answer",
                _ => "asked, answer not readable",
            },
            NextStep = proved ? null : CaptureTheQuestion,
        });
    }

    private static Phrase Detail(CableCase seen, Current current) => seen.Inquiry switch
    {
        CableInquiry.Unanswered => Phrase.Of($"{current} is offered although the cable did not answer; such a cable carries 3 A."),
        CableInquiry.Unclear => $"{current} is offered; what the cable said cannot be read.",
        _ when !seen.SinceAttach =>
            $"{current} is offered; the capture begins after the attach and does not show whether the cable was asked.",
        _ when seen.RecordsSopPrime != true =>
            $"{current} is offered, and no message to the cable was seen; the instrument may not record them.",
        _ => $"{current} is offered, and since the attach the cable was not asked.",
    };
}
