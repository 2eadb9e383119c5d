using System.Collections.Immutable;
using Portwitness.Analysis;
using Portwitness.Analysis.Profile;
using Portwitness.Labels;
using Portwitness.PowerDelivery.Headers;

namespace Portwitness.Product.Offers;

/// <summary>Takes the offers of each arrangement out of analysed captures.</summary>
public static class PortOffers
{
    // Whoever says nothing for so long after a neighbour came keeps his list: tCapabilitiesMismatchResponse is as long
    // (R3.2v1.1, 6.4.2.3), and renegotiating takes less as a rule (common practice, no source).
    private const long UnchangedUs = 2_000_000;

    /// <summary>What is offered under each arrangement of a capture, attach orders apart.</summary>
    /// <param name="capture">The capture.</param>
    /// <param name="named">Ports as the label names them.</param>
    /// <param name="mayBeManaged">Whether the port can share power with others.</param>
    public static IEnumerable<PortOffer> Of(CaptureAnalysis capture, Func<string, string> named, bool mayBeManaged)
    {
        foreach (var group in Lists(capture).GroupBy(entry => string.Join('\n', entry.List.InUse) + entry.List.OrderKnown))
        {
            // A source may take its time to offer more after a detach; what it offered without one goes before it.
            bool afterDetach = group.All(entry => entry.AfterDetach);
            ListInForce[] lists = [.. group.Where(entry => entry.AfterDetach == afterDetach)];
            Advertisement last = Last(lists.Select(static one => one.List))!;
            string port = named(capture.Port);
            PortOffer offer = new()
            {
                Port = port,
                InUse = last.InUse.IsEmpty ? ImmutableArray.Create(port) : [.. last.InUse.Select(named)],
                OrderKnown = last.OrderKnown,
                AfterDetach = afterDetach,
                File = capture.File,
                List = last,
                SprList = lists.LastOrDefault(static one => one.List.Message == MessageKind.SourceCapabilities)?.List,
                Editions = capture.Editions,
                Cable = capture.CableEvidence,
                MayListMore = mayBeManaged && !capture.AnyContract,
            };
            yield return WithEarlier(offer, [.. lists.Where(one => one.List.Message == last.Message)]);
        }
    }

    // The same list once more, after a detach or another arrangement, goes on where it was.
    private static PortOffer WithEarlier(PortOffer offer, ListInForce[] lists)
    {
        List<PortOffer> all = [];
        foreach (ListInForce one in lists)
        {
            long forUs = Math.Max(0, one.UntilUs - one.FromUs);
            if (all.Count > 0 && all[^1].List.Objects.AsSpan().SequenceEqual(one.List.Objects.AsSpan()))
            {
                all[^1] = all[^1] with { List = one.List, ForUs = all[^1].ForUs + forUs };
            }
            else
            {
                all.Add(offer with { List = one.List, SprList = one.List.Message == MessageKind.SourceCapabilities ? one.List : offer.SprList, ForUs = forUs });
            }
        }

        return offer with { Earlier = [.. all.Take(all.Count - 1)], ForUs = all[^1].ForUs };
    }

    private static IEnumerable<ListInForce> Lists(CaptureAnalysis capture)
    {
        Advertisement[] all = [.. capture.Advertisements.Where(list => list.Message.IsSourceList && list.IsOwn)];
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
                yield return new ListInForce(list, afterDetach, Math.Max(list.TimeUs, span.FromUs), Until(capture, list, own, Math.Min(endUs, capture.Bench.EndUs)));
            }
        }
    }

    // A list is in force until the next of its kind, until the port is unplugged, or until the arrangement ends.
    private static long Until(CaptureAnalysis capture, Advertisement list, Advertisement[] own, long endUs)
    {
        long next = own.FirstOrDefault(other => other.Message == list.Message && other.TimeUs > list.TimeUs)?.TimeUs ?? endUs;
        long unplugged = capture.Bench.Events.FirstOrDefault(happened => !happened.Attached && happened.TimeUs > list.TimeUs
            && PortNames.Same(happened.Port, capture.Port))?.TimeUs ?? endUs;
        return Math.Min(endUs, Math.Min(next, unplugged));
    }

    private static Advertisement? Last(IEnumerable<Advertisement> lists) =>
        lists.LastOrDefault(static list => list.Message == MessageKind.EPRSourceCapabilities) ?? lists.LastOrDefault();

    private static bool KeptThrough(CaptureAnalysis capture, Advertisement list, ArrangementSpan span, long endUs) =>
        endUs - span.FromUs >= UnchangedUs
        && (span.InUse.IsEmpty || span.InUse.Any(used => PortNames.Same(used, capture.Port)))
        && !capture.Bench.Events.Any(happened => !happened.Attached && PortNames.Same(happened.Port, capture.Port)
            && happened.TimeUs > list.TimeUs && happened.TimeUs <= span.FromUs);

    private sealed record ListInForce(Advertisement List, bool AfterDetach, long FromUs, long UntilUs);
}
