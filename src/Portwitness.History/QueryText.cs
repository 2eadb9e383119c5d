using Portwitness.Contracts.V1;

namespace Portwitness.History;

/// <summary>A query's condition; what a user gives goes into parameters alone.</summary>
internal static class QueryText
{
    private const string HasInName = "product_folded LIKE @product ESCAPE '\\'";

    /// <summary>The condition, and the values of its parameters.</summary>
    public static (string Where, (string, object)[] Values) Of(ReportQuery query)
    {
        List<string> parts = ["1 = 1"];
        List<(string, object)> values = [("most", Math.Clamp(query.Most, 1, ReportQuery.Largest))];
        Add(query.Product.Length > 0, HasInName, "product", NamePattern(query.Product));
        Add(query.Sample.Length > 0, "sample = @sample", "sample", SqlDatabase.Text(query.Sample));
        Add(query.Firmware.Length > 0, "firmware = @firmware", "firmware", SqlDatabase.Text(query.Firmware));
        Add(query.Verdict != Verdict.Unspecified, "verdict = @verdict", "verdict", query.Verdict.ToString());
        Add(query.Rule.Length > 0, "EXISTS (SELECT 1 FROM report_rules WHERE report_id = reports.id AND rule = @rule)", "rule", SqlDatabase.Text(query.Rule));
        Add(query.Since is not null, "first_seen_us >= @since", "since", Microseconds(query.Since));
        Add(query.Until is not null, "first_seen_us < @until", "until", Microseconds(query.Until));
        Add(query.Before is not null, "id < @before", "before", query.Before ?? 0);
        return (string.Join(" AND ", parts), [.. values]);

        void Add(bool isGiven, string part, string name, object value)
        {
            if (isGiven)
            {
                parts.Add(part);
                values.Add((name, value));
            }
        }
    }

    /// <summary>The condition of what is old enough.</summary>
    public static (string Where, (string, object)[] Values) Of(PruneQuery query)
    {
        string where = $"last_seen_us < @before{(query.KeepFailing ? $" AND verdict <> '{nameof(Verdict.Fails)}'" : "")}";
        (string, object) before = ("before", UnixMicroseconds.Of(query.Before));
        return query.Product.Length == 0 ? (where, [before]) : ($"{where} AND {HasInName}", [before, ("product", NamePattern(query.Product))]);
    }

    private static string NamePattern(string part) => $"%{Literal(FoldedName.Of(SqlDatabase.Text(part)))}%";

    private static string Literal(string text) => text.Replace("\\", "\\\\", StringComparison.Ordinal)
        .Replace("%", "\\%", StringComparison.Ordinal).Replace("_", "\\_", StringComparison.Ordinal);

    private static long Microseconds(DateTimeOffset? time) => time is { } given ? UnixMicroseconds.Of(given) : 0;
}
