using Portwitness.Analysis.Evidence;
using Portwitness.Analysis.Phrases;
using Portwitness.Analysis.Rules;
using Portwitness.Product.Energy;
using Portwitness.PowerDelivery.Units;
using Portwitness.Product.Parts;

namespace Portwitness.Product.Rules.Parts;

/// <summary>A part is used nearer to its rating than the policy wants.</summary>
public sealed class PartHeadroomSmall : PartRule
{
    /// <inheritdoc/>
    public override RuleDescription Description { get; } = new()
    {
        Name = "part-headroom-small",
        Severity = Severity.Note,
        Title = "A part is used nearer to its rating than the policy wants",
        Clause = "common practice, no source: a fifth of the rating stays free, unless \"headroom:\" says otherwise",
        Why = "Parts that are used near their rating age faster and do not survive what nobody thought of: a hot day, a bad contact, a spike.",
        Evidence = "The part's rating, node and policy under \"parts:\", and a capture of the port.",
        Example = new ProductExample(
            "0x0801912C 0x0002D12C 0x0004B12C 0x00064145", "20 V are 83 % of 24 V; 17 % stay free.",
            Members: "parts:\n  - {part: C12, node: C, volts: 24V}"),
        Category = RuleCategory.Parts,
    };

    /// <inheritdoc/>
    public override void Check(PartStress part, IProductHitSink hits)
    {
        // What is exceeded is told by another rule.
        if (part.Part.Volts is { } volts && part.Level is { Highest: { } highest, Moment: { } moment } && volts >= moment)
        {
            Check(part, highest.Millivolts, volts.Millivolts, $"{highest}", $"{volts}", hits);
        }

        if (part.Part.Amperes is { } amperes && part.Level.Largest is { } current && (long)amperes.Milliamperes * part.Part.Parallel >= current.Milliamperes)
        {
            long all = (long)amperes.Milliamperes * part.Part.Parallel;
            Check(part, current.Milliamperes, all, $"{current}", $"{Current.FromMilliamperes((int)Math.Min(int.MaxValue, all))}", hits);
        }
    }

    private void Check(PartStress part, long used, long rated, Phrase usedText, Phrase ratedText, IProductHitSink hits)
    {
        if ((rated - used) * 1_000_000 >= rated * part.Part.HeadroomPpm)
        {
            return;
        }

        Quantity free = new((long)Math.Round((rated - used) * 1_000_000m / rated), QuantityUnit.PartsPerMillion);
        hits.Report(
            this,
            new Hit(default, $"{part.Part.Name} at {part.Part.Node} is rated for {ratedText} and used at up to {usedText}; {free} stay free.")
            {
                IsNote = true, Expected = $"at least {EnergyText.Percent(part.Part.HeadroomPpm)} free", Observed = $"{free}",
            },
            PlaceOf(part));
    }
}
