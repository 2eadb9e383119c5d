using Portwitness.Analysis.Evidence;
using Portwitness.Analysis.Phrases;
using Portwitness.Analysis.Rules;
using Portwitness.Labels;
using Portwitness.Product.Printed;

namespace Portwitness.Product.Rules.Labels;

/// <summary>What some ports give together is not printed.</summary>
public sealed class CombinationNotPrinted : PrintedRule
{
    private const int MaxPorts = 6;
    private const int MaxNamed = 6;

    /// <inheritdoc/>
    public override RuleDescription Description { get; } = new()
    {
        Name = "combination-not-printed",
        Severity = Severity.Note,
        Title = "What some ports give together is not printed",
        Clause = "printed label",
        Why = "With several ports in use a supply often gives each less. A combination that is not printed is not known; it is "
            + "neither nothing nor everything.",
        Evidence = "All combinations that are printed: unread words of the label leave it open.",
        Example = new LabelExample(
            "0x0801912C", "Nothing is printed for C1 and A, or for all three.",
            Label: "USB-C1: 65W Max\nUSB-C2: 20W Max\nUSB-A: 12W Max\nC1+C2: 45W+20W"),
        Category = RuleCategory.Label,
    };

    /// <inheritdoc/>
    public override void Check(Label label, ILabelHitSink hits)
    {
        PrintedOutput[] ports = [.. label.Outputs.Where(static output => output.Alternating.IsEmpty)];
        if (ports.Length is < 2 or > MaxPorts || IsAssured(label, ports))
        {
            return;
        }

        HashSet<int> printed = [.. label.Combinations.Select(combination => Mask(ports, combination.Ports))];
        int[] missing = [.. Enumerable.Range(1, (1 << ports.Length) - 1).Where(mask => int.PopCount(mask) > 1 && !printed.Contains(mask))];
        if (missing.Length > 0)
        {
            string names = string.Join(", ", missing.Take(MaxNamed).Select(mask => Name(ports, mask)));
            Phrase more = missing.Length > MaxNamed ? Phrase.Of($" and {missing.Length - MaxNamed} more") : "";
            Phrase caveat = !label.MayRateMore ? "." : ", as far as the label could be read.";
            hits.Report(
                this,
                new Hit(Verdict.Fails, $"Not printed: {names}{more}{caveat}")
                {
                    IsNote = true,
                    LabelLine = ports[^1].At.Line,
                    Expected = $"{(1 << ports.Length) - 1 - ports.Length} combinations of {ports.Length} ports",
                    Observed = $"{(1 << ports.Length) - 1 - ports.Length - missing.Length} printed",
                },
                "");
        }
    }

    // Where the total is the sum of all maxima, every port gives its own at any time.
    private static bool IsAssured(Label label, PrintedOutput[] ports) => label.Total is { } total
        && ports.All(static output => PrintedPowers.Of(output) is not null)
        && ports.Sum(static output => PrintedPowers.Of(output)!.Value) is var sum
        && sum <= total.Power.Milliwatts + PrintedPowers.Tolerance(total.Power.Milliwatts);

    private static int Mask(PrintedOutput[] ports, IEnumerable<string> names) => names.Sum(name =>
        Array.FindIndex(ports, output => PortNames.Same(output.Port, name)) is >= 0 and var index ? 1 << index : 1 << MaxPorts);

    private static string Name(PrintedOutput[] ports, int mask) =>
        string.Join("+", ports.Where((_, index) => (mask & (1 << index)) != 0).Select(static output => output.Port));
}
