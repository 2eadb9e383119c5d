using System.Globalization;
using Portwitness.Contracts.V1;
using Portwitness.Reports.Comparing;
using Portwitness.Reports.Json;
using Portwitness.Reports.Text;

namespace Portwitness.Cli.Batches;

/// <summary>
/// Products of which a batch has several samples, apart by firmware. Their reports are read again one at a time, and not held.
/// </summary>
internal sealed class BatchSpreads
{
    /// <summary>The spreads, one JSON object a line.</summary>
    public const string FileName = "batch.spread.jsonl";

    private readonly Dictionary<(string Product, string Firmware), List<(string Sample, string Report)>> _groups = [];
    private readonly List<SampleSpread> _spreads = [];

    /// <summary>Whether there are several samples of any product, with reports that can be read again.</summary>
    public bool Any => Groups.Any();

    private IEnumerable<KeyValuePair<(string Product, string Firmware), List<(string Sample, string Report)>>> Groups =>
        _groups.Where(static group => group.Value.Count > 1 && group.Value.TrueForAll(static one => one.Report.Length > 0));

    /// <summary>Takes a product.</summary>
    /// <param name="entry">How it came out.</param>
    /// <param name="report">Its report in JSON; empty when there is none.</param>
    public void Add(BatchEntry entry, string report)
    {
        if (entry.Problem is null && entry.Name.Length > 0)
        {
            (_groups.TryGetValue((entry.Name, entry.Firmware), out var samples) ? samples : _groups[(entry.Name, entry.Firmware)] = [])
                .Add((entry.Sample.Length > 0 ? entry.Sample : Path.GetFileName(entry.Product), report));
        }
    }

    /// <summary>Reads the reports, and writes a line for each product.</summary>
    public void WriteJson(TextWriter writer, Func<string, ProductReport> read)
    {
        foreach (((string product, string firmware), List<(string Sample, string Report)> samples) in Groups)
        {
            SpreadCollector collector = new(product, firmware);
            foreach ((string sample, string report) in samples)
            {
                collector.Add(read(report), sample);
            }

            _spreads.Add(collector.ToSpread());
            JsonReport.Write(writer, _spreads[^1], indented: false);
        }
    }

    /// <summary>For people; nothing where no product has several samples.</summary>
    public void Write(TextWriter writer)
    {
        foreach (SampleSpread spread in _spreads)
        {
            writer.WriteLine();
            SpreadText.Write(writer, spread, TextStyle.Plain);
        }

        int unread = _groups.Values.Count(static samples => samples.Count > 1) - _spreads.Count;
        if (unread > 0)
        {
            writer.WriteLine();
            writer.WriteLine(string.Create(
                CultureInfo.InvariantCulture, $"{unread} products have several samples; with --output and --format json they are held against each other."));
        }

        foreach (IGrouping<string, KeyValuePair<(string Product, string Firmware), List<(string Sample, string Report)>>> versions in _groups
            .Where(static group => group.Value[0].Report.Length > 0).GroupBy(static group => group.Key.Product).Where(static versions => versions.Count() > 1))
        {
            string[] first = [.. versions.OrderBy(static group => group.Key.Firmware, StringComparer.Ordinal).Take(2).Select(static group => group.Value[0].Report)];
            writer.WriteLine();
            writer.WriteLine(VisibleText.Of(string.Create(
                CultureInfo.InvariantCulture, $"{versions.Key}: {versions.Count()} firmware versions; portwitness compare {first[0]} {first[1]} tells them apart.")));
        }
    }
}
