using Portwitness.Contracts.V1;
using Portwitness.Reports.Html;
using Portwitness.Reports.Markdown;
using Portwitness.Reports.Text;

namespace Portwitness.Reports.Tests;

/// <summary>Several labels and port controllers stand in every report for people.</summary>
public class FurtherLabelTests
{
    private static readonly ProductReport Report = new()
    {
        Product = "Tarnholt TH-65",
        Verdict = Verdict.Fails,
        LabelName = "front",
        Label = new Label { Text = "USB-C: 65W" },
        Statements = { new Statement { Claim = "C gives up to 65 W", LabelLine = 1, LabelColumn = 8, Verdict = Verdict.Holds, Evidence = "object 4" } },
        FurtherLabels =
        {
            new FurtherLabel
            {
                Name = "leaflet",
                Label = new Label { Text = "USB-C: 60W\nblorp", Unread = { new UnreadSpan { Line = 2, Column = 1, Text = "blorp" } } },
                Statements = { new Statement { Claim = "C gives up to 60 W", LabelLine = 1, LabelColumn = 8, Verdict = Verdict.Fails, Evidence = "65 W" } },
            },
        },
        Findings =
        {
            new Finding
            {
                Rule = "labels-disagree", Severity = Severity.Mismatch, Verdict = Verdict.Fails, Label = "front", LabelLine = 1, OtherLabel = "leaflet", OtherLabelLine = 1,
            },
        },
        Controllers = { new ControllerResult { Part = "U1", Ports = { "C" }, RatedMw = 65_000, Protocols = { "PD3.1", "PPS" }, LargestMw = 65_000 } },
    };

    [Fact]
    public void Text_HasEachLabelAndTheController()
    {
        string text = Written(static writer => ProductText.Write(writer, Report, TextStyle.Plain));

        text.Should().Contain("What the label \"front\" says\n  Of 1 printed statement 1 hold, 0 fail, 0 cannot be told.\n")
            .And.Contain("What the label \"leaflet\" says\n  Of 1 printed statement 0 hold, 1 fail, 0 cannot be told.\n")
            .And.Contain("Text of the label \"leaflet\" not read:\n  line 2, column 1  blorp")
            .And.Contain("label \"front\" line 1, label \"leaflet\" line 1").And.MatchRegex("U1 +C +65 W +PD3.1, PPS +65 W");
    }

    [Fact]
    public void Markdown_HasEachLabelAndTheController() => SampleReports.Write(MarkdownReport.Write, SampleReports.SetOf(Report)).Should()
        .Contain("## What the label \"leaflet\" says").And.Contain("| FAILS | C gives up to 60 W |").And.Contain("## Port controllers");

    [Fact]
    public void Page_MarksEachLabel()
    {
        string page = Written(static writer => ProductPage.Write(writer, Report));

        page.Should().Contain("id=\"label\"").And.Contain("id=\"label-2\"").And.Contain("What the label \"leaflet\" says").And.Contain("Port controllers")
            .And.Contain("Of 2 printed statements 1 hold, 1 fail, 0 cannot be told.");
    }

    private static string Written(Action<TextWriter> write)
    {
        using StringWriter writer = new() { NewLine = "\n" };
        write(writer);
        return writer.ToString();
    }
}
