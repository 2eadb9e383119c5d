using Portwitness.Analysis.Evidence;
using Portwitness.Analysis.Profile;
using Portwitness.PowerDelivery.PowerData;

namespace Portwitness.Analysis.Rules.Capabilities;

/// <summary>A fixed supply that is not the first carries flags.</summary>
public sealed class FlagsBeyondFirstObject : CapabilityRule
{
    // Bit 22, and in sink lists bits 22 to 20, are reserved in every object: another rule's matter.
    private const uint FlagBits = 0x3F800000;

    /// <inheritdoc/>
    public override RuleDescription Description { get; } = new()
    {
        Name = "flags-beyond-first-object",
        Severity = Severity.Violation,
        Title = "A fixed object other than the first carries flags",
        Clause = "R3.2v1.1 6.4.1.2.1, 6.4.1.3.1",
        Why = "Flags such as Dual-Role Power belong to the port and stand in the first object only; elsewhere these "
            + "bits are zero. A device that compares whole words will not recognise the object.",
        Evidence = "The object's kind and flag bits, and the edition: Revision 2.0 was not read.",
        Example = new ListExample("0x0801912C 0x0802D12C", "The 9 V object repeats Unconstrained Power."),
        Category = RuleCategory.Capabilities,
    };

    /// <inheritdoc/>
    public override void Check(in ListCase list, IHitSink hits)
    {
        // What Revision 2.0 says of these bits was not read; later editions agree (the kernel's headers and R3.2v1.1).
        Verdict verdict = list.Evidence.SettleSinceR30();
        foreach (OfferedObject offered in list.Objects)
        {
            if (offered.Position == 1 || !offered.KindIsKnown || offered.Kind != PowerObjectKind.Fixed)
            {
                continue;
            }

            uint set = offered.Raw & offered.Known & FlagBits;
            if (set != 0)
            {
                hits.Report(this, new Hit(verdict, $"{offered} carries flags of the first object.")
                {
                    Position = offered.Position,
                    Expected = "bits 29 to 23 zero",
                    Observed = $"bits 0x{set:X8} of 0x{offered.Raw:X8}",
                    NextStep = verdict == Verdict.CannotTell ? SourceEvidence.OldEditionNextStep : null,
                });
            }
        }
    }
}
