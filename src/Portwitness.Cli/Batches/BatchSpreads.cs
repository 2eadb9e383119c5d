using System.Globalization;
using Google.Protobuf;
using Portwitness.Cli.Shell;
using Portwitness.Contracts.V1;
using Portwitness.Reports;
using Portwitness.Reports.Comparing;
using Portwitness.Reports.Sampling;
using Portwitness.Reports.Text;

namespace Portwitness.Cli.Batches;

/// <summary>
/// Products of which a batch has several samples, by firmware version. Their reports are read again one at a time, and not held.
/// </summary>
internal sealed class BatchSpreads
{
    /// <summary>The samples of each version, one JSON object a line.</summary>
    public const string FileName = "batch.spread.jsonl";

    /// <summary>The versions of each product, one JSON object a line.</summary>
    public const string FirmwareFileName = "batch.firmware.jsonl";

    /// <summary>What became of the lots that products were drawn from, one JSON object a line.</summary>
    public const string LotFileName = "batch.lot.jsonl";

    private readonly Dictionary<string, List<(string Name, Verdict Verdict)>> _units = [];
    private readonly Dictionary<string, SortedDictionary<string, List<Sample>>> _products = [];
    private readonly List<SampleSpread> _spreads = [];
    private readonly List<FirmwareSpread> _versions = [];

    /// <summary>The lot that the units of each product are drawn from; null where nobody asked.</summary>
    public LotJudgement? Lot { get; init; }

    private IEnumerable<LotDecision> Lots => Lot is null ? [] : _units.Select(product =>
    {
        LotDecision decision = Lot.Judge(product.Key, product.Value);
        SampleSpread[] spreads = [.. _spreads.Where(spread => spread.Product == product.Key)];
        if (spreads is [{ } only] && only.Samples == product.Value.Count)
        {
            decision.ByVariables.AddRange(Capability.ByVariables(only, decision.AqlPercent));
        }

        return decision;
    });

    private IEnumerable<KeyValuePair<string, SortedDictionary<string, List<Sample>>>> Several =>
        _products.Where(static product => product.Value.Values.Sum(static samples => samples.Count) > 1);

    /// <summary>Takes a product.</summary>
    /// <param name="entry">How it came out.</param>
    /// <param name="report">Its report in JSON; empty when there is none.</param>
    public void Add(BatchEntry entry, string report)
    {
        string unit = entry.Sample.Length > 0 ? entry.Sample : Path.GetFileName(entry.Product);
        if (Lot is not null && entry.Problem is null)
        {
            (_units.TryGetValue(entry.Name, out List<(string, Verdict)>? units) ? units : _units[entry.Name] = []).Add((unit, entry.Verdict));
        }

        if (entry.Problem is null && entry.Name.Length > 0)
        {
            SortedDictionary<string, List<Sample>> versions = _products.TryGetValue(entry.Name, out SortedDictionary<string, List<Sample>>? known)
                ? known : _products[entry.Name] = new(StringComparer.Ordinal);
            (versions.TryGetValue(entry.Firmware, out List<Sample>? samples) ? samples : versions[entry.Firmware] = [])
                .Add(new Sample(unit, report));
        }
    }

    /// <summary>Reads the reports, each once.</summary>
    /// <param name="read">Reads one.</param>
    /// <param name="problem">Told why a product's samples cannot be held against each other.</param>
    public void Collect(Func<string, ProductReport> read, Action<string> problem)
    {
        foreach (KeyValuePair<string, SortedDictionary<string, List<Sample>>> product in Several.Where(static product => CanBeRead(product.Value)))
        {
            try
            {
                Collect(product.Key, product.Value, read);
            }
            catch (CommandFailure failure)
            {
                problem(failure.Message);
            }
        }
    }

    private void Collect(string product, SortedDictionary<string, List<Sample>> versions, Func<string, ProductReport> read)
    {
        FirmwareCollector all = new(product);
        foreach ((string firmware, List<Sample> samples) in versions)
        {
            SpreadCollector ofVersion = new(product, firmware);
            foreach (Sample sample in samples)
            {
                ProductReport report = read(sample.Report);
                ofVersion.Add(report, sample.Name);
                all.Add(report, firmware);
            }

            _spreads.AddRange(samples.Count > 1 ? [ofVersion.ToSpread()] : []);
        }

        _versions.AddRange(versions.Count > 1 ? [all.ToSpread()] : []);
    }

    /// <summary>What there is for files: their names, and an object a line.</summary>
    public IEnumerable<(string Name, IReadOnlyList<IMessage> Lines)> Files() => new (string, IReadOnlyList<IMessage>)[]
    {
        (FileName, _spreads), (FirmwareFileName, _versions), (LotFileName, [.. Lots]),
    }.Where(static file => file.Item2.Count > 0);

    /// <summary>For people; nothing where no product has several samples.</summary>
    public void Write(TextWriter writer)
    {
        foreach (FirmwareSpread versions in _versions)
        {
            writer.WriteLine();
            FirmwareText.Write(writer, versions, TextStyle.Plain);
        }

        foreach (SampleSpread spread in _spreads)
        {
            writer.WriteLine();
            SpreadText.Write(writer, spread, TextStyle.Plain);
        }

        foreach (LotDecision lot in Lots)
        {
            writer.WriteLine();
            LotText.Write(writer, lot, TextStyle.Plain);
        }

        int unread = Several.Count(static product => !CanBeRead(product.Value));
        if (unread > 0)
        {
            writer.WriteLine();
            writer.WriteLine(
                $"{unread.ToString(CultureInfo.InvariantCulture)} {(unread == 1 ? "product has" : "products have")} several samples; with --output and --format json they are held against each other.");
        }
    }

    private static bool CanBeRead(SortedDictionary<string, List<Sample>> versions) =>
        versions.Values.All(static samples => samples.TrueForAll(static sample => sample.Report.Length > 0));

    private sealed record Sample(string Name, string Report);
}
