namespace Portwitness.Labels;

/// <summary>Lines of which every letter stands apart: "U S B - C 1 :  6 5 W". The spaces between letters mean nothing, wider ones part words.</summary>
internal static class SpacedLetters
{
    // Fewer may be a list of single letters.
    private const int FewestLetters = 8;

    /// <summary>Such lines; null when there are none.</summary>
    public static List<Range>? Lines(string text)
    {
        List<Range>? lines = null;
        int start = 0;
        for (int i = 0; i <= text.Length; i++)
        {
            if (i == text.Length || text[i] is '\n' or '\r')
            {
                if (IsSpaced(text.AsSpan(start, i - start)))
                {
                    (lines ??= []).Add(start..i);
                }

                start = i + 1;
            }
        }

        return lines;
    }

    /// <summary>Whether a space of such a line only keeps two letters apart; of a wider one the last stays.</summary>
    public static bool IsBetween(List<Range> lines, string text, int index)
    {
        bool isInside = lines.Exists(line => index >= line.Start.Value && index < line.End.Value);
        bool isWide = index > 0 && text[index - 1] == ' ';
        bool isLast = index + 1 < text.Length && text[index + 1] != ' ';
        return isInside && !(isWide && isLast);
    }

    private static bool IsSpaced(ReadOnlySpan<char> line)
    {
        line = line.Trim(' ');
        int letters = 0;
        for (int i = 0; i < line.Length; i++)
        {
            if (line[i] == ' ')
            {
                continue;
            }

            letters++;
            if (i + 1 < line.Length && line[i + 1] != ' ')
            {
                return false;
            }
        }

        return letters >= FewestLetters;
    }
}
