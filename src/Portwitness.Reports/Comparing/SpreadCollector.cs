using Portwitness.Contracts.V1;
using Portwitness.Reports.Sampling;

namespace Portwitness.Reports.Comparing;

/// <summary>
/// Collects samples of one product with one firmware version, a report at a time. Of each fact it keeps its values and how many samples
/// have them; of each quantity its numbers: no report is held.
/// </summary>
public sealed class SpreadCollector(string product, string firmware)
{
    private const int MaxNames = 10;
    private const int MaxFacts = 200;

    private readonly Dictionary<FactKey, Dictionary<string, Samples>> _facts = [];
    private readonly Dictionary<QuantityKey, List<(Quantity Quantity, string Sample)>> _quantities = [];
    private readonly Coverage _coverage = new();
    private readonly Samples _all = new();
    private int _failing;
    private int _open;

    /// <summary>How many samples there are.</summary>
    public long Count => _all.Count;

    /// <summary>Takes one sample.</summary>
    /// <param name="report">Its report.</param>
    /// <param name="name">What it is called.</param>
    public void Add(ProductReport report, string name)
    {
        ReportFacts facts = new(report);
        _all.Add(name);
        _failing += report.Verdict == Verdict.Fails ? 1 : 0;
        _open += report.Verdict is Verdict.Fails or Verdict.Holds ? 0 : 1;
        _coverage.Add(facts);
        foreach (FactKey key in facts.Keys)
        {
            Dictionary<string, Samples> values = _facts.TryGetValue(key, out Dictionary<string, Samples>? known) ? known : _facts[key] = [];
            (values.TryGetValue(facts[key]!, out Samples? samples) ? samples : values[facts[key]!] = new Samples()).Add(name);
        }

        foreach ((QuantityKey key, Quantity quantity) in facts.Quantities.All)
        {
            (_quantities.TryGetValue(key, out List<(Quantity, string)>? values) ? values : _quantities[key] = []).Add((quantity, name));
        }
    }

    /// <summary>What they have in common, and what they do not.</summary>
    public SampleSpread ToSpread()
    {
        SampleSpread spread = new()
        {
            Product = product, Firmware = firmware, Samples = _all.Count, Names = { _all.Names }, Failing = _failing, Open = _open,
            FailingShareMostPpm = _all.Count > _open ? FailingShare.MostMillionths((int)_all.Count - _open, _failing) : 1_000_000,
        };
        foreach ((FactKey key, Dictionary<string, Samples> values) in _facts.OrderBy(static fact => ReportComparer.Rank(fact.Key.Subject)))
        {
            long without = _coverage.CountOf(key, _coverage.HasWithoutCaptures(key)) - values.Values.Sum(static samples => samples.Count);
            if (values.Count == 1 && without <= 0)
            {
                spread.Common++;
            }
            else if (spread.Differing.Count < MaxFacts)
            {
                spread.Differing.Add(Differing(key, values, without));
            }
            else
            {
                spread.Unlisted++;
            }
        }

        spread.Measured.AddRange(_quantities.Select(static quantity => SpreadStatistics.Of(quantity.Key, quantity.Value)));
        return spread;
    }

    private static SpreadFact Differing(FactKey key, Dictionary<string, Samples> values, long without)
    {
        SpreadFact fact = new() { Subject = key.Subject, Port = key.Port, InUse = { PortsInUse.Of(key.InUse) }, About = key.About };
        fact.Values.AddRange(values.OrderByDescending(static value => value.Value.Count).ThenBy(static value => value.Key, StringComparer.Ordinal)
            .Select(static value => new SpreadValue { Value = value.Key, Samples = value.Value.Count, Names = { value.Value.Names } }));
        if (without > 0)
        {
            fact.Values.Add(new SpreadValue { Samples = without });
        }

        return fact;
    }

    private sealed class Samples
    {
        public List<string> Names { get; } = [];

        public long Count { get; private set; }

        public void Add(string name)
        {
            Count++;
            if (Names.Count < MaxNames)
            {
                Names.Add(name);
            }
        }
    }
}
