using Portwitness.Analysis.Findings;
using Portwitness.Analysis.Profile;
using Portwitness.Captures;
using Portwitness.Following.Contracts;

namespace Portwitness.Analysis.Conversation;

/// <summary>Says of what there was more than is listed.</summary>
internal static class UnlistedNotes
{
    /// <summary>One note for each kind of which some are not listed.</summary>
    public static IEnumerable<CaptureFault> Of(CaptureContext context, Timeline timeline, long faults, int maxFaults) =>
        new (long Unlisted, string What, int Max)[]
        {
            (context.Lists.Unlisted, "capability lists", AdvertisementLog.Most),
            (context.Contracts.Unlisted, "requests", ContractTracker.Most),
            (timeline.Unlisted, "lines of the timeline", RepeatFolder.Most),
            (faults, "faults", maxFaults),
            (context.Arrangement.Unlisted, "changes of the ports in use", Arrangement.Most),
            (context.Bench.Unlisted, "interruptions, attaches, detaches and signals of ports", BenchFollower.Most),
            (context.Findings.Unlisted, "findings", FindingLog.Most),
        }
        .Where(static kind => kind.Unlisted > 0)
        .Select(static kind => AnalysisFaultCodes.Unlisted(kind.Unlisted, kind.What, kind.Max));
}
