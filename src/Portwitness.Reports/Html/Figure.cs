using System.Xml.Linq;

namespace Portwitness.Reports.Html;

/// <summary>A drawing with its caption, and words for those who do not see it.</summary>
internal static class Figure
{
    /// <summary>Units of the drawing from left to right.</summary>
    public const int Width = 760;

    /// <summary>Makes one.</summary>
    /// <param name="id">What is unique on the page.</param>
    /// <param name="title">What it shows.</param>
    /// <param name="description">What it tells, and where the numbers are.</param>
    /// <param name="height">Units from top to bottom.</param>
    /// <param name="keys">What its signs mean: the class of a sample, and words.</param>
    /// <param name="parts">The drawing.</param>
    public static XElement Of(string id, string title, string description, int height, IEnumerable<(string Kind, string Text)> keys, params object?[] parts) => Markup.Element(
        "figure",
        Markup.Element("figcaption", Markup.Element("p", title), Markup.Element("ul", Markup.Class("keys"), keys.Select(key => Markup.Element("li", Sample(key.Kind), key.Text)).ToArray())),
        Markup.Scrolling(title, Markup.Element(
            "svg", new XAttribute("viewBox", $"0 0 {Width} {height}"), new XAttribute("role", "img"), new XAttribute("aria-labelledby", $"{id}-t {id}-d"),
            Markup.Element("title", new XAttribute("id", $"{id}-t"), title), Markup.Element("desc", new XAttribute("id", $"{id}-d"), description), parts)));

    private static XElement Sample(string kind) => Markup.Element(
        "svg", new XAttribute("viewBox", "0 0 28 14"), Markup.Class("key"), new XAttribute("aria-hidden", "true"),
        kind.Split(' ')[0] switch
        {
            "fixed" => Markup.Element("circle", Markup.Class(kind), Axes.At("cx", 14), Axes.At("cy", 7), Axes.At("r", 5)),
            "printed" => Markup.Element("path", Markup.Class(kind), new XAttribute("d", "M14 1L20 7L14 13L8 7Z")),
            "area" or "band" or "claim" or "gone" or "seen" => Markup.Element("rect", Markup.Class(kind), Axes.At("x", 2), Axes.At("y", 2), Axes.At("width", 24), Axes.At("height", 10)),
            _ => Axes.Line(kind, 1, 7, 27, 7),
        });
}
