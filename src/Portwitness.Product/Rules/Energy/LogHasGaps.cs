using Portwitness.Analysis.Evidence;
using Portwitness.Analysis.Phrases;
using Portwitness.Analysis.Rules;
using Portwitness.Product.Energy;

namespace Portwitness.Product.Rules.Energy;

/// <summary>A log leaves time out, or its clock steps back.</summary>
/// <remarks>Nothing is added up over a gap; what it may hold at most widens what the amount may be.</remarks>
public sealed class LogHasGaps : EnergyRule
{
    private const int SmallPart = 100;

    /// <inheritdoc/>
    public override RuleDescription Description { get; } = new()
    {
        Name = "log-has-gaps",
        Severity = Severity.Caution,
        Title = "A log leaves time out, or its clock steps back",
        Clause = "common practice, no source: a step of more than five times the usual one",
        Why = "What came out in a gap was not measured. Added up as if nothing had happened it makes a pack better or worse than it is.",
        Evidence = "The log alone. Gaps that may hold no more than a hundredth of what was counted are a note.",
        Example = new ProductExample(
            "0x0801912C", "Ten minutes are missing in a log of a row a second.",
            Members: """
            label: "USB-C: 5V⎓3A"
            discharges:
              - {port: C, at: 5V 2A, file: log.csv}
            """,
            Log: "time (s),volts,amps\n0,5,2\n1,5,2\n2,5,2\n602,5,2\n603,5,2\n604,5,2\n"),
        Category = RuleCategory.Energy,
    };

    /// <inheritdoc/>
    public override void Check(ProductEnergy product, IProductHitSink hits)
    {
        foreach (MeasuredLog log in product.Logs.Where(static log => log.Gaps.Any))
        {
            LogGaps gaps = log.Gaps;
            Phrase steps = gaps.Count == 0 ? Phrase.Empty : Phrase.Of(
                $"{gaps.Count} {(gaps.Count == 1 ? "step is" : "steps are")} longer than {EnergyText.Time(log.LongestStepUs)}, {EnergyText.Time(gaps.TotalUs)} in all; "
                + $"the longest, {EnergyText.Time(gaps.LongestUs)}, ends at line {gaps.LongestLine}");
            Phrase jumps = gaps.Jumps == 0 ? Phrase.Empty : Phrase.Of(
                $"{(gaps.Count > 0 ? ". " : "")}The clock steps back {(gaps.Jumps == 1 ? "once" : Phrase.Of($"{gaps.Jumps} times"))}, first by {EnergyText.Time(gaps.FirstJumpUs)} at line "
                + $"{gaps.FirstJumpLine}");
            bool isSmall = gaps.Jumps == 0 && log.Energy.Most is { } most && most - log.Energy.MostCounted <= Math.Abs(log.Energy.Value) / SmallPart;
            hits.Report(
                this,
                new Hit(isSmall ? default : Verdict.CannotTell, $"{Named(log)}: {steps}{jumps}. Nothing was added up there.")
                {
                    IsNote = isSmall,
                    Expected = $"steps of at most {EnergyText.Time(log.LongestStepUs)}, forward",
                    Observed = gaps.Count > 0 ? Phrase.Of($"{EnergyText.Time(gaps.LongestUs)}") : $"{EnergyText.Time(gaps.FirstJumpUs)} back",
                    NextStep = isSmall ? null : "Log again without interruption; where longer steps are usual, state \"longest_step:\".",
                },
                PlaceOf(log, gaps.Count > 0 ? gaps.LongestAtUs : null));
        }
    }
}
