using Portwitness.Analysis.Evidence;
using Portwitness.Analysis.Phrases;
using Portwitness.Analysis.Rules;
using Portwitness.Product.Parts;

namespace Portwitness.Product.Rules.Parts;

/// <summary>A MOSFET may turn more power into heat than it is allowed.</summary>
public sealed class SwitchLossTooLarge : PartRule
{
    /// <inheritdoc/>
    public override RuleDescription Description { get; } = new()
    {
        Name = "switch-loss-too-large",
        Severity = Severity.Caution,
        Title = "A MOSFET may turn more power into heat than it is allowed",
        Clause = "common practice, no source: I²R x 1.4, the resistance of a hot MOSFET (makers' application notes), shared equally by those in parallel",
        Why = "A MOSFET that heats up has more resistance, and heats up more: a small one in a closed case has nowhere to put a watt.",
        Evidence = "\"milliohms:\" at 25 °C and \"watts:\" of a part of kind mosfet or switch, \"parallel:\" where several share the current, and a capture of its port.",
        Example = new ProductExample(
            "0x0801912C 0x0002D12C 0x0004B12C 0x00064145", "3.25 A through 50 mΩ, 70 mΩ when hot, are 0.739 W; 0.5 W are allowed.",
            Members: "parts:\n  - {part: Q3, kind: mosfet, node: C, volts: 30V, milliohms: 50, watts: 0.5W}"),
        Category = RuleCategory.Parts,
    };

    /// <inheritdoc/>
    public override void Check(PartStress part, IProductHitSink hits)
    {
        if (part is not { Part: { Kind: PartKind.Rated, Microohms: { } microohms, Watts: { } allowed }, Level.Largest: { } current })
        {
            return;
        }

        long milliwatts = SwitchLoss.HotMilliwatts(current, microohms, part.Part.Parallel);
        if (milliwatts <= allowed.Milliwatts)
        {
            return;
        }

        Phrase seen = $"{new Quantity(milliwatts, QuantityUnit.Milliwatts)}";
        Phrase shared = part.Part.Parallel > 1 ? Phrase.Of($", shared by {part.Part.Parallel},") : "";
        hits.Report(
            this,
            new Hit(
                Verdict.CannotTell,
                Phrase.Of($"{current} through {part.Part.Name}") + shared
                    + Phrase.Of($" are {seen} each ((I / n)² R x 1.4, R of 25 °C and 1.4 of a hot one); {allowed} are allowed, and this is ")
                    + Share(milliwatts, allowed.Milliwatts) + ".")
            {
                Expected = $"at most {allowed}", Observed = seen,
                NextStep = $"Measure the temperature of {part.Part.Name} and the voltage across it at that current.",
            },
            PlaceOf(part));
    }
}
