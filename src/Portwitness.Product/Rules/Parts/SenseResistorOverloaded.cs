using Portwitness.Analysis.Evidence;
using Portwitness.Analysis.Phrases;
using Portwitness.Analysis.Rules;
using Portwitness.Product.Parts;

namespace Portwitness.Product.Rules.Parts;

/// <summary>A sense resistor turns more power into heat than it may.</summary>
public sealed class SenseResistorOverloaded : PartRule
{
    /// <inheritdoc/>
    public override RuleDescription Description { get; } = new()
    {
        Name = "sense-resistor-overloaded",
        Severity = Severity.Mismatch,
        Title = "A sense resistor turns more power into heat than it may",
        Clause = "common practice, no source: I²R against the stated watts",
        Why = "A sense resistor that overheats drifts: what measures the current then protects against the wrong one.",
        Evidence = "\"milliohms:\" and \"watts:\" of a part of kind sense-resistor, and a capture of its port.",
        Example = new ProductExample(
            "0x0801912C 0x0002D12C 0x0004B12C 0x00064145", "3.25 A through 50 mΩ are 0.528 W; 0.5 W are allowed.",
            Members: "parts:\n  - {part: R5, kind: sense-resistor, node: C, milliohms: 50, watts: 0.5W}"),
        Category = RuleCategory.Parts,
    };

    /// <inheritdoc/>
    public override void Check(PartStress part, IProductHitSink hits)
    {
        if (part is not { Part: { Kind: PartKind.SenseResistor, Microohms: { } microohms, Watts: { } rated }, Level.Largest: { } current })
        {
            return;
        }

        // mA² times µΩ is 10⁻¹² W.
        long milliwatts = (long)((Int128)current.Milliamperes * current.Milliamperes * microohms / 1_000_000_000);
        if (milliwatts > rated.Milliwatts)
        {
            Phrase seen = $"{new Quantity(milliwatts, QuantityUnit.Milliwatts)}";
            hits.Report(
                this,
                new Hit(CurrentVerdictBy(part.Level), $"{current} through {part.Part.Name} are {seen}; it is rated for {rated}.")
                {
                    Expected = $"at most {rated}", Observed = seen, NextStep = CurrentNextStep(part, part.Level),
                },
                PlaceOf(part));
        }
    }
}
