using System.Globalization;
using System.Xml.Linq;
using Portwitness.Contracts.V1;
using Portwitness.Reports.Text;

namespace Portwitness.Reports.Html;

/// <summary>The page of a service: reports that it keeps, the newest first. It needs no script; the form asks the service again.</summary>
public static class HistoryPage
{
    private static readonly (string Value, string Word)[] Verdicts = [("", "any"), ("holds", "holds"), ("fails", "fails"), ("cannot_tell", "cannot tell")];

    /// <summary>Writes the page.</summary>
    /// <param name="writer">Where to.</param>
    /// <param name="found">The reports of this page.</param>
    /// <param name="product">What was asked for of products' names.</param>
    /// <param name="verdict">What was asked for of verdicts: "", "holds", "fails" or "cannot_tell".</param>
    /// <param name="hasStore">Whether the service keeps reports at all.</param>
    public static void Write(TextWriter writer, ListReportsResponse found, string product, string verdict, bool hasStore) => Page.Write(
        writer, "Reports",
        [
            Markup.Element("header", Markup.Element("h1", "Reports of this bench"), Markup.Element("p", Markup.Class("small"), "A pre-check of what was captured, not a certification.")),
            Markup.Element("main", hasStore ? [Form(product, verdict), Table(found), Next(found, product, verdict)] : [Markup.Element("p", "This service keeps no reports.")]),
        ],
        asks: true);

    private static XElement Form(string product, string verdict) => Markup.Element(
        "form", new XAttribute("method", "get"), Markup.Class("ask"),
        Markup.Element("label", "Product ", Markup.Element("input", new XAttribute("name", "product"), Markup.Attribute("value", product), new XAttribute("maxlength", "200"))),
        Markup.Element("label", "Verdict ", Markup.Element("select", new XAttribute("name", "verdict"), Verdicts.Select(one => Markup.Element(
            "option", new XAttribute("value", one.Value), one.Value == verdict ? new XAttribute("selected", "selected") : null, one.Word)).ToArray())),
        Markup.Element("button", "Show"));

    private static XElement Table(ListReportsResponse found) => found.Reports.Count == 0 ? Markup.Element("p", "No report fits.") : Markup.Scrolling("Reports", Markup.Element(
        "table", Markup.Element("caption", "The newest first; times are UTC"),
        Markup.Headings("verdict", "product", "sample", "firmware", "findings", "kept", "no.", "files"),
        Markup.Element("tbody", found.Reports.Select(Row).ToArray())));

    private static XElement Row(StoredReport report)
    {
        string address = string.Create(CultureInfo.InvariantCulture, $"reports/{report.Id}");
        return Markup.Element(
            "tr",
            Markup.Element("td", Markup.Mark(report.Verdict)),
            Markup.Element("th", new XAttribute("scope", "row"), Link(address, report.Product.Length > 0 ? report.Product : "no name")),
            Markup.Element("td", report.Sample), Markup.Element("td", report.Firmware),
            Markup.Element("td", Findings(report)),
            Markup.Element("td", HistoryText.Time(report.FirstSeenUs)),
            Markup.Element("td", Amounts.Number(report.Id)),
            Markup.Element("td", Link(address + "/csv-findings", "CSV"), " ", Link(address + "/json", "JSON")));
    }

    private static string Findings(StoredReport report)
    {
        string[] counts =
        [
            .. new[] { (report.Violations, "violation", "violations"), (report.Mismatches, "mismatch", "mismatches"), (report.Cautions, "caution", "cautions"), (report.Notes, "note", "notes") }
                .Where(static one => one.Item1 > 0).Select(static one => $"{Amounts.Number(one.Item1)} {(one.Item1 == 1 ? one.Item2 : one.Item3)}"),
        ];
        return counts.Length > 0 ? string.Join(", ", counts) : "none";
    }

    private static XElement? Next(ListReportsResponse found, string product, string verdict) => found.NextPageToken.Length == 0 ? null : Markup.Element(
        "p", Link($"?product={Uri.EscapeDataString(product)}&verdict={Uri.EscapeDataString(verdict)}&page_token={Uri.EscapeDataString(found.NextPageToken)}", "Older reports"));

    private static XElement Link(string address, string text) => Markup.Element("a", new XAttribute("href", address), text);
}
