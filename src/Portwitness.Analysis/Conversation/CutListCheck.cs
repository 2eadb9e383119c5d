using Portwitness.Analysis.Catalogue;
using Portwitness.Analysis.Evidence;
using Portwitness.Analysis.PdpRules;
using Portwitness.Analysis.Profile;
using Portwitness.Analysis.Rules;
using Portwitness.PowerDelivery.Limits;
using Portwitness.PowerDelivery.PowerData;

namespace Portwitness.Analysis.Conversation;

/// <summary>
/// Runs the capability rules on a list that may have had more objects, as one that was typed or quoted. What is wrong only as long as the
/// list ends where it does accuses nobody.
/// </summary>
internal static class CutListCheck
{
    /// <summary>Reports what is wrong with the list, and leaves open what one more object would mend.</summary>
    public static PowerFit Check(Advertisement list, SourceEvidence evidence, RuleSet rules, IHitSink hits)
    {
        CollectedHits asRead = new();
        PowerFit fit = CapabilityChecker.Check(list with { MayBeCut = false }, evidence, rules, asRead);
        if (asRead.Hits.Count == 0 || list.Objects.Length >= MessageLimits.MaxExtendedObjects)
        {
            asRead.HandTo(hits);
            return fit;
        }

        CollectedHits longer = new();
        Advertisement withOneMore = list with { MayBeCut = false, Objects = list.Objects.Add(new OfferedObject(list.Objects.Length + 1, 0, 0)) };
        CapabilityChecker.Check(withOneMore, evidence, rules, longer);
        foreach ((Rule rule, Hit hit) in asRead.Hits)
        {
            bool stays = hit.IsNote || longer.Hits.Exists(other => other.Rule == rule && other.Hit.Position == hit.Position);
            hits.Report(rule, stays ? hit : hit with { Verdict = Verdict.CannotTell, NextStep = CaptureSteps.WholeList(list) });
        }

        return fit;
    }
}
