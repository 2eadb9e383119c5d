using Portwitness.Analysis.Evidence;

namespace Portwitness.Analysis.Rules.Requests;

/// <summary>A PPS or AVS request is outside the range.</summary>
public sealed class RequestVoltageOutsideRange : RequestFaultRule
{
    /// <inheritdoc/>
    public override RuleDescription Description { get; } = new()
    {
        Name = "request-voltage-outside-range",
        Severity = Severity.Violation,
        Title = "A request asks for a voltage outside the range",
        Clause = "R3.2v1.1 6.4.2.12",
        Why = "A voltage that the object does not cover cannot be granted; the device stays at what it had.",
        Evidence = "The list in force and every bit of the request. A fault of the partner is a note: it says nothing "
            + "of the product.",
        Example = new ScriptExample(
            """
            source: [5V 3A, 9V 3A, PPS 5-11V 3A]
            steps:
              - advertise
              - request 3 at 12V 2A
              - reject
            """,
            "12 V are asked for of PPS 5 V to 11 V."),
        Category = RuleCategory.Requests,
    };

    private protected override RequestFaultKind Kind => RequestFaultKind.Voltage;
}
