using System.Collections.Immutable;
using System.Globalization;
using Portwitness.Product.Energy;

namespace Portwitness.Product;

/// <summary>What was taken before and after a product was opened.</summary>
internal static class OpeningRemarks
{
    private const int MaxNamed = 20;

    /// <summary>Sentences; empty where no day is stated.</summary>
    public static ImmutableArray<string> Of(ProductFile product)
    {
        if (product.Opened is not { } opened)
        {
            return [];
        }

        string day = opened.ToString("yyyy-MM-dd", CultureInfo.InvariantCulture);
        LoadReading[] loads = [.. product.Loads, .. product.PassThrough];
        string[] since =
        [
            .. product.Offers.Where(offer => IsSince(offer.ReadOn, opened)).Select(static offer => offer.Name),
            .. loads.Where(load => IsSince(load.ReadOn, opened)).Select(static load => $"a load of {load.Port}, read on {load.ReadOn}"),
        ];
        string named = string.Join("; ", since.Take(MaxNamed)) + (since.Length > MaxNamed ? "; and more" : "");
        int undated = product.Captures.Length + product.Logs.Length + product.Offers.Count(static offer => Day(offer.ReadOn) is null)
            + loads.Count(static load => Day(load.ReadOn) is null);
        return
        [
            since.Length == 0 ? $"Opened on {day}. Nothing is dated since then."
                : $"Opened on {day}. Taken since then, and no evidence of a sealed product: {named}.",
            .. undated == 0 ? Array.Empty<string>()
                : [string.Create(
                    CultureInfo.InvariantCulture,
                    $"Without a day: {undated} of its captures, logs, loads and offers; \"read_on:\" tells it of loads and offers.")],
        ];
    }

    private static bool IsSince(string day, DateOnly opened) => Day(day) is { } read && read >= opened;

    private static DateOnly? Day(string text) =>
        DateOnly.TryParseExact(text, "yyyy-MM-dd", CultureInfo.InvariantCulture, DateTimeStyles.None, out DateOnly day) ? day : null;
}
