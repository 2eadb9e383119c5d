using Portwitness.Analysis.Evidence;
using Portwitness.PowerDelivery.Limits;

namespace Portwitness.Analysis.Rules.Requests;

/// <summary>An AVS request is between two steps.</summary>
public sealed class RequestStepInvalid : RequestFaultRule
{
    /// <inheritdoc/>
    public override RuleDescription Description { get; } = new()
    {
        Name = "request-step-invalid",
        Severity = Severity.Violation,
        Title = "An AVS request is between two steps of the voltage",
        Clause = "R3.2v1.1 Table 6.26",
        Why = "AVS goes in steps of 100 mV: the lowest two bits of the field are zero. What the source makes of "
            + "others is its own guess.",
        Evidence = "The list in force and every bit of the request. A fault of the partner is a note: it says nothing "
            + "of the product.",
        Editions = Editions.R32,
        Example = new ScriptExample(
            """
            edition: R3.2
            source: [5V 3A, 9V 3A, 15V 3A, SPR AVS 3A]
            steps:
              - advertise
              - request 0x4003C23C
            """,
            "12.025 V are asked for."),
        Category = RuleCategory.Requests,
    };

    private protected override RequestFaultKind Kind => RequestFaultKind.Step;
}
