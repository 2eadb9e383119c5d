using Portwitness.Analysis.Evidence;
using Portwitness.Analysis.Phrases;
using Portwitness.Analysis.Rules;
using Portwitness.Product.Offers;
using Portwitness.Product.Parts;

namespace Portwitness.Product.Rules.Parts;

/// <summary>A part's node is offered more than the part is rated for.</summary>
public sealed class PartRatingExceeded : PartRule
{
    /// <inheritdoc/>
    public override RuleDescription Description { get; } = new()
    {
        Name = "part-rating-exceeded",
        Severity = Severity.Mismatch,
        Title = "A part's node is offered more than the part is rated for",
        Clause = "common practice, no source; the voltages of a moment are those of R3.2v1.1 Table 7.23 (vSrcNew, vSrcValid)",
        Why = "A part above its rating fails short as a rule, and what is behind it then gets the whole of VBUS, or the supply burns.",
        Evidence = "The part's rating and node under \"parts:\", and a capture of the port: the highest voltage and current that any object offers.",
        Example = new ProductExample(
            "0x0801912C 0x0002D12C 0x0004B12C 0x00064145", "VBUS may go to 21.5 V for a moment; the part is rated for 20 V.",
            Members: "parts:\n  - {part: Q3, node: C, volts: 20V}"),
        Category = RuleCategory.Parts,
    };

    /// <inheritdoc/>
    public override void Check(PartStress part, IProductHitSink hits)
    {
        if (part.HighestVoltage is null)
        {
            hits.Report(this, part.IsOnPort ? NotCaptured(part.Part) : NotOnPort(part.Part), PlaceOf(part));
            return;
        }

        if (part.Part.Volts is { } rated && part.HighestMoment is { } moment && rated < moment)
        {
            Phrase how = rated < part.HighestVoltage ? "is offered" : "may go for a moment, by the limits of the standard,";
            hits.Report(
                this,
                new Hit(
                    Verdict.Fails,
                    $"{part.Part.Name} is rated for {rated}; VBUS of {part.Part.Node} {how} {(rated < part.HighestVoltage ? Phrase.Of($"{part.HighestVoltage}") : $"to {moment}")}: {part.Highest}.")
                {
                    Expected = $"a rating of at least {moment}", Observed = $"{rated}",
                },
                PlaceOf(part));
        }

        if (part.Part.Amperes is { } most && part.LargestCurrent is { } current && most < current)
        {
            hits.Report(
                this,
                new Hit(Verdict.Fails, $"{part.Part.Name} is rated for {most}; {part.Part.Node} offers {current}.")
                {
                    Expected = $"a rating of at least {current}", Observed = $"{most}",
                },
                PlaceOf(part));
        }
    }

    private static Hit NotCaptured(ProductPart part) => new(
        Verdict.CannotTell, $"{part.Name} is on VBUS of {part.Node}, of which no list was captured.")
    {
        NextStep = NextSteps.Capture(part.Node, [part.Node]),
    };

    private static Hit NotOnPort(ProductPart part) => new(
        Verdict.CannotTell, $"{part.Name} is at \"{part.Node}\", which is no port; only parts on VBUS of a port are judged.")
    {
        NextStep = $"Hold the ratings of {part.Name} against the highest voltage and current of \"{part.Node}\" by hand; where it is on VBUS, name that "
            + $"port under \"node:\".",
    };
}
