using Portwitness.Contracts.V1;

namespace Portwitness.Reports.Comparing;

/// <summary>Compares two reports.</summary>
public static class ReportComparer
{
    private const int Most = 1000;

    /// <summary>What was added, is gone or has changed from one to the other.</summary>
    public static ReportComparison Compare(ProductReport before, ProductReport after)
    {
        (ReportFacts old, ReportFacts now) = (new ReportFacts(before), new ReportFacts(after));
        ReportComparison comparison = new() { Before = About(before), After = About(after) };
        foreach (FactKey key in old.Keys.Concat(now.Keys.Where(key => old[key] is null)).OrderBy(static key => Rank(key.Subject)))
        {
            (string? one, string? other) = (old[key], now[key]);
            if (one == other || (one is null ? !CouldSay(old, now, key) : other is null && !CouldSay(now, old, key)))
            {
                continue;
            }

            if (comparison.Differences.Count == Most)
            {
                comparison.Unlisted++;
                continue;
            }

            comparison.Differences.Add(new Difference
            {
                Subject = key.Subject, Change = one is null ? "added" : other is null ? "gone" : "changed",
                Port = key.Port, InUse = { PortsInUse.Of(key.InUse) }, About = key.About, Before = one ?? "", After = other ?? "",
            });
        }

        comparison.NotCaptured.AddRange(Missing(old, now, "the first").Concat(Missing(now, old, "the second")));
        foreach ((QuantityKey key, Quantity quantity) in old.Quantities.All)
        {
            if (now.Quantities.All.TryGetValue(key, out Quantity? other))
            {
                comparison.Measured.Add(Pair(key, quantity, other));
            }
        }

        return comparison;
    }

    /// <summary>The order in which things are told.</summary>
    internal static int Rank(string subject) => subject switch
    {
        "verdict" => 0,
        "finding" => 1,
        "offer" => 2,
        "statement" => 3,
        "label" => 4,
        _ => 5,
    };

    // What says nothing could have said it, had it been so.
    private static bool CouldSay(ReportFacts silent, ReportFacts says, FactKey key) => silent.Covers(key) || says.SaysWithoutCaptures(key);

    private static ComparedReport About(ProductReport report) => new()
    {
        Product = report.Product, Sample = report.Sample, Firmware = report.Firmware, Verdict = report.Verdict, ToolVersion = report.ToolVersion,
    };

    private static IEnumerable<string> Missing(ReportFacts has, ReportFacts other, string which) => has.Captured.Except(other.Captured)
        .Select(one => $"{(one.Port.Length > 0 ? one.Port : "a port without a name")}{(one.InUse.Length > 0 ? $", in use {one.InUse}" : "")}: only in {which}")
        .Order(StringComparer.Ordinal);

    private static MeasuredPair Pair(QuantityKey key, Quantity before, Quantity after)
    {
        bool isKnown = before is { Least: not null, Most: not null } && after is { Least: not null, Most: not null };
        return new MeasuredPair
        {
            Port = key.Port, InUse = { PortsInUse.Of(key.InUse) }, About = key.About, Unit = key.Unit, Before = before.Value, After = after.Value,
            Verdict = !isKnown ? "open" : before.Least <= after.Most && after.Least <= before.Most ? "same" : "differs",
        };
    }
}
