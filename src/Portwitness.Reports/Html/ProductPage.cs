using System.Xml.Linq;
using Portwitness.Contracts.V1;
using Portwitness.Reports.Text;

namespace Portwitness.Reports.Html;

/// <summary>One product's report as a page of its own: the verdict first, then what it rests on.</summary>
public static class ProductPage
{
    /// <summary>Writes the page of the only product.</summary>
    public static void Write(TextWriter writer, ReportSet set) => Write(writer, set.Products[0].Read(), set.Products[0].Pictures);

    /// <summary>Writes the page. What plots are drawn from is in reports that were asked for with plots; others have tables only.</summary>
    /// <param name="writer">Where to.</param>
    /// <param name="report">The report.</param>
    /// <param name="pictures">Photos of labels as JPEG, by the text that was recognised on them; null for none.</param>
    public static void Write(TextWriter writer, ProductReport report, IReadOnlyDictionary<string, byte[]>? pictures = null)
    {
        XElement?[] sections =
        [
            FindingPart.Of(report.Findings),
            .. LabelPart.Of(report, pictures ?? new Dictionary<string, byte[]>()),
            OfferPart.Of(report),
            TogetherPart.Of(report),
            EnergyPart.Of(report),
            Markup.Section("claims", ClaimTable.Title, Markup.Table(ClaimTable.Of(report), "What a box or a page says")),
            Markup.Section(
                "teardown", TeardownTables.LedgerTitle, Markup.Table(TeardownTables.Ledger(report), "What is on the boards"),
                Markup.Table(TeardownTables.Checks(report), TeardownTables.ChecksTitle)),
            Markup.Section("passing", HandlingTables.PassThroughTitle, Markup.Table(HandlingTables.PassThrough(report), "Power in and out at once")),
            Markup.Section("opening", HandlingTables.OpeningTitle, Markup.List(report.Opening)),
            report.Travel is not { } card ? null
                : Markup.Section("travel", HandlingTables.TravelTitle(card), Markup.Table(HandlingTables.Rules(card), "Rules in force"), Markup.List(HandlingTables.Remarks(card))),
            Markup.Section("handling", HandlingTables.HandlingTitle(report), Markup.List(report.Handling)),
            DevicePart.Of(report.Devices),
            SignallingPart(report),
            MeasuredPart.Of(report),
            TimelinePart.Of(report),
            Markup.Section("open", "Not captured, or not settled", Markup.List(report.NextSteps)),
            Markup.Section("faults", "What could not be read", Markup.List(report.Faults.Select(FaultListText.Of))),
            Markup.Section("cautions", "Cautions", Markup.List(report.Cautions)),
            SourcePart(report),
        ];
        XElement[] shown = [.. sections.OfType<XElement>()];
        Page.Write(
            writer, $"{report.Product}: {ProductText.Word(report.Verdict).ToLowerInvariant()}{(report.VerdictBasis.Length > 0 ? " " : "")}{report.VerdictBasis}",
            [
                Markup.Element("header", Head(report)),
                Markup.Element("nav", new XAttribute("aria-label", "Parts of this report"), Markup.Element("ul", shown.Select(Link).ToArray())),
                Markup.Element("main", shown),
            ],
            showsPictures: pictures is { Count: > 0 });
    }

    private static object?[] Head(ProductReport report) =>
    [
        Markup.Element("h1", report.Product),
        Markup.Element(
            "p", Markup.Class($"verdict {Markup.Word(report.Verdict)}"), Markup.Mark(report.Verdict),
            report.VerdictBasis.Length > 0 ? $" {report.VerdictBasis}" : null),
        Markup.Element("p", $"Findings: {ProductText.FindingSummary(report)}. {Statements(report)}"),
        RuleText.Selection(report.Rules).Select(sentence => Markup.Element("p", sentence)).ToArray(),
        Markup.Element("p", Markup.Class("small"), "A pre-check from captures and a label; not a certification."),
    ];

    private static string Statements(ProductReport report)
    {
        if (report.Statements.Count == 0)
        {
            return "No printed statement was judged.";
        }

        int beside = report.Findings.Count(finding => finding.Severity is Severity.Violation or Severity.Mismatch && finding.Verdict == Verdict.Fails
            && !finding.HasLabelLine);
        string others = beside == 0 ? "" : $" {Amounts.Count(beside, "finding that fails the product is", "findings that fail the product are")} of no printed statement.";
        return StatementText.Counts([.. report.Statements, .. report.FurtherLabels.SelectMany(static label => label.Statements)]) + others;
    }

    private static XElement Link(XElement section) => Markup.Element(
        "li", Markup.Element("a", new XAttribute("href", "#" + section.Attribute("id")!.Value), section.Element("h2")!.Value));

    private static XElement? SignallingPart(ProductReport report) => Markup.Section(
        "signalling", "Other signalling", Markup.Table(SignallingText.Ports(report), "What each port answers to besides USB PD"),
        Markup.Table(SignallingText.Ratings(report), "Printed ratings that USB PD does not back"));

    private static XElement? SourcePart(ProductReport report) => Markup.Section(
        "sources", "What this report was made from",
        Markup.Element("p", $"Portwitness {(report.ToolVersion.Length > 0 ? report.ToolVersion : ReportSet.ToolVersion)}."),
        report.Inputs.Count == 0 ? null : Markup.Table(
            ["file", "bytes", "SHA-256"],
            report.Inputs.Select(input => new[] { input.File, Amounts.Number(input.Bytes), input.Sha256 }),
            "Input files"));
}
