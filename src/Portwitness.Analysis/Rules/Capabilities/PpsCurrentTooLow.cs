using Portwitness.Analysis.Evidence;
using Portwitness.Analysis.PdpRules;
using Portwitness.Analysis.Phrases;
using Portwitness.Analysis.Profile;
using Portwitness.PowerDelivery.Limits;
using Portwitness.PowerDelivery.PowerData;

namespace Portwitness.Analysis.Rules.Capabilities;

/// <summary>A normative PPS range has less current than the PDP asks for.</summary>
public sealed class PpsCurrentTooLow : PpsRule
{
    /// <inheritdoc/>
    public override RuleDescription Description { get; } = new()
    {
        Name = "pps-current-too-low",
        Severity = Severity.Violation,
        Title = "A normative PPS range has too little current",
        Clause = "R3.2v1.1 Table 10.10",
        Why = "The current of a PPS range is the PD power divided by the voltage that the range is named after. With less, a "
            + "device charges slower by PPS than the printed watts let expect.",
        Evidence = "The edition (R3.0 and R3.1 were not read), the PD power, the cable above 3 A, and whether the port can share its power.",
        Editions = Editions.R3x,
        Example = new ListExample(
            "0x0801912C 0x0002D12C 0x0004B12C 0xE004B000 0xC1403228", "A 45 W source has 2 A up to 16 V.", Edition: Editions.R32),
        Category = RuleCategory.Capabilities,
    };

    private protected override void Check(in ListCase list, in PpsRange range, Verdict verdict, IHitSink hits)
    {
        if (range.Best is not { } best || best.MaximumCurrent() is not { } current
            || current.Milliamperes >= range.MinimumOver(list.Evidence.Cable))
        {
            return;
        }

        bool hidden = list.Evidence.Cable == CableEvidence.Unknown && current.Milliamperes == PowerRules.PlainCableMilliamperes;
        Verdict settled = hidden ? Verdict.CannotTell : verdict;
        hits.Report(this, new Hit(settled, Phrase.Of($"A source of {list.Power} owes {PowerRules.Amperes(range.Minimum)}")
            + (hidden ? "; over a 3 A cable it would offer 3 A." : " in this range."))
        {
            Position = best.Position,
            Expected = $"at least {PowerRules.Amperes(range.MinimumOver(list.Evidence.Cable))}",
            Observed = best.ToPhrase(),
            NextStep = hidden ? CaptureSteps.FiveAmpereCableFor(list.IsReadOff) : NextStep(list, settled),
        });
    }
}
