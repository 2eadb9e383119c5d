using System.Collections.Immutable;
using System.Globalization;
using Portwitness.Analysis;

namespace Portwitness.Product;

/// <summary>What was taken before and after a product was opened.</summary>
internal static class OpeningRemarks
{
    private const int MaxNamed = 20;

    // A clock that was never set counts from 1970 or from 2000.
    private const int FirstYear = 2010;

    /// <summary>Sentences; empty where no day is stated.</summary>
    public static ImmutableArray<string> Of(ProductFile product, IReadOnlyList<CaptureAnalysis> captures)
    {
        if (product.Opened is not { } opened)
        {
            return [];
        }

        string day = opened.ToString("yyyy-MM-dd", CultureInfo.InvariantCulture);
        (string Name, DateOnly? Day)[] all = [.. Evidence(product, captures)];
        string[] since = [.. all.Where(one => one.Day >= opened).Select(static one => one.Name)];
        string named = string.Join("; ", since.Take(MaxNamed)) + (since.Length > MaxNamed ? "; and more" : "");
        int undated = all.Count(static one => one.Day is null);
        return
        [
            since.Length == 0 ? $"Opened on {day}. Nothing is dated since then."
                : $"Opened on {day}. Taken since then, and no evidence of a sealed product: {named}.",
            .. undated == 0 ? Array.Empty<string>()
                : [string.Create(
                    CultureInfo.InvariantCulture,
                    $"Without a day: {undated} of its captures, logs, loads and offers; \"read_on:\" tells it.")],
        ];
    }

    private static IEnumerable<(string Name, DateOnly? Day)> Evidence(ProductFile product, IReadOnlyList<CaptureAnalysis> captures) =>
        product.Offers.Select(static offer => (offer.Name, Day(offer.ReadOn)))
            .Concat(product.Captures.Select(capture => Named(capture.File, Day(capture.ReadOn) ?? Started(capture.File, captures))))
            .Concat(product.Logs.Select(static log => Named(log.File, Day(log.ReadOn))))
            .Concat(product.Loads.Concat(product.PassThrough).Select(static load => ($"a load of {load.Port}, read on {load.ReadOn}", Day(load.ReadOn))));

    private static (string Name, DateOnly? Day) Named(string file, DateOnly? day) =>
        (day is { } known ? $"{file}, of {known.ToString("yyyy-MM-dd", CultureInfo.InvariantCulture)}" : file, day);

    // By the clock of whoever recorded it.
    private static DateOnly? Started(string file, IReadOnlyList<CaptureAnalysis> captures) =>
        captures.FirstOrDefault(capture => capture.File == file)?.Bench.Started is { Year: >= FirstYear } started ? DateOnly.FromDateTime(started.DateTime) : null;

    private static DateOnly? Day(string text) =>
        DateOnly.TryParseExact(text, "yyyy-MM-dd", CultureInfo.InvariantCulture, DateTimeStyles.None, out DateOnly day) ? day : null;
}
