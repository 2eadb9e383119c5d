using System.Collections.Immutable;
using System.Globalization;
using Portwitness.Analysis.Evidence;
using Portwitness.Analysis.Phrases;
using Portwitness.Analysis.Rules;
using Portwitness.Labels;
using Portwitness.PowerDelivery.Units;
using Portwitness.Product.Converters;

namespace Portwitness.Product.Rules.Parts;

/// <summary>One converter explains what is printed for several ports together.</summary>
public sealed class ConverterHoldsOneVoltage : ConverterRule
{
    private const int MaxLines = 12;

    /// <inheritdoc/>
    public override RuleDescription Description { get; } = new()
    {
        Name = "converter-holds-one-voltage",
        Severity = Severity.Note,
        Title = "One converter explains what is printed for several ports together",
        Clause = "common practice, no source: a converter has one output voltage at a time, and 5 V is the one that every device accepts",
        Why = "A pool at 5 V is no fault of a port that gives 20 V alone: it is what one converter can do for two devices.",
        Evidence = "\"converters:\" and a printed combination of its ports.",
        Example = new ProductExample(
            "0x0801912C 0x0002D12C 0x0004B12C 0x00064145", "Both ports share 5 V, which one converter can hold.",
            Members: "label: \"USB-C1: 5V 3A, 9V 3A, 15V 3A, 20V 3.25A\\nUSB-A: 5V 3A, 9V 2A\\nC1+A: 5V 3A shared\"\nconverters: [{id: U1, ports: [C1, A], traced: true}]"),
        Category = RuleCategory.Parts,
    };

    /// <inheritdoc/>
    public override void Check(ConverterUse use, IProductHitSink hits)
    {
        (PrintedCombination Combination, ImmutableArray<string> Ports, ImmutableArray<Voltage> Common)[] fit =
            [.. use.Printed().Where(static printed => !printed.Common.IsEmpty)];
        if (fit.Length == 0)
        {
            return;
        }

        int[] lines = [.. fit.Select(static printed => printed.Combination.At.Line).Distinct().Order().Take(MaxLines)];
        string named = string.Join(", ", lines.Select(static line => line.ToString(CultureInfo.InvariantCulture)));
        Phrase at = $"{fit[0].Common[0]}";
        hits.Report(
            this,
            new Hit(
                default,
                Phrase.Of($"{use.Converter.Name} feeds {string.Join(" and ", fit[0].Ports)}, which can have one voltage together, ") + at
                    + Phrase.Of($": that is enough for what is printed for them in line {named}."))
            {
                IsNote = true, LabelLine = lines[0], Expected = "one voltage at a time", Observed = at,
            },
            PlaceOf(use));
    }
}
