using Portwitness.Analysis.Evidence;
using Portwitness.PowerDelivery.Limits;

namespace Portwitness.Analysis.Rules.Requests;

/// <summary>A request is of the kind that the other mode has.</summary>
public sealed class RequestWrongForMode : RequestFaultRule
{
    /// <inheritdoc/>
    public override RuleDescription Description { get; } = new()
    {
        Name = "request-wrong-for-mode",
        Severity = Severity.Violation,
        Title = "A request is of the wrong kind for the mode",
        Clause = "R3.2v1.1 6.4.10.3",
        Why = "In EPR mode a device asks with EPR_Request, in SPR mode with Request. Each in the other mode makes "
            + "the source reset the port.",
        Evidence = "The list in force and every bit of the request. A fault of the partner is a note: it says nothing "
            + "of the product.",
        Editions = Editions.R31 | Editions.R32,
        Example = new ScriptExample(
            """
            cable: EPR detachable
            source: [5V 3A epr, 9V 3A, 15V 3A, 20V 5A, SPR AVS 3A/5A, 28V 5A, EPR AVS 15-28V 140W]
            steps:
              - attach
              - advertise
              - contract 4 at 5A epr
              - enter-epr at 140W
              - send sink Request 0x2004B12C
            """,
            "Request is sent in EPR mode."),
        Category = RuleCategory.Requests,
    };

    private protected override RequestFaultKind Kind => RequestFaultKind.Mode;
}
