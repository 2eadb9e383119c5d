using System.Xml.Linq;
using Portwitness.Contracts.V1;
using Portwitness.Reports.Text;

namespace Portwitness.Reports.Html;

/// <summary>What each port offers under each arrangement: the envelope as a plot, and the same as a table.</summary>
internal static class OfferPart
{
    private const int MaxPlots = 60;

    public static XElement? Of(ProductReport report)
    {
        (PortReport Port, ArrangementReport Arrangement)[] all = [.. report.Ports.SelectMany(port => port.Arrangements.Select(arrangement => (port, arrangement)))];

        // The same ports may have been captured again, or another list have been offered: readers of regions need to tell them apart.
        ILookup<string, string> headings = all.Select(static one => Heading(one.Port, one.Arrangement)).ToLookup(static heading => heading);
        return Markup.Section("offers", "What each port offers", all.Select((one, index) =>
        {
            string heading = Heading(one.Port, one.Arrangement);
            bool isAlike = headings[heading].Skip(1).Any();
            return One(report, one.Port, one.Arrangement, index, isAlike ? $"{heading}, {Place(one.Arrangement)}" : heading);
        }).ToArray());
    }

    private static string Heading(PortReport port, ArrangementReport arrangement)
    {
        string name = port.Port.Length > 0 ? port.Port : "A port without a name";
        return arrangement.InUse.Count > 1 ? $"{name}, in use {string.Join(" + ", arrangement.InUse)}"
            : arrangement.InUse.Count == 1 ? $"{name} alone" : name;
    }

    private static string Place(ArrangementReport arrangement) =>
        arrangement.Offered is { } offered ? $"{arrangement.File}, message {offered.MessageIndex}" : arrangement.File;

    private static XElement One(ProductReport report, PortReport port, ArrangementReport arrangement, int index, string heading)
    {
        Advertisement? offered = arrangement.Offered;
        return Markup.Element(
            "article",
            Markup.Element("h3", heading),
            Markup.Element("p", Markup.Class("small"), ProductText.About(port, arrangement)),
            offered is null ? Markup.Element("p", "No capability list was seen.") : null,
            offered is not null && index < MaxPlots ? EnvelopePlot.Of(offered, Printed(report.Label, arrangement), heading, $"e{index}") : null,
            offered is null ? null : Markup.Table(
                ["object", "word", "kind", "voltage", "current", "power", "flags"], offered.Objects.Select(PowerObjectRow.Of),
                $"{heading}: {offered.Message}, message {offered.MessageIndex}{(offered.HasPdpMw ? $", PDP {Amounts.Watts(offered.PdpMw)} ({offered.PdpBasis})" : "")}"),
            Markup.Table(ContractTable.Of(arrangement.Contracts), $"{heading}: requests and contracts"));
    }

    // What the label prints for the port alone, or for it among those in use. Ports go by the label's own spelling.
    private static PrintedOutput? Printed(Label? label, ArrangementReport arrangement)
    {
        string port = arrangement.LabelPort;
        if (arrangement.LabelInUse.Count <= 1)
        {
            return label?.Outputs.FirstOrDefault(output => output.Port == port);
        }

        PrintedShare? share = label?.Combinations.FirstOrDefault(one => one.Ports.Order(StringComparer.Ordinal)
            .SequenceEqual(arrangement.LabelInUse.Order(StringComparer.Ordinal)))?.Split.FirstOrDefault(one => one.Port == port);
        if (share is null)
        {
            return null;
        }

        PrintedOutput printed = new() { Fixed = { share.Fixed }, Ranges = { share.Ranges } };
        if (share.HasPowerMw)
        {
            printed.MaxPowerMw = share.PowerMw;
        }

        return printed;
    }
}
