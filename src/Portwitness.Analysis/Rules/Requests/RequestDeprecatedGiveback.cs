using Portwitness.Analysis.Evidence;
using Portwitness.Analysis.Profile;
using Portwitness.PowerDelivery.Requests;

namespace Portwitness.Analysis.Rules.Requests;

/// <summary>A request sets GiveBack, which is deprecated.</summary>
/// <remarks>R3.0 still had it, and a sink does not say which 3.x it follows.</remarks>
public sealed class RequestDeprecatedGiveback : RequestRule
{
    /// <inheritdoc/>
    public override RuleDescription Description { get; } = new()
    {
        Name = "request-deprecated-giveback",
        Severity = Severity.Note,
        Title = "A request sets GiveBack, which is deprecated",
        Clause = "R3.2v1.1 Table 6.23",
        Why = "GiveBack promised that the device would go down to a minimum when told to. Sources of today never tell it to; "
            + "the low field of the request then means something else to them than to the device.",
        Evidence = "Every bit of the request, and a header of revision 3.",
        Editions = PowerDelivery.Limits.Editions.R32,
        Example = new ScriptExample(
            """
            source: [5V 3A, 9V 3A]
            steps:
              - advertise
              - request 2 at 3A give-back
              - accept
            """,
            "Bit 27 of the request is set."),
        Category = RuleCategory.Requests,
    };

    /// <inheritdoc/>
    public override bool IsOfSource => false;

    /// <inheritdoc/>
    public override void Check(in ObservedRequest request, IHitSink hits)
    {
        if (request.SaysRevision3 && RequestObject.GiveBackField.IsSet(request.Request.Raw))
        {
            hits.Report(this, new Hit(default, "The sink sets GiveBack.")
            {
                Position = request.Request.ObjectPosition,
                Expected = "bit 27 clear",
                Observed = $"0x{request.Request.Raw:X8}",
                IsNote = true,
            });
        }
    }
}
