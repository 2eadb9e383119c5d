using Portwitness.Analysis.Evidence;
using Portwitness.Analysis.PdpRules;
using Portwitness.Analysis.Profile;
using Portwitness.PowerDelivery.Limits;

namespace Portwitness.Analysis.Rules.Capabilities;

/// <summary>A source with PPS lacks a range that its PDP makes normative.</summary>
public sealed class PpsNormativeRangeMissing : PpsRule
{
    /// <inheritdoc/>
    public override RuleDescription Description { get; } = new()
    {
        Name = "pps-normative-range-missing",
        Severity = Severity.Violation,
        Title = "A normative PPS range is not offered",
        Clause = "R3.2v1.1 Table 10.10",
        Why = "PPS is optional, but a source that offers it offers the range up to the voltage of its power. A device that "
            + "charges by PPS gets less than the fixed supplies promise.",
        Evidence = "The edition (R3.0 and R3.1 were not read), the PD power, and whether the port can share its power.",
        Editions = Editions.R3x,
        Example = new ListExample(
            "0x0801912C 0x0002D12C 0x0004B12C 0xE004B000 0xC0DC323C", "A 45 W source has PPS up to 11 V only.", Edition: Editions.R32),
        Category = RuleCategory.Capabilities,
    };

    private protected override void Check(in ListCase list, in PpsRange range, Verdict verdict, IHitSink hits)
    {
        if (range.Best is null)
        {
            hits.Report(this, new Hit(
                verdict, $"A source of {list.Power} with PPS offers it up to {PowerRules.Volts(range.End)}; this list does not.")
            {
                Expected = $"PPS up to {PowerRules.Volts(range.End)}, at least {PowerRules.Amperes(range.Minimum)}",
                Observed = "not offered",
                NextStep = NextStep(list, verdict),
            });
        }
    }
}
