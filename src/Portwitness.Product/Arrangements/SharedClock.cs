using System.Collections.Immutable;
using Portwitness.Analysis;
using Portwitness.Analysis.Bench;
using Portwitness.Analysis.Profile;
using Portwitness.Labels;

namespace Portwitness.Product.Arrangements;

/// <summary>A statement that two files share a clock.</summary>
/// <param name="File">A capture.</param>
/// <param name="With">The capture on whose clock it is.</param>
/// <param name="OffsetUs">By how much its time 0 is behind that one's, in microseconds; negative before it.</param>
internal sealed record ClockLink(string File, string With, long OffsetUs);

/// <summary>
/// Tells each capture what was attached and detached while it ran, as captures of other ports on the same clock recorded it. Captures
/// share a clock when they are of one file, when the product file says by how much one began after the other ("with", "offset"), or by
/// the dates on which they began ("started").
/// </summary>
internal static class SharedClock
{
    private const long SecondUs = 1_000_000;
    private const int MaxLinks = 100;

    // A product has a few ports, and nobody plugs more often in one recording; files can say what they like.
    private const int MaxPartners = 16;
    private const int MaxTold = 100;

    /// <summary>The captures, those that learned something from others changed.</summary>
    public static ImmutableArray<CaptureAnalysis> Join(IReadOnlyList<CaptureAnalysis> captures, IEnumerable<ClockLink> stated)
    {
        Dictionary<string, ClockLink> links = [];
        foreach (ClockLink link in stated)
        {
            links.TryAdd(link.File, link);
        }

        HashSet<string> named = [.. links.Values.Select(link => link.With)];
        Clocked[] clocked = [.. captures.Select(capture => new Clocked(capture, Position(capture.File, links, named)))];
        Clocked[] telling = [.. clocked.Where(one => one.Capture.Port.Length > 0 && !one.Capture.Bench.Events.IsEmpty)];
        return [.. clocked.Select(one => Told(one, telling))];
    }

    private static CaptureAnalysis Told(Clocked own, Clocked[] telling)
    {
        CaptureAnalysis capture = own.Capture;
        List<PortEvent> events = [.. capture.Bench.Events];
        int partners = 0;
        foreach (Clocked one in telling)
        {
            CaptureAnalysis other = one.Capture;
            if (Behind(own, one) is not { } clock || PortNames.Same(other.Port, capture.Port))
            {
                continue;
            }

            if (partners++ == MaxPartners)
            {
                break;
            }

            // What a capture recorded itself of a port is believed.
            if (!capture.Bench.Events.Any(known => PortNames.Same(known.Port, other.Port)))
            {
                events.AddRange(other.Bench.Events.Where(happened => PortNames.Same(happened.Port, other.Port)).Take(MaxTold)
                    .Select(happened => new PortEvent(happened.TimeUs + clock.OffsetUs, other.Port, happened.Attached) { UncertaintyUs = clock.UncertaintyUs })
                    .Where(happened => happened.TimeUs > 0 && happened.TimeUs <= capture.Bench.EndUs));
            }
        }

        return events.Count == capture.Bench.Events.Length ? capture : With(capture, [.. events.OrderBy(happened => happened.TimeUs)]);
    }

    private static CaptureAnalysis With(CaptureAnalysis capture, ImmutableArray<PortEvent> events)
    {
        Arrangement arrangement = new();
        ArrangementSpan start = capture.Bench.Spans[0];
        arrangement.Begin(start.InUse, start.OrderKnown);
        foreach (PortEvent happened in events)
        {
            if (!happened.Attached)
            {
                arrangement.Detach(happened.Port, happened.TimeUs);
            }
            else if (PortNames.Same(happened.Port, capture.Port))
            {
                arrangement.AttachOwn(happened.Port, happened.TimeUs);
            }
            else
            {
                arrangement.Attach(happened.Port, capture.Port, happened.TimeUs);
            }
        }

        ImmutableArray<ArrangementSpan> spans = [.. arrangement.Spans];
        return capture with
        {
            Arrangement = arrangement.InUse,
            Bench = capture.Bench with { Events = events, Spans = spans },
            Advertisements =
            [
                .. capture.Advertisements.Select(list => spans.Last(span => span.FromUs <= list.TimeUs) is var span
                    ? list with { InUse = span.InUse, OrderKnown = span.OrderKnown } : list),
            ],
        };
    }

    // By how much the other capture's time 0 is behind this one's; null when they share no clock.
    private static (long OffsetUs, long UncertaintyUs)? Behind(Clocked one, Clocked two)
    {
        (CaptureAnalysis capture, CaptureAnalysis other) = (one.Capture, two.Capture);
        long? started = capture.Bench.Started is { } mine && other.Bench.Started is { } its ? (its - mine).Ticks / TimeSpan.TicksPerMicrosecond : null;
        if (capture.File == other.File)
        {
            return (started ?? 0, 0);
        }

        if (one.Position is { } here && two.Position is { } there && here.Root == there.Root)
        {
            return (there.OffsetUs - here.OffsetUs, 0);
        }

        // Dates may be copied from one header to the next: both captures have to say that they ran together.
        bool together = started is { } offset && offset < capture.Bench.EndUs && offset + other.Bench.EndUs > 0
            && Counts(other, capture.Port) && (Counts(capture, other.Port) || capture.Bench.Spans[0].InUse.Length <= 1);
        return together ? (started!.Value, IsWholeSecond(capture) || IsWholeSecond(other) ? SecondUs : 0) : null;
    }

    private static bool Counts(CaptureAnalysis capture, string port) =>
        capture.Bench.Spans.Any(span => span.InUse.Any(used => PortNames.Same(used, port)));

    private static bool IsWholeSecond(CaptureAnalysis capture) => capture.Bench.Started!.Value.Ticks % TimeSpan.TicksPerSecond == 0;

    // The file that a chain of "with" leads to, and the time from there; null for a file that is on no stated clock, or on a ring.
    private static (string Root, long OffsetUs)? Position(string file, Dictionary<string, ClockLink> links, HashSet<string> named)
    {
        long offset = 0;
        bool isNamed = named.Contains(file);
        for (int steps = 0; steps <= MaxLinks; steps++)
        {
            if (!links.TryGetValue(file, out ClockLink? link))
            {
                return isNamed || steps > 0 ? (file, offset) : null;
            }

            (file, offset) = (link.With, offset + link.OffsetUs);
        }

        return null;
    }

    private sealed record Clocked(CaptureAnalysis Capture, (string Root, long OffsetUs)? Position);
}
