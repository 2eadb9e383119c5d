namespace Portwitness.Reports.Text;

/// <summary>Sentences under a label, wrapped between words with a hanging indent.</summary>
internal static class Paragraph
{
    private const int LabelColumns = 10;

    /// <summary>"    expected  one object …", the following lines under the first word.</summary>
    public static void Write(TextWriter writer, TextStyle style, string indent, string label, string text)
    {
        if (text.Length > 0)
        {
            WriteWrapped(writer, style, indent + label.PadRight(LabelColumns), new string(' ', indent.Length + LabelColumns), text);
        }
    }

    /// <summary>Text after a first line's beginning, the following lines indented by <paramref name="hanging"/>.</summary>
    public static void WriteWrapped(TextWriter writer, TextStyle style, string beginning, string hanging, string text)
    {
        string line = beginning;
        bool hasWord = false;
        foreach (string paragraphLine in text.ReplaceLineEndings("\n").Split('\n'))
        {
            foreach (string word in VisibleText.Of(paragraphLine).Split(' ', StringSplitOptions.RemoveEmptyEntries))
            {
                if (hasWord && VisibleText.Columns(line) + 1 + VisibleText.Columns(word) > style.Width)
                {
                    writer.WriteLine(line);
                    line = hanging;
                    hasWord = false;
                }

                line += hasWord ? " " + word : word;
                hasWord = true;
            }

            writer.WriteLine(line.TrimEnd());
            line = hanging;
            hasWord = false;
        }
    }
}
