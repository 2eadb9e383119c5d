using Portwitness.Analysis.Evidence;
using Portwitness.Analysis.Profile;

namespace Portwitness.Analysis.Rules.Requests;

/// <summary>A source accepts a request that its list does not cover.</summary>
public sealed class InvalidRequestAccepted : RequestRule
{
    /// <inheritdoc/>
    public override RuleDescription Description { get; } = new()
    {
        Name = "invalid-request-accepted",
        Severity = Severity.Violation,
        Title = "A request that the list does not cover was accepted",
        Clause = "R3.2v1.1 6.4.2, 6.4.9, 6.4.10.3, 10.2.3.3",
        Why = "The source promised something that it does not offer: the device may draw more than the source, or the cable, "
            + "is made for, or get a voltage that neither side expects.",
        Evidence = "Every bit of the request, the list in force, and that the recorder missed no message since the list.",
        Example = new ScriptExample(
            """
            source: [5V 3A, 9V 2A]
            steps:
              - attach
              - advertise
              - request 2 at 3A
              - accept
            """,
            "9 V is offered with 2 A; 3 A are granted."),
        Category = RuleCategory.Requests,
    };

    /// <inheritdoc/>
    public override bool IsOfSource => true;

    /// <inheritdoc/>
    public override void Check(in ObservedRequest request, IHitSink hits)
    {
        if (request.Answer != RequestAnswer.Accepted || RequestCheck.Of(request) is not { } faults)
        {
            return;
        }

        foreach (RequestFault fault in faults)
        {
            if (request.Evidence.Settle(fault.WrongUnder) is { } settled)
            {
                Verdict verdict = request.NothingMissed ? settled : Verdict.CannotTell;
                hits.Report(this, new Hit(verdict, $"The sink {fault.Text}; the source accepts.")
                {
                    Position = request.Request.ObjectPosition,
                    Expected = fault.Expected,
                    Observed = fault.Observed,
                    NextStep = verdict == Verdict.Fails ? null
                        : request.NothingMissed ? SourceEvidence.EditionNextStep
                        : "Capture again with a recorder that misses nothing: another list may have come in between.",
                });
            }
        }
    }
}
