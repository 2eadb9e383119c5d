using Portwitness.Contracts.V1;
using Portwitness.Reports.Csv;
using Portwitness.Reports.Html;
using Portwitness.Reports.Junit;
using Portwitness.Reports.Markdown;
using Portwitness.Reports.Text;

namespace Portwitness.Reports.Tests;

/// <summary>A finding with several places is one finding in every format, and is counted once.</summary>
public sealed class FindingPlacesTests
{
    private const string Carries = "A fixed object carries flags.";

    private static readonly Finding FourFlags = new()
    {
        Rule = "flags-beyond-first-object", Severity = Severity.Violation, Verdict = Verdict.Fails, Title = "Flags", Detail = Carries,
        File = "c1", Port = "C1", TimeUs = 100_000, MessageIndex = 1, ObjectPosition = 2, Observed = "bit 27 of object 2",
        FurtherPlaces = { Place(1, 100_000, 3), Place(1, 100_000, 4), Place(9, 2_000_000, 2) },
    };

    [Fact]
    public void FurtherPlaces_AreToldByWhatIsDifferent()
    {
        FindingText.Lines(FourFlags).Single(static line => line.Label == "also").Text.Should().Be(
            "object 3 (bit 27 of object 3); object 4 (bit 27 of object 4); 2.000000 s, message 9, object 2");
    }

    [Fact]
    public void ManyPlaces_AreListedUpToALimitAndCounted()
    {
        Finding finding = new() { MessageIndex = 1 };
        finding.FurtherPlaces.AddRange(Enumerable.Range(2, 25).Select(static index => new FindingPlace { MessageIndex = index }));

        FindingPlaces.Further(finding).Should().StartWith("message 2; message 3; ").And.EndWith("message 21; and 5 more places");
        FindingPlaces.Further(finding, int.MaxValue).Should().EndWith("; message 26");
    }

    [Fact]
    public void EveryFormat_HasOneFindingWithItsPlaces()
    {
        const string Also = "object 3 (bit 27 of object 3)";
        ProductReport report = new() { Product = "x", Verdict = Verdict.Fails, Findings = { FourFlags } };
        ReportSet set = SampleReports.SetOf(report);

        ProductText.FindingSummary(report).Should().Be("1 violation");
        foreach (Action<TextWriter, ReportSet> write in new Action<TextWriter, ReportSet>[]
            { ProductText.Write, MarkdownReport.Write, ProductPage.Write, JunitReport.Write, FindingCsv.Write })
        {
            string text = string.Join(' ', SampleReports.Write(write, set).Split((char[]?)null, StringSplitOptions.RemoveEmptyEntries));
            text.Should().Contain(Also);
            text.Split("flags-beyond-first-object").Length.Should().Be(2, "it is one finding");
        }
    }

    private static FindingPlace Place(long message, long timeUs, int position) => new()
    {
        File = "c1", TimeUs = timeUs, MessageIndex = message, ObjectPosition = position, Detail = Carries, Observed = $"bit 27 of object {position}",
    };
}
