namespace Portwitness.Reports.Comparing;

/// <summary>How many samples could have a fact: what was not captured of a sample is nothing that it lacks.</summary>
internal sealed class Coverage
{
    private readonly Dictionary<(string Port, string InUse), long> _arrangements = [];
    private readonly Dictionary<string, long> _ports = [];
    private readonly Dictionary<string, long> _subjects = [];
    private readonly HashSet<FactKey> _withoutCaptures = [];

    /// <summary>How many samples there are.</summary>
    public long Samples { get; private set; }

    /// <summary>Takes one sample.</summary>
    public void Add(ReportFacts facts)
    {
        Samples++;
        foreach ((string Port, string InUse) captured in facts.Captured)
        {
            _arrangements[captured] = _arrangements.GetValueOrDefault(captured) + 1;
        }

        foreach (string subject in facts.Keys.Where(OpenedFacts.Has).Select(static key => key.Subject).Distinct())
        {
            _subjects[subject] = _subjects.GetValueOrDefault(subject) + 1;
        }

        _withoutCaptures.UnionWith(facts.Keys.Where(facts.SaysWithoutCaptures));
        foreach (string port in facts.Captured.Select(static captured => captured.Port).Distinct())
        {
            _ports[port] = _ports.GetValueOrDefault(port) + 1;
        }
    }

    /// <summary>Whether one of the samples has it without captures of its port.</summary>
    public bool HasWithoutCaptures(FactKey key) => _withoutCaptures.Contains(key);

    /// <summary>So many could have it.</summary>
    /// <param name="key">What.</param>
    /// <param name="withoutCaptures">Whether any sample, here or elsewhere, has it without captures of its port, so that every one could.</param>
    public long CountOf(FactKey key, bool withoutCaptures) => OpenedFacts.Has(key) ? _subjects.GetValueOrDefault(key.Subject)
        : !ReportFacts.IsOfCaptures(key) || withoutCaptures ? Samples
        : ReportFacts.IsOfAny(key) ? _ports.GetValueOrDefault(key.Port) : _arrangements.GetValueOrDefault((key.Port, key.InUse));
}
