namespace Portwitness.Labels;

/// <summary>What a person says is printed where the text is unread or doubtful.</summary>
/// <param name="Line">The line, counted from 1.</param>
/// <param name="Printed">Words of that line as the text has them, exactly once.</param>
/// <param name="ReadAs">What to read in their place.</param>
public sealed record LabelCorrection(int Line, string Printed, string ReadAs)
{
    /// <summary>
    /// Where corrections stand, in the order of the text. One whose words are not printed exactly once in its line, or that touches an
    /// earlier one, is handed back in <paramref name="unused"/>.
    /// </summary>
    internal static Repair[] Locate(string text, IReadOnlyList<LabelCorrection> corrections, out IReadOnlyList<LabelCorrection> unused)
    {
        unused = [];
        if (corrections.Count == 0)
        {
            return [];
        }

        List<Range> lines = Lines(text);
        Dictionary<int, List<Repair>> byLine = [];
        List<LabelCorrection> rest = [];
        foreach (LabelCorrection correction in corrections)
        {
            Repair? found = correction.Line >= 1 && correction.Line <= lines.Count ? correction.Find(text, lines[correction.Line - 1]) : null;
            List<Repair> others = byLine.TryGetValue(correction.Line, out List<Repair>? already) ? already : byLine[correction.Line] = [];
            if (found is not { } repair || others.Exists(other => other.Start < repair.End && repair.Start < other.End))
            {
                rest.Add(correction);
            }
            else
            {
                others.Add(repair);
            }
        }

        unused = rest;
        return [.. byLine.Values.SelectMany(static repairs => repairs).OrderBy(static repair => repair.Start)];
    }

    private static List<Range> Lines(string text)
    {
        List<Range> lines = [];
        int start = 0;
        while (true)
        {
            int length = text.AsSpan(start).IndexOfAny('\n', '\r');
            if (length < 0)
            {
                lines.Add(start..text.Length);
                return lines;
            }

            lines.Add(start..(start + length));
            start += length + (text.AsSpan(start + length).StartsWith("\r\n") ? 2 : 1);
        }
    }

    private Repair? Find(string text, Range line)
    {
        ReadOnlySpan<char> words = text.AsSpan(line);
        int at = Printed.Length == 0 ? -1 : words.IndexOf(Printed, StringComparison.Ordinal);
        bool isOnce = at >= 0 && words.LastIndexOf(Printed, StringComparison.Ordinal) == at;
        int start = line.Start.Value + at;
        return isOnce ? new Repair(RepairKind.ByHand, start, start + Printed.Length, ReadAs) : null;
    }
}
