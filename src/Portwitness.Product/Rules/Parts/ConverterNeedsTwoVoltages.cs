using System.Collections.Immutable;
using Portwitness.Analysis.Evidence;
using Portwitness.Analysis.Phrases;
using Portwitness.Analysis.Rules;
using Portwitness.Labels;
using Portwitness.Product.Converters;

namespace Portwitness.Product.Rules.Parts;

/// <summary>Ports on one converter are to have two voltages at once.</summary>
public sealed class ConverterNeedsTwoVoltages : ConverterRule
{
    /// <inheritdoc/>
    public override RuleDescription Description { get; } = new()
    {
        Name = "converter-needs-two-voltages",
        Severity = Severity.Mismatch,
        Title = "Ports on one converter are to have two voltages at once",
        Clause = "printed label; that a converter has one output voltage at a time is common practice",
        Why = "What is behind one converter shares its voltage: one of the devices gets less than the print promises, or the tracing of the board is wrong.",
        Evidence = "\"converters:\" with \"traced: true\", the printed modes of its ports and a printed combination, or ports that were loaded at once under \"loads:\". Offers beside another port leave it open.",
        Example = new ProductExample(
            "0x0801912C 0x0002D12C 0x0004B12C 0x00064145", "45 W of C1 need 15 V or 20 V, 18 W of A need 9 V.",
            Members: "label: \"USB-C1: 5V 3A, 9V 3A, 15V 3A, 20V 2.25A\\nUSB-A: 5V 3A, 9V 2A\\nC1+A: 45W+18W\"\nconverters: [{id: U1, ports: [C1, A], traced: true}]"),
        Category = RuleCategory.Parts,
    };

    /// <inheritdoc/>
    public override void Check(ConverterUse use, IProductHitSink hits)
    {
        if (use.NotOnLabel is [_, ..] strangers)
        {
            hits.Report(
                this,
                new Hit(Verdict.CannotTell, $"{use.Converter.Name} is said to feed {string.Join(" and ", strangers)}, which the label does not name.")
                {
                    NextStep = $"Name the ports of {use.Converter.Name} as the label does, or give them their other names under \"ports:\" with \"also:\".",
                },
                PlaceOf(use));
        }

        foreach ((PrintedCombination combination, ImmutableArray<string> ports, _) in use.Printed().Where(static printed => printed.Common.IsEmpty))
        {
            Report(
                use, hits,
                $"\"{combination.Text.Trim()}\" needs different voltages at {string.Join(" and ", ports)}, by the printed modes; {use.Converter.Name} feeds them all.",
                combination.At.Line);
        }

        if (use.MeasuredApart() is var (one, other))
        {
            Report(
                use, hits, $"{one.Port} was loaded at {one.At} and {other.Port} at {other.At} at once; {use.Converter.Name} cannot feed both.", null);
        }
        else if (use.OfferedApart() is var (offer, beside, highest))
        {
            // An offer is no delivery: the source may take it back when the other device asks for nothing.
            hits.Report(
                this,
                new Hit(
                    Verdict.CannotTell,
                    $"{offer.Port} offers up to {highest} while {beside} is in use, where a device may stay at 5 V; {use.Converter.Name} has one voltage for both ({offer.Place}).")
                {
                    Expected = "one voltage at a time", Observed = "two voltages at once",
                    NextStep = Phrase.Of($"Load {offer.Port} at {highest} and {beside} at 5 V at once, and state both under \"loads:\" with \"in_use:\"."),
                },
                PlaceOf(use));
        }
    }

    private void Report(ConverterUse use, IProductHitSink hits, Phrase detail, int? line) => hits.Report(
        this,
        new Hit(use.Converter.IsTraced ? Verdict.Fails : Verdict.CannotTell, detail)
        {
            LabelLine = line,
            Expected = "one voltage at a time", Observed = "two voltages at once",
            NextStep = use.Converter.IsTraced ? null
                : Phrase.Of($"Follow the copper from {use.Converter.Name} to each port and state \"traced: true\", or measure the ports loaded at once."),
        },
        PlaceOf(use));
}
