using System.Collections.Immutable;
using Portwitness.Analysis.Profile;
using Portwitness.Labels;
using Portwitness.PowerDelivery.Messages;

namespace Portwitness.Analysis.Comparison;

/// <summary>Takes the offers of each arrangement out of analysed captures.</summary>
internal static class PortOffers
{
    // Whoever says nothing for so long after a neighbour came keeps his list: tCapabilitiesMismatchResponse is as long
    // (R3.2v1.1, 6.4.2.3), and renegotiating takes less as a rule (common practice, no source).
    private const long UnchangedUs = 2_000_000;

    /// <summary>The last list of each arrangement of a capture, attach orders apart.</summary>
    /// <param name="capture">The capture.</param>
    /// <param name="named">Ports as the label names them.</param>
    /// <param name="mayBeManaged">Whether the port can share power with others.</param>
    public static IEnumerable<PortOffer> Of(CaptureAnalysis capture, Func<string, string> named, bool mayBeManaged)
    {
        foreach (var group in Lists(capture).GroupBy(entry => string.Join('\n', entry.List.InUse) + entry.List.OrderKnown))
        {
            // A source may take its time to offer more after a detach; what it offered without one goes before it.
            bool afterDetach = group.All(entry => entry.AfterDetach);
            Advertisement[] lists = [.. group.Where(entry => entry.AfterDetach == afterDetach).Select(entry => entry.List)];
            Advertisement list = Last(lists)!;
            string port = named(capture.Port);
            yield return new PortOffer
            {
                Port = port,
                InUse = list.InUse.IsEmpty ? ImmutableArray.Create(port) : [.. list.InUse.Select(named)],
                OrderKnown = list.OrderKnown,
                AfterDetach = afterDetach,
                File = capture.File,
                List = list,
                SprList = Array.FindLast(lists, static one => one.Message == MessageKind.SourceCapabilities),
                Editions = capture.Editions,
                Cable = capture.CableEvidence,
                MayListMore = mayBeManaged && !capture.AnyContract,
            };
        }
    }

    private static IEnumerable<(Advertisement List, bool AfterDetach)> Lists(CaptureAnalysis capture)
    {
        Advertisement[] all = [.. capture.Advertisements.Where(list => CapabilityList.IsOfSource(list.Message) && !list.ByPartner)];
        ImmutableArray<ArrangementSpan> spans = capture.Bench.Spans;
        Advertisement? before = null;
        for (int at = 0; at < spans.Length; at++)
        {
            ArrangementSpan span = spans[at];
            long endUs = at + 1 < spans.Length ? spans[at + 1].FromUs : long.MaxValue;
            bool afterDetach = at > 0 && span.InUse.Length < spans[at - 1].InUse.Length;
            Advertisement[] own =
            [
                .. all.Where(list => list.InUse.SequenceEqual(span.InUse) && list.TimeUs >= span.FromUs && (list.TimeUs < endUs || endUs == span.FromUs)),
            ];
            if (own.Length == 0 && before is not null && !afterDetach && KeptThrough(capture, before, span, Math.Min(endUs, capture.Bench.EndUs)))
            {
                own = [before with { InUse = span.InUse, OrderKnown = span.OrderKnown }];
            }

            before = Last(own) ?? before;
            foreach (Advertisement list in own)
            {
                yield return (list, afterDetach);
            }
        }
    }

    private static Advertisement? Last(Advertisement[] lists) =>
        lists.LastOrDefault(list => list.Message == MessageKind.EPRSourceCapabilities) ?? lists.LastOrDefault();

    private static bool KeptThrough(CaptureAnalysis capture, Advertisement list, ArrangementSpan span, long endUs) =>
        endUs - span.FromUs >= UnchangedUs
        && (span.InUse.IsEmpty || span.InUse.Any(used => PortNames.Same(used, capture.Port)))
        && !capture.Bench.Events.Any(happened => !happened.Attached && PortNames.Same(happened.Port, capture.Port)
            && happened.TimeUs > list.TimeUs && happened.TimeUs <= span.FromUs);
}
