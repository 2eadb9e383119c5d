using System.Collections.Immutable;
using Portwitness.Analysis.Evidence;
using Portwitness.Analysis.Phrases;
using Portwitness.Analysis.Rules;

namespace Portwitness.Analysis.Findings;

/// <summary>
/// Turns what rules find in one capture into findings with a place. The same case seen again is counted, not listed
/// again, and the list is bounded.
/// </summary>
public sealed class FindingLog : IHitSink
{
    /// <summary>Different findings that one capture can list.</summary>
    public const int Most = 1000;

    private readonly List<Finding> _findings = [];
    private readonly Dictionary<(string Rule, string Port, int? Position, Phrase? Observed, Phrase? Expected, Verdict? Verdict), int> _seen = [];

    /// <summary>The capture.</summary>
    public required string File { get; init; }

    /// <summary>The port that findings are about from now on.</summary>
    public string Port { get; set; } = "";

    /// <summary>Ports in use from now on.</summary>
    public ImmutableArray<string> Arrangement { get; set; } = [];

    /// <summary>Time of the message that is looked at.</summary>
    public long TimeUs { get; set; }

    /// <summary>Index of the message that is looked at.</summary>
    public long MessageIndex { get; set; }

    /// <summary>Findings that were not listed because there were too many different ones.</summary>
    public long Unlisted { get; private set; }

    /// <summary>What was found, in order.</summary>
    public IReadOnlyList<Finding> Findings => _findings;

    /// <inheritdoc/>
    public void Report(Rule rule, in Hit hit)
    {
        RuleDescription description = rule.Description;
        var key = (description.Name, Port, hit.Position, hit.Observed, hit.Expected, hit.IsNote ? (Verdict?)null : hit.Verdict);
        if (_seen.TryGetValue(key, out int at))
        {
            _findings[at] = _findings[at] with { Repeats = _findings[at].Repeats + 1 };
            return;
        }

        if (_findings.Count == Most)
        {
            Unlisted++;
            return;
        }

        _seen.Add(key, _findings.Count);
        _findings.Add(Finding.From(description, hit) with
        {
            File = File,
            Port = Port,
            Arrangement = Arrangement,
            TimeUs = TimeUs,
            MessageIndex = MessageIndex,
        });
    }
}
