using Portwitness.Analysis.Evidence;
using Portwitness.Analysis.Profile;
using Portwitness.PowerDelivery.Limits;
using Portwitness.PowerDelivery.PowerData;

namespace Portwitness.Analysis.Rules.Capabilities;

/// <summary>An object is of a kind that the standard reserves.</summary>
/// <remarks>Text newer than R3.2v1.1 was not read: it may give the kind a meaning.</remarks>
public sealed class UnknownObjectKind : CapabilityRule
{
    private const Editions Settled = Editions.R30 | Editions.R31;

    /// <inheritdoc/>
    public override RuleDescription Description { get; } = new()
    {
        Name = "unknown-object-kind",
        Severity = Severity.Violation,
        Title = "An object is of a reserved kind",
        Clause = "R3.2v1.1 Table 6.8",
        Why = "Nobody knows what such an object offers. Devices pass it over at best; some refuse the whole list.",
        Evidence = "The edition: in R3.2 a version newer than R3.2v1.1 may define the kind, unless the Revision message excludes it.",
        Editions = Editions.R3x,
        Example = new ListExample("0x0801912C 0x0002D12C 0xF0000000", "Object 3 is an augmented object of subtype 11.", Edition: Editions.R30),
        Category = RuleCategory.Capabilities,
    };

    /// <inheritdoc/>
    public override void Check(in ListCase list, IHitSink hits)
    {
        // Before R3.0 every augmented object is another rule's matter.
        Verdict verdict = (list.Evidence.Editions & ~Settled) == 0 || list.Evidence.VersionIsRead ? Verdict.Fails : Verdict.CannotTell;
        foreach (OfferedObject offered in list.Objects)
        {
            if (offered.Is(PowerObjectKind.Reserved))
            {
                hits.Report(this, new Hit(verdict, $"Object {offered.Position} is of a kind without a meaning.")
                {
                    Position = offered.Position,
                    Expected = "fixed, battery, variable, PPS or AVS",
                    Observed = $"0x{offered.Raw:X8}",
                    NextStep = verdict == Verdict.CannotTell ? "Compare with an edition newer than R3.2v1.1." : null,
                });
            }
        }
    }
}
