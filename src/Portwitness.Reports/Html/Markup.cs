using System.Globalization;
using System.Xml.Linq;
using Portwitness.Contracts.V1;
using Portwitness.Reports.Text;

namespace Portwitness.Reports.Html;

/// <summary>Elements that all parts of a page are put together from. Text is made visible first, and escaped when it is written.</summary>
internal static class Markup
{
    private const int LongCell = 40;

    /// <summary>An element; strings among its content are text of the report.</summary>
    public static XElement Element(string name, params object?[] content) => new(name, [.. content.Select(Content)]);

    /// <summary>An attribute whose value is the page's own or text of the report.</summary>
    public static XAttribute Attribute(string name, string value) => new(name, VisibleText.Of(value));

    /// <summary>The class of an element.</summary>
    public static XAttribute Class(string names) => new("class", names);

    /// <summary>A section with its heading; null when it has nothing else.</summary>
    public static XElement? Section(string id, string heading, params object?[] content) => content.All(static part => part is null or XElement[] { Length: 0 })
        ? null
        : Element("section", new XAttribute("id", id), new XAttribute("aria-labelledby", id + "-h"), Element("h2", new XAttribute("id", id + "-h"), heading), content);

    /// <summary>A table that scrolls by itself where it is wider than the page. The first row has the headings.</summary>
    public static XElement? Table(TextTable table, string caption) => table.Rows.Count < 2 ? null : Table(table.Rows[0], table.Rows.Skip(1), caption);

    /// <summary>The same from headings and rows; columns that are empty in every row are left out, and short rows filled.</summary>
    public static XElement Table(IReadOnlyList<string> headings, IEnumerable<IReadOnlyList<string>> rows, string caption)
    {
        IReadOnlyList<string>[] all = [.. rows];
        int[] shown = [.. Enumerable.Range(0, headings.Count).Where(column => Array.Exists(all, row => column < row.Count && row[column].Length > 0))];
        return Scrolling(caption, Element(
            "table",
            Element("caption", caption),
            Headings([.. shown.Select(column => headings[column])]),
            Element("tbody", all.Select(row => Element("tr", shown.Select(column => Cell(column == shown[0], column < row.Count ? row[column] : "")).ToArray())).ToArray())));
    }

    /// <summary>The head of a table.</summary>
    public static XElement Headings(params string[] headings) => Element(
        "thead", Element("tr", headings.Select(heading => Element("th", new XAttribute("scope", "col"), heading.Length > 0 ? heading : "remarks")).ToArray()));

    /// <summary>A box that scrolls sideways, by keyboard too.</summary>
    public static XElement Scrolling(string label, params object?[] content) => Element(
        "div", Class("scroll"), new XAttribute("tabindex", "0"), new XAttribute("role", "region"), Attribute("aria-label", label), content);

    /// <summary>A verdict as a sign and a word, never by colour alone.</summary>
    public static XElement Mark(Verdict verdict) => Element(
        "span", Class($"mark {Word(verdict)}"), Element("span", new XAttribute("aria-hidden", "true"), Sign(verdict)), " " + ProductText.Word(verdict).ToLowerInvariant());

    /// <summary>"✓", "✗" or "?".</summary>
    public static string Sign(Verdict verdict) => verdict switch
    {
        Verdict.Holds => "✓",
        Verdict.Fails => "✗",
        _ => "?",
    };

    /// <summary>The class of a verdict.</summary>
    public static string Word(Verdict verdict) => verdict switch
    {
        Verdict.Holds => "holds",
        Verdict.Fails => "fails",
        _ => "open",
    };

    /// <summary>A list of sentences; null without any.</summary>
    public static XElement? List(IEnumerable<string> sentences)
    {
        XElement[] items = [.. sentences.Select(sentence => Element("li", sentence))];
        return items.Length == 0 ? null : Element("ul", items);
    }

    /// <summary>Terms with their descriptions; those without one are left out.</summary>
    public static XElement Terms(params (string Term, string Text)[] terms) => Element(
        "dl", terms.Where(term => term.Text.Length > 0).SelectMany(term => new[] { Element("dt", term.Term), Element("dd", term.Text) }).ToArray());

    /// <summary>A number as coordinates need it.</summary>
    public static string Number(decimal value) => Math.Round(value, 1).ToString(CultureInfo.InvariantCulture);

    // Short cells stay on one line.
    private static XElement Cell(bool isFirst, string text)
    {
        XAttribute? isLong = text.Length > LongCell ? Class("long") : null;
        return isFirst ? Element("th", new XAttribute("scope", "row"), isLong, text) : Element("td", isLong, text);
    }

    private static object? Content(object? part) => part switch
    {
        string text => VisibleText.Of(text),
        object?[] parts => parts.Select(Content).ToArray(),
        _ => part,
    };
}
