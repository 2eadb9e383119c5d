using Portwitness.Analysis.Evidence;

namespace Portwitness.Analysis.Rules.Requests;

/// <summary>A request names an object that is not there.</summary>
public sealed class RequestPositionInvalid : RequestFaultRule
{
    /// <inheritdoc/>
    public override RuleDescription Description { get; } = new()
    {
        Name = "request-position-invalid",
        Severity = Severity.Violation,
        Title = "A request names an object that the list does not have",
        Clause = "R3.2v1.1 6.4.2.1",
        Why = "The source cannot know what is meant and refuses, or worse, guesses. The device at the other end "
            + "does not charge.",
        Evidence = "The list in force and every bit of the request. A fault of the partner is a note: it says nothing "
            + "of the product.",
        Example = new ScriptExample(
            """
            source: [5V 3A, 9V 3A]
            steps:
              - advertise
              - request 0x5004B12C
              - reject
            """,
            "Object 5 is asked for; the list has two."),
        Category = RuleCategory.Requests,
    };

    private protected override RequestFaultKind Kind => RequestFaultKind.Position;
}
