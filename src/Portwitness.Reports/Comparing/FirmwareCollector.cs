using Portwitness.Contracts.V1;

namespace Portwitness.Reports.Comparing;

/// <summary>
/// Collects samples of one product over its firmware versions, a report at a time, and tells versions apart: by what no sample of the one has
/// in common with any of the other.
/// </summary>
public sealed class FirmwareCollector(string product)
{
    private const int MaxFacts = 200;

    private readonly SortedDictionary<string, Version> _versions = new(StringComparer.Ordinal);
    private readonly Dictionary<FactKey, FactKey> _keys = [];

    /// <summary>Takes one sample.</summary>
    /// <param name="report">Its report.</param>
    /// <param name="firmware">Its version.</param>
    public void Add(ProductReport report, string firmware)
    {
        ReportFacts facts = new(report);
        Version version = _versions.TryGetValue(firmware, out Version? known) ? known : _versions[firmware] = new Version();
        version.Coverage.Add(facts);
        foreach (FactKey key in facts.Keys)
        {
            FactKey one = _keys.TryAdd(key, key) ? key : _keys[key];
            Dictionary<string, long> values = version.Facts.TryGetValue(one, out Dictionary<string, long>? there) ? there : version.Facts[one] = [];
            values[facts[key]!] = values.GetValueOrDefault(facts[key]!) + 1;
        }
    }

    /// <summary>What tells the versions apart.</summary>
    public FirmwareSpread ToSpread()
    {
        FirmwareSpread spread = new() { Product = product };
        spread.Versions.AddRange(_versions.Select(static one => new FirmwareVersion { Firmware = one.Key, Samples = one.Value.Coverage.Samples }));
        foreach (FactKey key in _keys.Keys.OrderBy(static key => ReportComparer.Rank(key.Subject)))
        {
            bool withoutCaptures = _versions.Values.Any(one => one.Coverage.HasWithoutCaptures(key));
            (string Firmware, Dictionary<string, long> Values)[] seen =
                [.. _versions.Select(one => (one.Key, one.Value.ValuesOf(key, withoutCaptures))).Where(static one => one.Item2.Count > 0)];
            if (!seen.Any(one => seen.Any(other => !one.Values.Keys.Any(other.Values.ContainsKey))))
            {
                continue;
            }

            if (spread.Differing.Count == MaxFacts)
            {
                spread.Unlisted++;
                continue;
            }

            FirmwareFact fact = new() { Subject = key.Subject, Port = key.Port, InUse = { PortsInUse.Of(key.InUse) }, About = key.About };
            fact.Values.AddRange(seen.SelectMany(static one => one.Values.OrderByDescending(static value => value.Value)
                .ThenBy(static value => value.Key, StringComparer.Ordinal)
                .Select(value => new FirmwareValue { Firmware = one.Firmware, Value = value.Key, Samples = value.Value })));
            spread.Differing.Add(fact);
        }

        return spread;
    }

    private sealed class Version
    {
        public Coverage Coverage { get; } = new();

        public Dictionary<FactKey, Dictionary<string, long>> Facts { get; } = [];

        // The values, and how many samples have them; "" is none. Empty when no sample could tell.
        public Dictionary<string, long> ValuesOf(FactKey key, bool withoutCaptures)
        {
            Dictionary<string, long> values = new(Facts.GetValueOrDefault(key) ?? []);
            long without = Coverage.CountOf(key, withoutCaptures) - values.Values.Sum();
            return without > 0 ? new(values) { [""] = without } : values;
        }
    }
}
