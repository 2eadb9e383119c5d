using Portwitness.Analysis.Evidence;

namespace Portwitness.Product.Tests;

/// <summary>The three products of the Tarnholt night railway.</summary>
public class DemoProductTests
{
    [Fact]
    public void CleanCharger_Holds()
    {
        ProductAnalysis analysis = ProductRun.Folder("clean-th65");

        // 21 V times 3.25 A are 68.25 W: the corner of the range, of 65 W.
        analysis.Summary().Should().Equal("note range-corner-exceeds-maximum@2");
        analysis.Faults.Should().BeEmpty();
        analysis.NextSteps.Should().BeEmpty();
        analysis.Verdict.Should().Be(Verdict.Holds);
        analysis.Statements.Should().HaveCount(12).And.OnlyContain(statement => statement.Verdict == Verdict.Holds);
    }

    // Of which nothing was recorded: a display was read, ports were loaded, cells and parts looked up.
    [Fact]
    public void TypedPack_HasAVerdictOfEachStatement()
    {
        ProductAnalysis analysis = ProductRun.Folder("evidence/typed-tp67");

        analysis.Faults.Should().BeEmpty();
        analysis.Captures.Should().NotBeEmpty().And.OnlyContain(static capture => capture.Format == "offers");
        analysis.Statements.Should().HaveCount(21).And.OnlyContain(static statement => statement.Verdict == Verdict.Holds);
        analysis.Label!.Unread.Should().BeEmpty();
        analysis.Parts.Should().HaveCount(2);
        analysis.Verdict.Should().Be(Verdict.Holds);
    }

    // One switch too weak, one TVS that clamps too late, and a box that promises more than the cells hold.
    [Fact]
    public void OpenedReel_IsAccusedOfWhatIsWrongInside()
    {
        ProductAnalysis analysis = ProductRun.Folder("evidence/reel-tr60");

        analysis.Faults.Should().BeEmpty();
        analysis.Label!.Unread.Should().BeEmpty();
        analysis.Accusations().Select(static finding => $"{finding.Rule} {finding.Observed}").Should().Equal(
            "part-rating-exceeded 16 V", "claimed-fills-impossible fills a cabin handset three times");
        analysis.Findings.Where(static finding => finding.Severity == Severity.Caution).Select(static finding => finding.Rule)
            .Should().Equal("tvs-clamps-too-late", "claimed-time-impossible");
        analysis.Statements.Should().NotContain(static statement => statement.Verdict == Verdict.Fails);
        analysis.Verdict.Should().Be(Verdict.Fails);
    }

    [Fact]
    public void DishonestCharger_FailsByItsLabel()
    {
        ProductAnalysis analysis = ProductRun.Folder("dishonest-th100");

        analysis.Verdict.Should().Be(Verdict.Fails);
        analysis.Accusations().Select(f => f.Rule).Distinct().Should().Contain(
            "printed-rating-not-advertised", "printed-current-differs", "printed-range-not-advertised",
            "printed-power-exceeds-advertised");
    }

    [Fact]
    public void BrokenPack_FailsByItsObjects()
    {
        ProductAnalysis analysis = ProductRun.Folder("broken-tp20");

        analysis.Verdict.Should().Be(Verdict.Fails);
        analysis.Accusations().Select(f => f.Rule).Distinct().Should().BeEquivalentTo(
            "voltage-offered-twice", "flags-beyond-first-object", "reserved-bits-set", "normative-voltage-missing",
            "pps-range-not-standard", "first-object-not-vsafe5v", "objects-out-of-order");
    }
}
