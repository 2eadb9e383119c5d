using Portwitness.Analysis.Evidence;

namespace Portwitness.Product.Tests;

/// <summary>
/// A line that can be read in several ways is judged in each of them. Which values a combination's ports share is common practice (no source).
/// </summary>
public class AmbiguousReadingTests
{
    // 45 W + 15 W for three ports: C1 45 W with C2 and A sharing 15 W, or C1 and C2 sharing 45 W with A at 15 W.
    private const string Label = "USB-C1: 65W Max\nUSB-C2: 30W Max\nUSB-C3: 15W Max\nC1+C2+C3: 45W+15W";
    private const string Watts65 = "0x0801912C 0x0002D12C 0x0004B12C 0x00064145";
    private const string Watts45 = "0x0801912C 0x0002D12C 0x0004B12C";
    private const string Watts30 = "0x0801912C 0x0002D12C 0x0004B0C8";
    private const string Watts15 = "0x0801912C";
    private const string Watts7 = "0x08019096";

    [Theory]
    // Alone in each reading: 45 W at C1, and 15 W shared by C2 and C3 in the first; 30 + 15 W and 7.5 W fit neither.
    [InlineData(Watts45, Watts7, Watts7, Verdict.CannotTell)]
    [InlineData(Watts30, Watts15, Watts15, Verdict.CannotTell)]
    [InlineData(Watts65, Watts30, Watts30, Verdict.Fails)]
    [InlineData(Watts15, Watts15, Watts7, Verdict.Fails)]
    public void Line_IsJudgedInEachReading(string c1, string c2, string c3, Verdict expected)
    {
        ProductAnalysis analysis = Run(Label, c1, c2, c3);

        Statement line = Line(analysis);
        line.Verdict.Should().Be(expected);
        line.Claim.ToString().Should().Contain("can be read in 2 ways");
        line.Evidence.ToString().Should().Contain("read as \"C1 45W, C2+C3 share 15W\" it ").And.Contain("read as \"C3 15W, C1+C2 share 45W\" it ");
        analysis.Findings.Any(finding => finding.LabelLine == 4 && finding.Verdict == Verdict.Fails).Should().Be(expected == Verdict.Fails);
    }

    [Fact]
    public void LineThatHoldsInOneReading_SaysWhatToLookAt() => Line(Run(Label, Watts45, Watts7, Watts7)).NextStep.ToString().Should().Be(
        "Look on the product, or in its manual, what line 4 of the label means, and write it under \"label_corrections:\": "
        + "{line: 4, printed: \"45W+15W\", read_as: \"C1 45W, C2+C3 share 15W\"} or {line: 4, printed: \"45W+15W\", read_as: \"C3 15W, C1+C2 share 45W\"}.");

    // 5 V 3 A of two ports is 15 W together, or 15 W each: 15 W and nothing beside it cannot be had in a list, so both give 15 W, which is no sharing.
    [Fact]
    public void ModeOfSeveralPorts_IsJudgedAsSharedAndAsEachOnes()
    {
        ProductAnalysis analysis = ProductRun.Several(
            "USB-C1: 15W Max\nUSB-C2: 15W Max\nC1+C2: 5V⎓3A", [("C1", "C1, C2", Watts15), ("C2", "C1, C2", Watts15)]);

        Line(analysis).Verdict.Should().Be(Verdict.CannotTell);
    }

    // Less than each port's own, and less than both together.
    [Fact]
    public void LineThatHoldsInEachReading_Holds()
    {
        ProductAnalysis analysis = ProductRun.Several(
            "USB-C1: 7.5W Max\nUSB-C2: 7.5W Max\nUSB-C3: 15W Max\nC1+C2+C3: 15W+15W",
            [("C1", "C1, C2, C3", Watts15), ("C2", "C1, C2, C3", "0x08019001"), ("C3", "C1, C2, C3", Watts15)]);

        Statement line = Line(analysis);
        line.Verdict.Should().Be(Verdict.Holds, line.Evidence.ToString());
        analysis.Findings.Should().NotContain(finding => finding.Rule == "combination-split-mismatch");
        analysis.NextSteps.Should().NotContain(step => step.ToString().Contains("by hand", StringComparison.Ordinal));
    }

    [Fact]
    public void LineWithoutEvidence_AsksForItAndForAPerson() => Line(ProductRun.Typed($"label: |\n  {Label.Replace("\n", "\n  ", StringComparison.Ordinal)}\n"))
        .NextStep.ToString().Should().StartWith("Capture C1 while C1 and C2 and C3 are in use. Look on the product");

    private static Statement Line(ProductAnalysis analysis) =>
        analysis.Statements.Should().ContainSingle(static one => one.Claim.ToString()!.Contains("can be read", StringComparison.Ordinal)).Subject;

    private static ProductAnalysis Run(string label, params string[] words) =>
        ProductRun.Several(label, [.. words.Select(static (list, index) => ($"C{index + 1}", "C1, C2, C3", list))]);
}
