using Portwitness.Analysis.Findings;
using Portwitness.Analysis.Rules;
using Portwitness.Labels;
using Portwitness.Product.Rules;
using Portwitness.Product.Rules.Energy;
using Portwitness.Product.Rules.Labels;

namespace Portwitness.Product;

/// <summary>Takes what rules about a whole product find; what rests on doubtful characters of the label accuses nobody.</summary>
/// <param name="label">The label; null when there is none.</param>
/// <param name="uncheckedFiles">Captures that were recognised on photos and compared by nobody: what names one of them, or may rest on all offers, accuses nobody.</param>
internal sealed class ProductFindings(Label? label, IReadOnlyCollection<string> uncheckedFiles) : IProductHitSink
{
    private readonly BoundedFindings _list = new();

    /// <summary>What was found, in the order of the rules.</summary>
    public IReadOnlyList<Finding> Findings => _list.Findings;

    /// <summary>Findings that are not listed, all of a kind that is.</summary>
    public long Unlisted => _list.Unlisted;

    /// <inheritdoc/>
    public void Report(Rule rule, in Hit hit, in ProductPlace place)
    {
        Hit settled = hit.LabelLine is null || label is null ? hit : LabelFindings.Settle(label, hit, place.Port);
        bool mayRest = uncheckedFiles.Count > 0 && (place.File is { Length: > 0 } file ? uncheckedFiles.Contains(file) : rule is not EnergyRule);
        settled = mayRest ? DoubtedHits.Doubted(settled, CaptureSteps.ComparePhoto) : settled;
        _list.Add(Finding.From(rule.Description, settled) with
        {
            File = place.File ?? "",
            Port = place.Port,
            Arrangement = place.InUse,
            TimeUs = place.TimeUs,
            MessageIndex = place.MessageIndex,
        });
    }
}
