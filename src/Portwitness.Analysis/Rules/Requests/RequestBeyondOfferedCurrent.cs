using Portwitness.Analysis.Evidence;

namespace Portwitness.Analysis.Rules.Requests;

/// <summary>A request asks for more current or power than is offered.</summary>
public sealed class RequestBeyondOfferedCurrent : RequestFaultRule
{
    /// <inheritdoc/>
    public override RuleDescription Description { get; } = new()
    {
        Name = "request-beyond-offered-current",
        Severity = Severity.Violation,
        Title = "A request asks for more than the object offers",
        Clause = "R3.2v1.1 6.4.2.3, 6.4.2.8",
        Why = "The device draws what it was granted. Had the source agreed, it would be overloaded.",
        Evidence = "The list in force and every bit of the request. A fault of the partner is a note: it says nothing "
            + "of the product.",
        Example = new ScriptExample(
            """
            source: [5V 3A, 9V 2A]
            steps:
              - advertise
              - request 2 at 3A
              - reject
            """,
            "3 A are asked for of 9 V 2 A."),
        Category = RuleCategory.Requests,
    };

    private protected override RequestFaultKind Kind => RequestFaultKind.Amount;
}
