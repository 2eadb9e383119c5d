using Portwitness.History;
using Portwitness.History.Stores;

namespace Portwitness.Endurance;

/// <summary>The samples of all entries of a store.</summary>
internal static class KeptSamples
{
    public static async Task<List<string>> ReadAsync(string place)
    {
        await using IReportStore store = await ReportStores.OpenAsync(place, CancellationToken.None);
        List<string> samples = [];
        for (long? before = null; ;)
        {
            IReadOnlyList<StoredReport> page = await store.ListAsync(new ReportQuery { Before = before, Most = ReportQuery.Largest }, CancellationToken.None);
            samples.AddRange(page.Select(static entry => entry.Sample));
            if (page.Count < ReportQuery.Largest)
            {
                return samples;
            }

            before = page[^1].Id;
        }
    }

    public static IEnumerable<string> Duplicates(this IEnumerable<string> samples) =>
        samples.CountBy(static sample => sample).Where(static count => count.Value > 1).Select(static count => count.Key);
}
