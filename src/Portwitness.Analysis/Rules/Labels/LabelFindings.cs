using Portwitness.Analysis.Comparison;
using Portwitness.Analysis.Findings;
using Portwitness.Labels;

namespace Portwitness.Analysis.Rules.Labels;

/// <summary>
/// Takes what label rules find. What rests on characters that were guessed accuses nobody. Of each rule and severity a bounded
/// number is listed and the rest is counted, so that no flood hides what another rule finds, or how grave it is.
/// </summary>
internal sealed class LabelFindings(Label label) : ILabelHitSink
{
    /// <summary>Findings of one rule, severity and verdict that are listed; a label has a few.</summary>
    public const int MostOfARule = 50;

    private readonly List<Finding> _findings = [];
    private readonly Dictionary<(string Rule, Severity Severity, Verdict? Verdict), int> _counts = [];

    /// <summary>What was found, in the order of the rules.</summary>
    public IReadOnlyList<Finding> Findings => _findings;

    /// <summary>Findings that are not listed, all of a kind that is.</summary>
    public long Unlisted { get; private set; }

    /// <summary>What is wrong with a label on its own.</summary>
    public static LabelFindings Of(Label label, RuleSelection rules)
    {
        LabelFindings found = new(label);
        foreach (PrintedRule rule in RuleCatalogue.Printed.Where(rule => rules.Includes(rule.Description)))
        {
            rule.Check(label, found);
        }

        return found;
    }

    /// <inheritdoc/>
    public void Report(Rule rule, in Hit hit, string port, PortOffer? offer)
    {
        Finding finding = Finding.From(rule.Description, Settle(label, hit, port)) with
        {
            File = offer?.File ?? "",
            Port = port,
            Arrangement = offer?.InUse ?? [],
            TimeUs = offer?.List.TimeUs,
            MessageIndex = offer?.List.MessageIndex,
        };
        (string, Severity, Verdict?) kind = (finding.Rule, finding.Severity, finding.Verdict);
        int count = _counts.GetValueOrDefault(kind);
        if (count == MostOfARule)
        {
            Unlisted++;
            return;
        }

        _counts[kind] = count + 1;
        _findings.Add(finding);
    }

    /// <summary>The case, or one that cannot be told when it rests on characters that were guessed.</summary>
    internal static Hit Settle(Label label, in Hit hit, string port)
    {
        int? named = label.FindOutput(port)?.At.Line;
        int? doubtful = hit.LabelLine is { } line && label.IsDoubtful(line) ? line
            : named is { } of && label.IsDoubtful(of) ? of : null;
        return doubtful is not null && hit.Verdict == Verdict.Fails && !hit.IsNote
            ? hit with { Verdict = Verdict.CannotTell, NextStep = NextSteps.ConfirmLine(doubtful.Value) } : hit;
    }
}
