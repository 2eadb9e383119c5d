using Portwitness.Analysis.Evidence;
using Portwitness.Analysis.Phrases;
using Portwitness.Analysis.Profile;
using Portwitness.PowerDelivery.Limits;
using Portwitness.PowerDelivery.PowerData;
using Portwitness.PowerDelivery.Requests;

namespace Portwitness.Analysis.Rules.Requests;

/// <summary>A source rejects a valid request.</summary>
/// <remarks>
/// A source may have less to give than it said, and then sends another list. Only of PPS does the standard say that a
/// current within the object is not to be rejected.
/// </remarks>
public sealed class ValidRequestRejected : RequestRule
{
    /// <inheritdoc/>
    public override RuleDescription Description { get; } = new()
    {
        Name = "valid-request-rejected",
        Severity = Severity.Violation,
        Title = "A valid request was rejected",
        Clause = "R3.2v1.1 6.4.1.2.4.1.1, 6.4.2",
        Why = "What is advertised can be asked for. A device that is refused stays at 5 V or tries again and again, although "
            + "the label promises what it asked for.",
        Evidence = "Every bit of the request, the list in force with no message missed since, and what the source lists or grants "
            + "afterwards. Only for PPS and R3.2 is a rejection surely wrong.",
        Editions = Editions.R30 | Editions.R31 | Editions.R32,
        Example = new ScriptExample(
            """
            edition: R3.2
            source: [5V 3A, 9V 3A, PPS 5-11V 3A]
            steps:
              - attach
              - advertise
              - request 3 at 11V 3A
              - reject
              - contract 3 at 9V 3A
            """,
            "11 V 3 A are within the PPS object; that it is 33 W of 27 W is no reason."),
        Category = RuleCategory.Requests,
    };

    /// <inheritdoc/>
    public override bool IsOfSource => true;

    /// <inheritdoc/>
    public override void Check(in ObservedRequest request, IHitSink hits)
    {
        if (request.Answer != RequestAnswer.Rejected || request.ListChanged || RequestCheck.Of(request) is not { Count: 0 }
            || (request.Evidence.Editions & Editions.R3x) == 0)
        {
            return;
        }

        OfferedObject offered = request.Offers[request.Request.ObjectPosition - 1];
        RequestTerms terms = RequestTerms.Read(request.Request, offered.AsSource());

        // Below 1 A a PPS source should reject (7.1.4.2.2).
        bool isPps = terms.Shape == RequestShape.Pps;
        if (isPps && terms.Current < Electrical.PpsCurrentLimitMinimum)
        {
            return;
        }

        bool settled = isPps && request.ListStayed && request.NothingMissed && request.Evidence.Editions == Editions.R32;
        string asked = string.Join(' ', new object?[] { terms.Voltage, terms.Current, terms.Power }.Where(value => value is not null));
        hits.Report(this, new Hit(
            settled ? Verdict.Fails : Verdict.CannotTell,
            Phrase.Of($"{asked} of {offered} is a valid request; the source rejects it")
            + (settled ? " and keeps its list." : ". It may have had less to give just then."))
        {
            Position = offered.Position,
            Expected = "Accept, or another list",
            Observed = $"Reject of {asked}",
            NextStep = settled ? null : "Capture on until the source lists again, and repeat the request with nothing else attached.",
        });
    }
}
