using Portwitness.Analysis.Evidence;
using Portwitness.Analysis.Phrases;
using Portwitness.Analysis.Profile;
using Portwitness.PowerDelivery.Limits;
using Portwitness.PowerDelivery.PowerData;

namespace Portwitness.Analysis.Rules.Capabilities;

/// <summary>An object is of a kind that came with a later edition than the source's.</summary>
/// <remarks>
/// SPR AVS came with R3.2v1.0, by a change that sources of R3.1 may have taken over before (from memory): there it cannot be told.
/// EPR AVS came with R3.1. Before R3.0 every augmented object is another rule's matter.
/// </remarks>
public sealed class ObjectNewerThanEdition : CapabilityRule
{
    /// <inheritdoc/>
    public override RuleDescription Description { get; } = new()
    {
        Name = "object-newer-than-edition",
        Severity = Severity.Violation,
        Title = "An object came with a later edition than the source follows",
        Clause = "R3.2v1.1 Tables 6.8, 6.14 and 6.15; SPR AVS since R3.2v1.0, EPR AVS since R3.1",
        Why = "The edition that a source follows reserves the kind. A device that takes the source at its word passes the object over, and "
            + "whoever judges the source by that edition finds duties missing that come with the object.",
        Evidence = "The edition: stated, or in the source's Revision message.",
        Editions = Editions.R30 | Editions.R31,
        Example = new ListExample("0x0801912C 0x0002D12C 0x0004B12C 0xE004B000", "SPR AVS stands in a list of R3.0.", Edition: Editions.R30),
        Category = RuleCategory.Capabilities,
    };

    /// <inheritdoc/>
    public override void Check(in ListCase list, IHitSink hits)
    {
        Editions open = list.Evidence.Editions;
        foreach (OfferedObject offered in list.Objects)
        {
            Editions known = !offered.KindIsKnown ? Editions.All : offered.Kind switch
            {
                PowerObjectKind.SprAvs => Editions.R32,
                PowerObjectKind.EprAvs => Editions.WithEpr,
                _ => Editions.All,
            };
            if (open == Editions.None || (open & (known | SourceEvidence.ProfileEra)) != 0)
            {
                continue;
            }

            Verdict verdict = open == Editions.R30 ? Verdict.Fails : Verdict.CannotTell;
            hits.Report(this, new Hit(verdict, $"{offered} stands in a list of {open}, which does not know this kind.")
            {
                Position = offered.Position,
                Expected = $"kinds of {open}",
                Observed = offered.ToPhrase(),
                NextStep = verdict == Verdict.CannotTell
                    ? "Capture the source's Revision message, which says the edition that it follows."
                    : null,
            });
        }
    }
}
