using Portwitness.Analysis.Findings;
using Portwitness.Analysis.Rules.Labels;
using Portwitness.Labels;

namespace Portwitness.Analysis.Rules.Arrangements;

/// <summary>Takes what rules about arrangements find; what rests on doubtful characters of the label accuses nobody.</summary>
internal sealed class ArrangementFindings(Label? label) : IArrangementHitSink
{
    private readonly List<Finding> _findings = [];

    /// <summary>What was found, in the order of the rules.</summary>
    public IReadOnlyList<Finding> Findings => _findings;

    /// <inheritdoc/>
    public void Report(Rule rule, in Hit hit, in ArrangementPlace place)
    {
        Hit settled = hit.LabelLine is null || label is null ? hit : LabelFindings.Settle(label, hit, place.Port);
        _findings.Add(Finding.From(rule.Description, settled) with
        {
            File = place.File ?? "",
            Port = place.Port,
            Arrangement = place.InUse,
            TimeUs = place.TimeUs,
            MessageIndex = place.MessageIndex,
        });
    }
}
