using System.Collections.Immutable;
using Portwitness.Analysis.Catalogue;
using Portwitness.Analysis.Evidence;
using Portwitness.Analysis.PdpRules;
using Portwitness.Analysis.Profile;
using Portwitness.Analysis.Rules;
using Portwitness.PowerDelivery.PowerData;

namespace Portwitness.Analysis.Conversation;

/// <summary>
/// Runs the capability rules on a list whose currents were rounded, as a display does that shows tenths of an ampere. The list may be any
/// of several, and what is wrong in one reading and right in another accuses nobody.
/// </summary>
internal static class RoundedListCheck
{
    /// <summary>Reports what is wrong in every reading, and gives the PDP of the one with the fewest faults.</summary>
    public static PowerFit Check(Advertisement list, SourceEvidence evidence, RuleSet rules, IHitSink hits)
    {
        (List<(Rule Rule, Hit Hit)> Hits, PowerFit Fit)? best = null;
        HashSet<(Rule, int?)>? inAll = null;
        foreach (ImmutableArray<OfferedObject> reading in RoundedReadings.Of(list.Objects, list.CurrentRoundingMilliamperes))
        {
            CollectedHits collected = new();
            PowerFit fit = CapabilityChecker.CheckExact(list with { Objects = reading }, evidence, rules, collected);
            HashSet<(Rule, int?)> found = [.. collected.Hits.Select(static one => (one.Rule, one.Hit.Position))];
            inAll = inAll is null ? found : [.. inAll.Intersect(found)];
            best = best is null || collected.Hits.Count < best.Value.Hits.Count ? (collected.Hits, fit) : best;
        }

        if (best is not { } chosen)
        {
            return default;
        }

        foreach ((Rule rule, Hit hit) in chosen.Hits)
        {
            if (inAll!.Contains((rule, hit.Position)))
            {
                hits.Report(rule, hit);
            }
        }

        return chosen.Fit;
    }
}
