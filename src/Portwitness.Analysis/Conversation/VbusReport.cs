using System.Collections.Immutable;
using Portwitness.Analysis.Evidence;
using Portwitness.Analysis.Measuring;
using Portwitness.Analysis.Rules;

namespace Portwitness.Analysis.Conversation;

/// <summary>Runs the VBUS rules on what ended, and keeps what is found readable: of many alike it lists a few and counts the rest.</summary>
internal sealed class VbusReport(CaptureContext context)
{
    private const int MaxAlike = 5;

    private readonly Dictionary<(string Rule, int? Position, Verdict Verdict), (int Count, Hit Last)> _alike = [];

    /// <summary>A segment that ended.</summary>
    public void Judge(VbusSegment segment)
    {
        foreach (VbusSegmentRule rule in context.Rules.VbusSegments)
        {
            if (rule.Check(segment) is { } hit)
            {
                Report(rule, hit, segment.MessageIndex, segment.InUse);
            }
        }
    }

    /// <summary>A reset or detach after which something else begins.</summary>
    public void Judge(VbusRemoval removal)
    {
        foreach (VbusRemovalRule rule in context.Rules.VbusRemovals)
        {
            if (rule.Check(removal) is { } hit)
            {
                Report(rule, hit, removal.MessageIndex, removal.InUse);
            }
        }
    }

    /// <summary>VBUS while nothing was attached.</summary>
    public void Judge(VbusBeforeAttach cold, ImmutableArray<string> inUse)
    {
        foreach (VbusBeforeAttachRule rule in context.Rules.VbusBeforeAttach)
        {
            if (rule.Check(cold) is { } hit)
            {
                Report(rule, hit, 0, inUse);
            }
        }
    }

    private void Report(VbusRule rule, VbusHit hit, long messageIndex, ImmutableArray<string> inUse)
    {
        var key = (rule.Description.Name, hit.Hit.Position, hit.Hit.Verdict);
        _alike.TryGetValue(key, out (int Count, Hit Last) alike);
        Hit listed = alike.Count < MaxAlike ? hit.Hit : alike.Last;
        _alike[key] = (alike.Count + 1, listed);
        context.FindAt(hit.TimeUs, messageIndex, inUse);
        context.Findings.Report(rule, listed);
    }
}
