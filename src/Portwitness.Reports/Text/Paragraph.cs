namespace Portwitness.Reports.Text;

/// <summary>Sentences under a label, wrapped between words with a hanging indent.</summary>
internal static class Paragraph
{
    private const int LabelColumns = 10;
    private static readonly string[] Units = ["V", "A", "W", "Wh", "mAh", "s", "ms", "Hz"];

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
            foreach (string word in Words(VisibleText.Of(paragraphLine)))
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

    // A number and its unit stay together.
    private static List<string> Words(string text)
    {
        List<string> words = [];
        foreach (string word in text.Split(' ', StringSplitOptions.RemoveEmptyEntries))
        {
            if (words.Count > 0 && Units.Contains(word.TrimEnd('.', ',', ';', ':', ')')) && char.IsAsciiDigit(words[^1][^1]))
            {
                words[^1] += " " + word;
            }
            else
            {
                words.Add(word);
            }
        }

        return words;
    }
}
