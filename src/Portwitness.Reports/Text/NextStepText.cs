namespace Portwitness.Reports.Text;

/// <summary>What to capture or to state next.</summary>
internal static class NextStepText
{
    public static void Write(TextWriter writer, IReadOnlyCollection<string> steps, TextStyle style) =>
        WriteList(writer, "Next steps", steps, style);

    public static void WriteList(TextWriter writer, string heading, IReadOnlyCollection<string> sentences, TextStyle style)
    {
        if (sentences.Count == 0)
        {
            return;
        }

        writer.WriteLine();
        writer.WriteLine(style.Heading(heading));
        foreach (string sentence in sentences)
        {
            Paragraph.WriteWrapped(writer, style, "  - ", "    ", sentence);
        }
    }
}
