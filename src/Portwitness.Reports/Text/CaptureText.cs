using Portwitness.Contracts.V1;

namespace Portwitness.Reports.Text;

/// <summary>One decoded capture for people.</summary>
public static class CaptureText
{
    /// <summary>What was offered, agreed and said, then findings, faults and next steps.</summary>
    /// <param name="writer">Where to.</param>
    /// <param name="capture">The capture.</param>
    /// <param name="style">Colour and width.</param>
    /// <param name="withTimeline">Whether to show the folded conversation; not where every message is listed.</param>
    public static void Write(TextWriter writer, DecodedCapture capture, TextStyle style, bool withTimeline = true)
    {
        writer.WriteLine(style.Heading(VisibleText.Of(capture.File)));
        Paragraph.WriteWrapped(writer, style, "  ", "  ", About(capture));
        foreach (Advertisement advertisement in capture.Advertisements)
        {
            writer.WriteLine();
            AdvertisementText.Write(writer, advertisement, "", style);
        }

        if (capture.Advertisements.Count == 0)
        {
            writer.WriteLine();
            writer.WriteLine("No capability list was seen.");
        }

        if (capture.Contracts.Count > 0)
        {
            writer.WriteLine();
            writer.WriteLine(style.Heading("Contracts"));
            ContractTable.Write(writer, capture.Contracts, "  ");
        }

        FactText.Write(writer, capture.Facts, style);
        if (withTimeline && capture.Timeline.Count > 1)
        {
            writer.WriteLine();
            writer.WriteLine(style.Heading("Conversation") + " (acknowledgements and repeats folded; --messages lists all)");
            TimelineText.Write(writer, capture.Timeline, "  ");
        }

        if (capture.Explanation is { } explanation)
        {
            ExplanationText.Write(writer, explanation, style);
        }

        RuleText.WriteSelection(writer, capture.Rules, style);
        FindingText.Write(writer, capture.Findings, style);
        FaultListText.Write(writer, capture.Faults, style);
        NextStepText.Write(writer, capture.NextSteps, style);
    }

    private static string About(DecodedCapture capture)
    {
        List<string> parts = [];
        if (capture.Port.Length > 0)
        {
            parts.Add($"port {capture.Port}");
        }

        if (capture.Arrangement.Count > 0)
        {
            parts.Add($"in use {string.Join(" + ", capture.Arrangement)}");
        }

        parts.Add($"edition {capture.Edition}");
        if (capture.Cable.Length > 0)
        {
            parts.Add($"cable {capture.Cable}");
        }

        parts.Add($"format {capture.Format}");
        parts.Add(Amounts.Count(capture.MessageCount, "message", "messages"));
        return string.Join("; ", parts);
    }
}
