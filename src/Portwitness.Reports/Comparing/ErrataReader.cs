using Portwitness.Contracts.V1;
using Portwitness.Reports.Text;

namespace Portwitness.Reports.Comparing;

/// <summary>
/// Finds what of a published report changes in a new one. Unlike a comparison of two samples it is about one product: what only the new report captured
/// is a reason, and not left out.
/// </summary>
public static class ErrataReader
{
    private const int Most = 1_000;

    /// <summary>The errata.</summary>
    /// <param name="before">The published report.</param>
    /// <param name="after">The new one.</param>
    public static Errata Read(ProductReport before, ProductReport after)
    {
        ArgumentNullException.ThrowIfNull(before);
        ArgumentNullException.ThrowIfNull(after);
        ErrataReasons reasons = new(before, after);
        ReportComparison comparison = ReportComparer.Compare(before, after);
        Errata errata = new() { Before = comparison.Before, After = comparison.After };
        errata.Changes.AddRange(reasons.Changes);
        (Dictionary<string, Said> old, Dictionary<string, Said> now) = (Statements(before), Statements(after));
        errata.Unchanged = old.Count(one => now.TryGetValue(one.Key, out Said? other) && other.Value == one.Value.Value);
        IEnumerable<ErrataEntry> all = Entries("statement", old, now).Concat(Entries("finding", Findings(before), Findings(after))).Concat(Entries("claim", Claims(before), Claims(after)))
            .Concat(comparison.Measured.Where(static pair => pair.Before != pair.After).Select(Measured));
        foreach (ErrataEntry entry in all)
        {
            if (errata.Entries.Count == Most)
            {
                errata.Unlisted++;
                continue;
            }

            entry.Reasons.AddRange(reasons.Of(entry.Port, entry.HasLabelLine ? entry.LabelLine : null));
            errata.Entries.Add(entry);
        }

        return errata;
    }

    private static IEnumerable<ErrataEntry> Entries(string subject, Dictionary<string, Said> old, Dictionary<string, Said> now)
    {
        foreach (string key in old.Keys.Concat(now.Keys.Where(key => !old.ContainsKey(key))))
        {
            (Said? one, Said? other) = (old.GetValueOrDefault(key), now.GetValueOrDefault(key));
            if (one?.Value == other?.Value)
            {
                continue;
            }

            Said known = (other ?? one)!;
            ErrataEntry entry = new()
            {
                Subject = subject, Change = one is null ? "added" : other is null ? "gone" : "changed", Port = known.Port, About = known.About,
                Before = one?.Value ?? "", After = other?.Value ?? "", BeforeEvidence = one?.Evidence ?? "", AfterEvidence = other?.Evidence ?? "",
            };
            if (known.Line > 0)
            {
                entry.LabelLine = known.Line;
            }

            yield return entry;
        }
    }

    private static Dictionary<string, Said> Statements(ProductReport report) => Of(report.Statements.Select(static one => (Label: "", one))
        .Concat(report.FurtherLabels.SelectMany(static further => further.Statements.Select(one => (Label: further.Name, one))))
        .Select(static pair => new Said(
            pair.one.Port, pair.Label.Length > 0 ? $"{pair.Label}: {pair.one.Claim}" : pair.one.Claim, pair.one.LabelLine, ProductText.Word(pair.one.Verdict), pair.one.Evidence)));

    // Notes are remarks, and nothing that was published against a product.
    private static Dictionary<string, Said> Findings(ProductReport report) => Of(report.Findings.Where(static one => one.Severity != Severity.Note).Select(static one => new Said(
        one.Port, one.Arrangement.Count > 1 ? $"{one.Rule} ({string.Join('+', one.Arrangement)} in use)" : one.Rule, one.HasLabelLine ? one.LabelLine : 0, TextStyle.Plain.Severity(one.Severity), one.Detail)));

    private static Dictionary<string, Said> Claims(ProductReport report) => Of(report.Claims.Select(static one => new Said(
        one.Port, one.Source.Length > 0 ? $"{one.Text} ({one.Source})" : one.Text, 0, ProductText.Word(one.Verdict), one.Evidence)));

    // Of several alike the first ones are the same.
    private static Dictionary<string, Said> Of(IEnumerable<Said> all)
    {
        Dictionary<string, Said> known = [];
        Dictionary<string, int> counts = [];
        foreach (Said said in all)
        {
            string key = $"{said.Port}\n{said.About}\n{said.Line}";
            int number = counts[key] = counts.GetValueOrDefault(key) + 1;
            known[$"{key}\n{number}"] = said;
        }

        return known;
    }

    private static ErrataEntry Measured(MeasuredPair pair) => new()
    {
        Subject = "measured", Change = "changed", Port = pair.Port, About = pair.InUse.Count > 0 ? $"{pair.About} ({string.Join('+', pair.InUse)} in use)" : pair.About,
        Before = $"{Amounts.Number(pair.Before)} {pair.Unit}", After = $"{Amounts.Number(pair.After)} {pair.Unit}",
        AfterEvidence = pair.Verdict == "same" ? "within what the meters leave open" : "",
    };

    private sealed record Said(string Port, string About, int Line, string Value, string Evidence);
}
