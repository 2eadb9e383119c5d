using System.Xml.Linq;
using Portwitness.Contracts.V1;
using Portwitness.Reports.Text;

namespace Portwitness.Reports.Html;

/// <summary>The page that links the products of a batch. Its only script sorts the table; without it the order is that of the batch.</summary>
public static class BatchPage
{
    private static readonly Severity[] Severities = [Severity.Violation, Severity.Mismatch, Severity.Caution, Severity.Note];

    /// <summary>Writes the page; reports are read one at a time.</summary>
    /// <param name="writer">Where to.</param>
    /// <param name="products">Products, each with where its own page is from here; null where it has none.</param>
    public static void Write(TextWriter writer, IEnumerable<(ReportedProduct Product, string? Link)> products)
    {
        List<XElement> rows = [];
        Dictionary<Verdict, int> counts = [];
        foreach ((ReportedProduct product, string? link) in products)
        {
            ProductReport report = product.Read();
            rows.Add(Row(product, report, link));
            counts[report.Verdict] = counts.GetValueOrDefault(report.Verdict) + 1;
        }

        int Count(Verdict verdict) => counts.GetValueOrDefault(verdict);
        string summary = $"{Amounts.Count(rows.Count, "product", "products")}: {Count(Verdict.Holds)} hold, {Count(Verdict.Fails)} fail, "
            + $"{rows.Count - Count(Verdict.Holds) - Count(Verdict.Fails)} cannot be told.";
        Page.Write(
            writer, "Products of a batch",
            [
                Markup.Element("header", Markup.Element("h1", "Products of a batch"), Markup.Element("p", summary)),
                Markup.Element("main", Markup.Scrolling("Products", Markup.Element(
                    "table", Markup.Element("caption", "Choose a heading to sort by it"),
                    Markup.Headings(["product", "verdict", .. Severities.Select(static severity => Plural(severity)), "source"]),
                    Markup.Element("tbody", rows.ToArray())))),
            ],
            "Sort.js");
    }

    private static XElement Row(ReportedProduct product, ProductReport report, string? link) => Markup.Element(
        "tr",
        Markup.Element("th", new XAttribute("scope", "row"), Linked(report.Product.Length > 0 ? report.Product : product.Source, link)),
        Markup.Element("td", Markup.Mark(report.Verdict), report.Unusable ? " (cannot be read)" : report.VerdictBasis.Length > 0 ? $" {report.VerdictBasis}" : null),
        Severities.Select(severity => Markup.Element(
            "td", Amounts.Number(report.Findings.Count(finding => finding.Severity == severity)))).ToArray(),
        Markup.Element("td", product.Source));

    private static object Linked(string name, string? link) => link is null ? name
        : Markup.Element("a", new XAttribute("href", string.Join('/', link.Split('/').Select(Uri.EscapeDataString))), name);

    private static string Plural(Severity severity) => severity switch
    {
        Severity.Mismatch => "mismatches",
        _ => severity.ToString().ToLowerInvariant() + "s",
    };
}
