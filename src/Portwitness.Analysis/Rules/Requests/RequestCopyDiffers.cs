using Portwitness.Analysis.Evidence;
using Portwitness.PowerDelivery.Limits;

namespace Portwitness.Analysis.Rules.Requests;

/// <summary>The copy in an EPR_Request is another word.</summary>
public sealed class RequestCopyDiffers : RequestFaultRule
{
    /// <inheritdoc/>
    public override RuleDescription Description { get; } = new()
    {
        Name = "request-copy-differs",
        Severity = Severity.Violation,
        Title = "An EPR_Request does not repeat the object that it names",
        Clause = "R3.2v1.1 6.4.9",
        Why = "The copy makes sure that both sides mean the same object above 20 V. When it differs the source "
            + "resets the port.",
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
              - send sink EPR_Request 0x8047D1F4 0x0008C190
            """,
            "The copy says 28 V 4 A, the list 28 V 5 A."),
        Category = RuleCategory.Requests,
    };

    private protected override RequestFaultKind Kind => RequestFaultKind.Copy;
}
