using System.Collections.Immutable;
using System.Globalization;
using Portwitness.Analysis.Evidence;
using Portwitness.Analysis.Findings;
using Portwitness.Labels;
using Portwitness.Product.Comparison;

namespace Portwitness.Product;

/// <summary>
/// What a finding contradicts is a printed statement that fails: of printed words that fail a product, a report has a statement at
/// their place, so that the label's marks and the counts say what the verdict says.
/// </summary>
internal static class ContradictedStatements
{
    // Of a long line the beginning is enough to find it.
    private const int MaxQuoted = 60;

    /// <summary>What a label says, each with its verdict.</summary>
    public static ImmutableArray<Statement> Of(LabelComparison comparison) =>
        [.. comparison.Claims.Select(static claim => new Statement(claim.At, claim.Port, claim.Text, claim.Verdict, claim.Evidence, claim.NextStep))];

    /// <summary>The statements, in the order of the label, with those that findings contradict.</summary>
    public static ImmutableArray<Statement> With(Label label, ImmutableArray<Statement> statements, IEnumerable<Finding> findings)
    {
        List<Statement> all = [.. statements];
        string[] lines = label.Text.TrimStart('\uFEFF').ReplaceLineEndings("\n").Split('\n');
        HashSet<(int Line, string Port)> failing = [.. all.Where(static one => one.Verdict == Verdict.Fails).Select(static one => (one.At.Line, one.Port))];
        HashSet<Place> failed = [.. all.Where(static one => one.Verdict == Verdict.Fails).Select(static one => one.At)];
        Dictionary<Place, int> byPlace = [];
        for (int i = 0; i < all.Count; i++)
        {
            byPlace.TryAdd(all[i].At, i);
        }

        // Of two labels that disagree either may be right.
        foreach (Finding finding in findings.Where(static one => one.Severity <= Severity.Mismatch && one.Verdict == Verdict.Fails))
        {
            if (finding.OtherLabelLine is not null || finding.LabelLine is not { } line || line < 1 || line > lines.Length
                || (finding.LabelColumn is null && failing.Contains((line, finding.Port))))
            {
                continue;
            }

            string words = lines[line - 1];
            Place at = new(line, finding.LabelColumn ?? FirstColumn(words));
            if (!failed.Add(at))
            {
                continue;
            }

            if (byPlace.TryGetValue(at, out int index))
            {
                all[index] = Contradicted(all[index], finding);
            }
            else
            {
                byPlace.Add(at, all.Count);
                all.Add(new Statement(at, finding.Port, $"the label says \"{Quote(words, at.Column)}\"", Verdict.Fails, finding.Detail, ""));
            }

            failing.Add((line, finding.Port));
        }

        return all.Count == statements.Length && failing.Count == 0
            ? statements : [.. all.OrderBy(static one => one.At.Line).ThenBy(static one => one.At.Column)];
    }

    private static Statement Contradicted(Statement statement, Finding finding) => statement with
    {
        Verdict = Verdict.Fails,
        Evidence = statement.Verdict == Verdict.Holds ? $"{finding.Detail} The offer alone agrees: {statement.Evidence}" : finding.Detail,
        NextStep = "",
    };

    private static int FirstColumn(string words) => words.Length - words.TrimStart().Length + 1;

    private static string Quote(string words, int column)
    {
        int[] starts = StringInfo.ParseCombiningCharacters(words);
        int first = Math.Clamp(column - 1, 0, starts.Length);
        int end = first + MaxQuoted < starts.Length ? starts[first + MaxQuoted] : words.Length;
        string quoted = first < starts.Length ? words[starts[first]..end].Trim() : words.Trim();
        return end < words.Length ? $"{quoted}…" : quoted;
    }
}
