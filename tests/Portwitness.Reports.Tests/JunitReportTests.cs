using System.Xml.Linq;
using Portwitness.Contracts.V1;
using Portwitness.Reports.Junit;
using Portwitness.Tests;

namespace Portwitness.Reports.Tests;

public sealed class JunitReportTests
{
    public static TheoryData<string> Hostile => SampleReports.Hostile;

    [Theory]
    [MemberData(nameof(Hostile))]
    public void HostileTexts_KeepToTheSchema(string text)
    {
        foreach (ProductOutcome outcome in Enum.GetValues<ProductOutcome>())
        {
            string xml = SampleReports.Write(
                JunitReport.Write, SampleReports.SetOf(SampleReports.FilledWith(text), source: text, outcome: outcome));

            PublishedSchemas.JunitFaults(xml).Should().BeEmpty();
            xml.Should().NotContainAny("\u001b", "\u202e", "\u2028", "\0");
        }
    }

    // Characters that XML 1.0 (2.2) has no place for are told, not lost.
    [Fact]
    public void CharactersThatXmlCannotHold_AreSpelled()
    {
        XElement test = Cases(ProductOutcome.Fails, new ProductReport { Product = "TH\0-\u0001\uffff" }).Single();

        test.Attribute("name")!.Value.Should().Be("TH\\u0000-\\u0001\\uffff");
    }

    [Fact]
    public void FailingProduct_IsAFailureWithItsFindings()
    {
        XElement test = Cases(ProductOutcome.Fails, new ProductReport
        {
            Product = "Tarnholt TH-65",
            Verdict = Verdict.Fails,
            Findings =
            {
                new Finding { Rule = "a-rule", Severity = Severity.Caution, Title = "Minor" },
                new Finding { Rule = "b-rule", Severity = Severity.Mismatch, Title = "Grave", Verdict = Verdict.Fails },
            },
        }).Single();

        test.Attribute("name")!.Value.Should().Be("Tarnholt TH-65");
        test.Attribute("classname")!.Value.Should().Be("bench/th-65/product.yaml");
        XElement failure = test.Elements().Single();
        failure.Name.LocalName.Should().Be("failure");
        failure.Attribute("type")!.Value.Should().Be("mismatch");
        failure.Attribute("message")!.Value.Should().Be("FAILS: 1 mismatch, 1 caution");
        failure.Value.Should().Contain("mismatch b-rule (fails)\n    Grave").And.Contain("caution a-rule");
    }

    [Fact]
    public void ProductThatCannotBeTold_IsSkippedAndSaysWhy()
    {
        XElement test = Cases(ProductOutcome.CannotTell, new ProductReport
        {
            Verdict = Verdict.CannotTell,
            Statements =
            {
                new Statement { Claim = "C1 gives 9 V 3 A", Verdict = Verdict.CannotTell },
                new Statement { Claim = "C1 gives 5 V 3 A", Verdict = Verdict.Holds },
            },
            Findings = { new Finding { Rule = "a-rule", Severity = Severity.Caution } },
            NextSteps = { "Capture C2 alone." },
        }).Single();

        test.Elements().Select(static element => element.Name.LocalName).Should().Equal("skipped", "system-out");
        test.Element("skipped")!.Value.Should().Be(
            "CANNOT TELL: the evidence does not settle it.\nnot settled: C1 gives 9 V 3 A\n\nNext steps\n  - Capture C2 alone.\n");
        test.Element("system-out")!.Value.Should().Contain("caution a-rule");
    }

    [Fact]
    public void UnusableInput_IsAnErrorWithItsFaults()
    {
        XElement error = Cases(ProductOutcome.Unusable, new ProductReport
        {
            Unusable = true,
            Faults =
            {
                new Fault { File = "c1", Line = 3, Code = "bad", Detail = "first" },
                new Fault { File = "c2", Code = "bad", Detail = "second" },
            },
        }).Single().Elements().Single();

        error.Name.LocalName.Should().Be("error");
        error.Attribute("message")!.Value.Should().Be("c1: line 3: first (bad)");
        error.Value.Should().Be("c1: line 3: first (bad)\nc2: second (bad)");
    }

    [Fact]
    public void ProductThatHolds_Passes_AndTheSuiteCounts()
    {
        ReportSet set = new(
        [
            .. new[] { ProductOutcome.Passes, ProductOutcome.Fails, ProductOutcome.CannotTell, ProductOutcome.CannotTell, ProductOutcome.Unusable }
                .Select(static outcome => new ReportedProduct("x", true, outcome, static () => new ProductReport { Verdict = Verdict.Holds })),
        ]);

        XElement suite = XDocument.Parse(SampleReports.Write(JunitReport.Write, set)).Root!.Elements().Single();

        suite.Attributes().Select(static one => $"{one.Name}={one.Value}")
            .Should().Equal("name=portwitness", "tests=5", "failures=1", "errors=1", "skipped=2");
        suite.Elements("testcase").First().Elements().Should().BeEmpty();
    }

    // A failing product fails whatever --fail-on says; a caution does when --fail-on says so.
    [Theory]
    [InlineData(Verdict.Holds, false, false, ProductOutcome.Passes)]
    [InlineData(Verdict.Holds, false, true, ProductOutcome.Fails)]
    [InlineData(Verdict.Fails, false, false, ProductOutcome.Fails)]
    [InlineData(Verdict.CannotTell, false, false, ProductOutcome.CannotTell)]
    [InlineData(Verdict.CannotTell, false, true, ProductOutcome.Fails)]
    [InlineData(Verdict.CannotTell, true, false, ProductOutcome.Unusable)]
    [InlineData(Verdict.Unspecified, false, false, ProductOutcome.CannotTell)]
    public void Outcome_GoesByVerdictAndFailOn(Verdict verdict, bool unusable, bool reaches, ProductOutcome expected) =>
        ReportedProduct.OutcomeOf(verdict, unusable, reaches).Should().Be(expected);

    private static IEnumerable<XElement> Cases(ProductOutcome outcome, ProductReport report) => XDocument
        .Parse(SampleReports.Write(JunitReport.Write, SampleReports.SetOf(report, outcome: outcome)), LoadOptions.PreserveWhitespace)
        .Descendants("testcase");
}
