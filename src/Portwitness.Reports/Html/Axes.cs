using System.Globalization;
using System.Xml.Linq;

namespace Portwitness.Reports.Html;

/// <summary>One panel of a plot: where values are drawn, with grid and numbers.</summary>
/// <param name="Left">Left edge of the panel, in units of the drawing.</param>
/// <param name="Top">Its upper edge.</param>
/// <param name="Width">Its width.</param>
/// <param name="Height">Its height.</param>
/// <param name="FromX">The value at the left edge.</param>
/// <param name="ToX">The value at the right edge.</param>
/// <param name="ToY">The value at the upper edge; the lower one is 0, or FromY.</param>
internal sealed record Axes(decimal Left, decimal Top, decimal Width, decimal Height, decimal FromX, decimal ToX, decimal ToY)
{
    private const int LeastStep = 26;
    private const int MaxSteps = 8;

    /// <summary>The value at the lower edge.</summary>
    public decimal FromY { get; init; }

    /// <summary>A value's place from left to right, kept within the panel.</summary>
    public decimal X(decimal value) => Left + (Width * (Math.Clamp(value, FromX, ToX) - FromX) / (ToX - FromX));

    /// <summary>A value's place from top to bottom, kept within the panel.</summary>
    public decimal Y(decimal value) => Top + (Height * (ToY - Math.Clamp(value, FromY, ToY)) / (ToY - FromY));

    /// <summary>Grid and numbers.</summary>
    public XElement Grid(string nameX, string nameY)
    {
        List<XElement> parts = [];
        foreach (decimal value in Steps(FromX, ToX, MaxSteps))
        {
            parts.Add(Line("grid", X(value), Top, X(value), Top + Height));
            if (nameX.Length > 0)
            {
                parts.Add(Text("tick", X(value), Top + Height + 16, "middle", Plain(value)));
            }
        }

        foreach (decimal value in Steps(FromY, ToY, Math.Min(MaxSteps, Height / LeastStep)))
        {
            parts.Add(Line("grid", Left, Y(value), Left + Width, Y(value)));
            parts.Add(Text("tick", Left - 6, Y(value) + 4, "end", Plain(value)));
        }

        parts.Add(Text("name", Left + Width, Top + Height + 34, "end", nameX));
        parts.Add(Text("name", Left - 40, Top - 13, "start", nameY));
        return Markup.Element("g", parts.ToArray());
    }

    /// <summary>A box between two corners, given as values.</summary>
    public XElement Box(string kind, decimal fromX, decimal toX, decimal fromY, decimal toY) => Markup.Element(
        "rect", Markup.Class(kind), At("x", X(fromX)), At("y", Y(toY)), At("width", X(toX) - X(fromX)), At("height", Y(fromY) - Y(toY)));

    /// <summary>A line through places of the drawing.</summary>
    public static XElement Line(string kind, decimal fromX, decimal fromY, decimal toX, decimal toY) => Markup.Element(
        "line", Markup.Class(kind), At("x1", fromX), At("y1", fromY), At("x2", toX), At("y2", toY));

    /// <summary>Words at a place of the drawing.</summary>
    public static XElement Text(string kind, decimal x, decimal y, string anchor, string text) => Markup.Element(
        "text", Markup.Class(kind), At("x", x), At("y", y), new XAttribute("text-anchor", anchor), text);

    /// <summary>A coordinate.</summary>
    public static XAttribute At(string name, decimal value) => new(name, Markup.Number(value));

    /// <summary>The round number that a scale from 0 ends at to show a value. It is above 0: a scale of nothing but zeroes ends at 1.</summary>
    public static decimal Round(decimal value) =>
        value > 0 && Steps(0, value, MaxSteps) is [_, var step, ..] ? Math.Ceiling(value / step) * step : Math.Max(value, 1);

    private static decimal[] Steps(decimal from, decimal to, decimal most)
    {
        decimal step = 0.000001m;
        foreach (decimal factor in Enumerable.Range(0, 60).Select(static at => at % 3 == 1 ? 2.5m : 2m))
        {
            if ((to - from) / step <= most)
            {
                break;
            }

            step *= factor;
        }

        List<decimal> values = [];
        for (decimal value = Math.Ceiling(from / step) * step; value <= to; value += step)
        {
            values.Add(value);
        }

        return [.. values];
    }

    private static string Plain(decimal value) => value.ToString("0.######", CultureInfo.InvariantCulture);
}
