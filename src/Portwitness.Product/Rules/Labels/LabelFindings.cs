using Portwitness.Analysis.Catalogue;
using Portwitness.Analysis.Evidence;
using Portwitness.Analysis.Findings;
using Portwitness.Analysis.Rules;
using Portwitness.Labels;
using Portwitness.Product.Energy;
using Portwitness.Product.Offers;

namespace Portwitness.Product.Rules.Labels;

/// <summary>Takes what label rules find. What rests on characters that were guessed accuses nobody.</summary>
internal sealed class LabelFindings(Label label) : ILabelHitSink
{
    private readonly BoundedFindings _list = new();

    /// <summary>What was found, in the order of the rules.</summary>
    public IReadOnlyList<Finding> Findings => _list.Findings;

    /// <summary>Findings that are not listed, all of a kind that is.</summary>
    public long Unlisted => _list.Unlisted;

    /// <summary>What is wrong with a label on its own, or beside the cells that are stated.</summary>
    public static LabelFindings Of(Label label, RuleSet rules, StatedCells? cells = null)
    {
        LabelFindings found = new(label);
        foreach (PrintedRule rule in rules.OfType<PrintedRule>())
        {
            rule.Check(label, found);
        }

        BatteryFigures battery = new(label.Battery, cells, !label.MayRateMore);
        foreach (BatteryRule rule in rules.OfType<BatteryRule>())
        {
            rule.Check(battery, found);
        }

        return found;
    }

    /// <inheritdoc/>
    public void Report(Rule rule, in Hit hit, string port, PortOffer? offer)
    {
        _list.Add(Finding.From(rule.Description, offer is { IsUnchecked: true } ? DoubtedHits.Doubted(hit, CaptureSteps.ComparePhoto) : Settle(label, hit, port)) with
        {
            File = offer?.File ?? "",
            Port = port,
            Arrangement = offer?.InUse ?? [],
            TimeUs = offer?.List.TimeUs,
            MessageIndex = offer?.List.MessageIndex,
        });
    }

    /// <summary>The case, or one that cannot be told when it rests on characters that were guessed.</summary>
    internal static Hit Settle(Label label, in Hit hit, string port)
    {
        int? named = label.FindOutput(port)?.At.Line;
        int? doubtful = hit.LabelLine is { } line && label.IsDoubtful(line) ? line
            : named is { } of && label.IsDoubtful(of) ? of : null;
        return doubtful is not null && hit.Verdict == Verdict.Fails && !hit.IsNote
            ? hit with { Verdict = Verdict.CannotTell, NextStep = NextSteps.ConfirmLine(label, doubtful.Value) } : hit;
    }
}
