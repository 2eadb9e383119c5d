using System.Globalization;
using System.Xml.Linq;
using Portwitness.Contracts.V1;
using Portwitness.Reports.Text;

namespace Portwitness.Reports.Html;

/// <summary>The conversation of each capture, a column for each that speaks.</summary>
internal static class TimelinePart
{
    private const int MaxOpen = 60;

    public static XElement? Of(ProductReport report) => Markup.Section(
        "conversation", "Conversation", report.Plots.Where(plot => plot.Timeline.Count > 0).Select(One).ToArray());

    private static XElement One(CapturePlot plot)
    {
        string name = plot.Port.Length > 0 ? $"{plot.File}, port {plot.Port}" : plot.File;
        string more = plot.TimelineLeftOut > 0 ? $" {plot.TimelineLeftOut} more lines are left out; 'portwitness decode' shows them." : "";
        return Markup.Element(
            "details", plot.Timeline.Count <= MaxOpen ? new XAttribute("open", "open") : null,
            Markup.Element("summary", $"{name}: {Amounts.Count(plot.Timeline.Count, "line", "lines")}.{more}"),
            Markup.Table(["at", "after", "source", "cable", "sink", "bench", "meaning"], plot.Timeline.Select(Row), $"Conversation of {name}"));
    }

    private static string[] Row(TimelineEntry entry)
    {
        string said = entry.Name + (entry.Repeats > 0 ? string.Create(CultureInfo.InvariantCulture, $" (and {entry.Repeats} times more)") : "");
        string from = entry.Direction.Split(' ')[0];
        bool isMessage = entry.Kind == "message";
        return
        [
            Amounts.Seconds(entry.TimeUs), string.Create(CultureInfo.InvariantCulture, $"+{entry.GapUs / 1000m:0.###} ms"),
            isMessage && from is "source" or "port" ? said : "", isMessage && from == "cable" ? said : "",
            isMessage && from == "sink" ? said : "",
            !isMessage || from is not ("source" or "port" or "cable" or "sink") ? said : "", entry.Meaning,
        ];
    }
}
