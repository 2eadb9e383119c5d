using System.Globalization;
using System.Text;

namespace Portwitness.Labels;

/// <summary>What a person says is printed where the text is unread or doubtful.</summary>
/// <param name="Line">The line, counted from 1.</param>
/// <param name="Printed">Words of that line as the text has them, exactly once; empty where the line rates nothing.</param>
/// <param name="ReadAs">What to read in their place; empty where the line rates nothing.</param>
public sealed record LabelCorrection(int Line, string Printed, string ReadAs)
{
    /// <summary>The line rates nothing, whatever is printed in it.</summary>
    public bool RatesNothing { get; private init; }

    /// <summary>Says that a line rates nothing.</summary>
    public static LabelCorrection NoRating(int line) => new(line, "", "") { RatesNothing = true };

    /// <summary>The line of a product file that says it: <c>{line: 8, printed: "45W+15W", read_as: "C1 45W, C2+A share 15W"}</c>.</summary>
    public string ToYaml() => RatesNothing
        ? string.Create(CultureInfo.InvariantCulture, $"{{line: {Line}, no_rating: true}}")
        : string.Create(CultureInfo.InvariantCulture, $"{{line: {Line}, printed: {Quoted(Printed)}, read_as: {Quoted(ReadAs)}}}");

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
        foreach (LabelCorrection correction in corrections.Where(static correction => !correction.RatesNothing))
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

    /// <summary>
    /// The lines that rate nothing, as parts of the text. One that is not there, or has nothing, is handed back in <paramref name="unused"/>.
    /// </summary>
    internal static List<Range> LinesWithoutRating(string text, IReadOnlyList<LabelCorrection> corrections, ref IReadOnlyList<LabelCorrection> unused)
    {
        LabelCorrection[] plain = [.. corrections.Where(static correction => correction.RatesNothing)];
        if (plain.Length == 0)
        {
            return [];
        }

        List<Range> lines = Lines(text);
        ILookup<bool, LabelCorrection> byUse = plain.ToLookup(one => one.Line >= 1 && one.Line <= lines.Count && !text.AsSpan(lines[one.Line - 1]).IsWhiteSpace());
        unused = [.. unused, .. byUse[false]];
        return [.. byUse[true].Select(one => lines[one.Line - 1]).Distinct()];
    }

    // Double quotes, in which YAML 1.2 (7.3.1) needs a backslash before quotes, backslashes and what cannot be seen.
    private static string Quoted(string text)
    {
        StringBuilder quoted = new("\"");
        foreach (char c in text)
        {
            quoted = c switch
            {
                '"' or '\\' => quoted.Append('\\').Append(c),
                '\t' => quoted.Append("\\t"),
                _ when char.IsControl(c) || c is '\u2028' or '\u2029' or '\uFEFF' =>
                    quoted.Append(CultureInfo.InvariantCulture, $"\\u{(int)c:X4}"),
                _ => quoted.Append(c),
            };
        }

        return quoted.Append('"').ToString();
    }

    internal static List<Range> Lines(string text)
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
