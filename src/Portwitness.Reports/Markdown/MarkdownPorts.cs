using Portwitness.Contracts.V1;
using Portwitness.Reports.Text;

namespace Portwitness.Reports.Markdown;

/// <summary>What ports do together, and what each offers alone and beside others.</summary>
internal static class MarkdownPorts
{
    private static readonly string[] ObjectColumns = ["object", "word", "kind", "voltage", "current", "power", "remarks"];

    public static void WriteTogether(TextWriter writer, ProductReport report)
    {
        if (report.Sharing is { } sharing)
        {
            MarkdownReport.WriteHeading(writer, "Ports together");
            MarkdownReport.WriteParagraph(writer, sharing.Sentence);
            MarkdownReport.WriteParagraph(writer, sharing.Evidence.Length > 0 ? $"Seen: {sharing.Evidence}" : "");
            MarkdownReport.WriteParagraph(writer, sharing.NextStep.Length > 0 ? $"Next: {sharing.NextStep}" : "");
            MarkdownReport.WriteParagraph(writer, sharing.HasCombinationsPrinted ? $"Combinations: {ArrangementText.Combinations(sharing)}." : "");
            MarkdownTable.Write(writer, null, ArrangementText.Arrangements(report.Arrangements));
            MarkdownTable.Write(writer, null, ArrangementText.Changes(report.NeighbourChanges));
        }

        if (report.Signalling.Count > 0)
        {
            MarkdownReport.WriteHeading(writer, "Other signalling");
            MarkdownTable.Write(writer, null, SignallingText.Ports(report));
            MarkdownTable.Write(writer, null, SignallingText.Ratings(report));
        }
    }

    public static void WriteOffers(TextWriter writer, ProductReport report)
    {
        foreach (PortReport port in report.Ports)
        {
            MarkdownReport.WriteHeading(writer, ProductText.PortHeading(port));
            foreach (ArrangementReport arrangement in port.Arrangements)
            {
                writer.WriteLine();
                writer.WriteLine($"### {MarkdownText.Of(ProductText.About(port, arrangement))}");
                MarkdownReport.WriteParagraph(
                    writer, arrangement.Offered is { } list
                        ? string.Join(", ", AdvertisementText.About(list, TextStyle.Plain))
                        : "No capability list was seen.");
                if (arrangement.Offered is { } offered)
                {
                    MarkdownTable.Write(writer, ObjectColumns, AdvertisementText.Objects(offered));
                }

                if (arrangement.Contracts.Count > 0)
                {
                    MarkdownTable.Write(writer, null, ContractTable.Of(arrangement.Contracts));
                }
            }
        }
    }
}
