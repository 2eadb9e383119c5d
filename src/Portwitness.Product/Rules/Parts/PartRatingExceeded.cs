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
        Evidence = "The part's rating and node under \"parts:\", and a capture of the port: the highest voltage and current that any object offers. What is only printed "
            + "cannot be told; the pack has the voltage of its full cells, as stated under \"battery:\".",
        Example = new ProductExample(
            "0x0801912C 0x0002D12C 0x0004B12C 0x00064145", "VBUS may go to 21.5 V for a moment; the part is rated for 20 V.",
            Members: "parts:\n  - {part: Q3, node: C, volts: 20V}"),
        Category = RuleCategory.Parts,
    };

    /// <inheritdoc/>
    public override void Check(PartStress part, IProductHitSink hits)
    {
        if (part.Level.Highest is null)
        {
            hits.Report(this, part.IsOnNode ? NotKnown(part.Part) : NoNode(part.Part), PlaceOf(part));
            return;
        }

        if (part.Part.Volts is { } rated && part.Level.Against(rated) is { Highest: { } highest, Moment: { } moment } level && rated < moment)
        {
            hits.Report(
                this,
                new Hit(VerdictBy(level), $"{part.Part.Name} is rated for {rated}; {Seen(part.Part.Node, level, rated < highest)}: {level.From}.")
                {
                    Expected = $"a rating of at least {moment}", Observed = $"{rated}", NextStep = NextStep(part, level),
                },
                PlaceOf(part));
        }

        if (part.Part.Amperes is { } most && part.Level.Largest is { } current && (long)most.Milliamperes * part.Part.Parallel < current.Milliamperes)
        {
            Phrase how = part.Level.CurrentIsReckoned ? Phrase.Of($"full output draws {current} of a nearly empty pack, with 92 % efficiency, a default")
                : part.Level.Basis == NodeBasis.Printed ? $"{current} is printed for {part.Part.Node}" : Phrase.Of($"{part.Part.Node} offers {current}");
            hits.Report(
                this,
                new Hit(CurrentVerdictBy(part.Level), Phrase.Of($"{part.Part.Name} is rated for {most}") + (part.Part.Parallel > 1 ? Phrase.Of($" each, {part.Part.Parallel} in parallel") : "") + Phrase.Of($"; {how}."))
                {
                    Expected = $"a rating of at least {current}", Observed = $"{most}", NextStep = CurrentNextStep(part, part.Level),
                },
                PlaceOf(part));
        }
    }

    private static Phrase Seen(string node, NodeLevel level, bool isSteady) => (level.Basis, isSteady) switch
    {
        (NodeBasis.Cells, _) => Phrase.Of($"{node} has {level.Highest}"),
        (NodeBasis.Printed, true) => $"{level.Highest} is printed for {node}",
        (_, true) => $"VBUS of {node} is offered {level.Highest}",
        _ => $"VBUS of {node} may go for a moment, by the limits of the standard, to {level.Moment}",
    };

    private static Hit NotKnown(ProductPart part) => IsPack(part)
        ? new(Verdict.CannotTell, $"{part.Name} is on the pack, whose voltage nobody states.")
        {
            NextStep = "State \"series:\" and \"full_v:\" of the cells under \"battery:\".",
        }
        : new(Verdict.CannotTell, $"{part.Name} is on VBUS of {part.Node}, of which no list was captured.")
        {
            NextStep = NextSteps.Capture(part.Node, [part.Node]),
        };

    private static Hit NoNode(ProductPart part) => IsPack(part) ? NotKnown(part) : new(
        Verdict.CannotTell, $"{part.Name} is at \"{part.Node}\", which is no port; only parts on VBUS of a port, on the pack and the bridge are judged.")
    {
        NextStep = $"Hold the ratings of {part.Name} against the highest voltage and current of \"{part.Node}\" by hand; where it is on VBUS, name that "
            + $"port under \"node:\".",
    };

    private static bool IsPack(ProductPart part) => part.Node.Equals("pack", StringComparison.OrdinalIgnoreCase);
}
