using Portwitness.Analysis.Evidence;

namespace Portwitness.Product.Tests;

/// <summary>What fails a product is a printed statement that fails, at its place in the label.</summary>
public class ContradictedStatementTests
{
    [Fact]
    public void DischargeThatFails_FailsWhatIsPrinted()
    {
        ProductAnalysis analysis = ProductRun.Folder("weak-tp10");

        analysis.Statements.Select(static one => $"{one.Verdict} {one.At.Line}:{one.At.Column} {one.Claim}").Should().Equal(
            "Holds 1:1 the cells hold 10000 mAh at 3.7 V",
            "Holds 1:1 the cells hold 37 Wh",
            "Fails 2:1 6000 mAh come out at 5 V 2 A",
            "Holds 3:8 C gives 5 V 3 A",
            "Fails 3:14 C gives 9 V 2.22 A",
            "Holds 3:24 C gives up to 20 W");
        analysis.Statements[4].Evidence.Should().Contain("the output went off").And.Contain("The offer alone agrees: object 2");
        analysis.Findings.Where(static one => one.Severity == Severity.Mismatch && one.LabelLine is not null)
            .Should().OnlyContain(one => analysis.Statements.Any(statement => statement.Verdict == Verdict.Fails && statement.At.Line == one.LabelLine));
    }

    /// <summary>The label on its own: 10000 mAh at 5 V are 50 Wh, and the cells hold 37 Wh (Wh = V × Ah).</summary>
    [Fact]
    public void PrintedFigureThatFails_IsAStatementOfItsLine()
    {
        ProductAnalysis analysis = ProductRun.Capture(
            "", "0x0801912C", "USB-C: 5V⎓3A\n  Battery: 10000mAh 3.7V 37Wh\n  Rated capacity: 10000mAh (5V⎓3A)");

        analysis.Accusations().Should().ContainSingle().Which.Rule.Should().Be("rated-capacity-exceeds-energy");
        Statement failing = analysis.Statements.Should().ContainSingle(static one => one.Verdict == Verdict.Fails).Subject;
        (failing.At.Line, failing.At.Column).Should().Be((3, 3));
        failing.Claim.Should().Be("10000 mAh come out at 5 V 3 A");
        failing.Evidence.Should().Contain("the cells hold 37 Wh");
    }
}
