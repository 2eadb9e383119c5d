using System.Collections.Immutable;
using Portwitness.Analysis;
using Portwitness.Analysis.Bench;
using Portwitness.Analysis.Measuring;
using Portwitness.Analysis.Profile;
using Portwitness.Following.Contracts;
using Portwitness.Labels;
using Portwitness.Product.Offers;

namespace Portwitness.Product.Arrangements;

/// <summary>Finds what each port went through when its neighbours came and went.</summary>
internal static class Transitions
{
    /// <summary>What happens so long after a neighbour came has to do with it (common practice, no source).</summary>
    public const long WindowUs = 5_000_000;

    /// <summary>The transitions of captures, in order.</summary>
    public static ImmutableArray<Transition> Of(IReadOnlyList<CaptureAnalysis> captures, Func<string, string> named)
    {
        List<Transition> found = [];
        foreach (CaptureAnalysis capture in captures)
        {
            PortEvent[] events = [.. capture.Bench.Events.OrderBy(happened => happened.TimeUs)];
            for (int at = 0; at < events.Length; at++)
            {
                PortEvent happened = events[at];
                if (!PortNames.Same(happened.Port, capture.Port) && InForce(capture, happened.TimeUs) is { } contract)
                {
                    // What begins with the next event is of that one.
                    long endUs = at + 1 < events.Length ? events[at + 1].TimeUs - 1 : capture.Bench.EndUs;
                    bool isUnpluggedNext = at + 1 < events.Length && !events[at + 1].Attached && PortNames.Same(events[at + 1].Port, capture.Port);
                    found.Add(WithVbusEvents(
                        Of(capture, happened, contract, Math.Max(endUs, happened.TimeUs), named), capture.Bench.VbusEvents, isUnpluggedNext));
                }
            }
        }

        return [.. found];
    }

    private static Transition Of(CaptureAnalysis capture, PortEvent happened, ContractAttempt contract, long endUs, Func<string, string> named)
    {
        long fromUs = happened.TimeUs - happened.UncertaintyUs;
        long untilUs = Math.Min(endUs, happened.TimeUs + WindowUs);
        Advertisement[] lists = [.. capture.Advertisements.Where(list => list.Message.IsSourceList && list.IsOwn)];
        Advertisement? before = lists.LastOrDefault(list => list.TimeUs < happened.TimeUs);
        int? powerBefore = Power(before);
        Advertisement? other = lists.FirstOrDefault(list => list.TimeUs >= fromUs && list.TimeUs <= endUs && list != before && Power(list) != powerBefore);
        Interruption? interruption = capture.Bench.Interruptions.FirstOrDefault(one => one.StartUs >= fromUs && one.StartUs <= untilUs);
        return new Transition
        {
            Port = named(capture.Port),
            File = capture.File,
            Neighbour = named(happened.Port),
            Attached = happened.Attached,
            AtUs = happened.TimeUs,
            UncertaintyUs = happened.UncertaintyUs,
            WatchedUs = endUs - happened.TimeUs,
            InUse = [.. capture.Bench.Spans.Last(span => span.FromUs <= happened.TimeUs).InUse.Select(named)],
            BeforeMilliwatts = powerBefore,
            AfterMilliwatts = Power(lists.LastOrDefault(list => list.TimeUs <= endUs)),
            ListUs = other?.TimeUs,
            MessageIndex = other?.MessageIndex,
            ReadyUs = capture.Contracts.FirstOrDefault(one => one.ReadyUs is not null
                && one.RequestedUs >= (other?.TimeUs ?? fromUs) && one.RequestedUs <= endUs).ReadyUs,
            Renewed = contract.Renewals > 0,
            HardResetUs = interruption?.HardResetUs ?? (contract is { End: ContractEnd.HardReset, EndedUs: { } reset } && reset <= untilUs ? reset : null),
            Interruption = interruption,
            MeasuresVbus = capture.Bench.MeasuresVbus,
            VbusOffUs = null,
            VbusOnUs = null,
        };
    }

    // VBUS may be found gone just before the detach of the port itself is recorded.
    private static Transition WithVbusEvents(Transition one, ImmutableArray<VbusEvent> events, bool isUnpluggedNext)
    {
        long fromUs = one.AtUs - one.UncertaintyUs;
        long untilUs = one.AtUs + Math.Min(one.WatchedUs, WindowUs);
        VbusEvent? off = events.FirstOrDefault(seen => !seen.IsOn && seen.TimeUs >= fromUs && seen.TimeUs <= untilUs);
        VbusEvent? on = off is null ? null
            : events.FirstOrDefault(seen => seen.IsOn && seen.TimeUs >= off.TimeUs && seen.TimeUs <= one.AtUs + one.WatchedUs);
        return on is null && isUnpluggedNext ? one : one with { VbusOffUs = off?.TimeUs, VbusOnUs = on?.TimeUs };
    }

    private static ContractAttempt? InForce(CaptureAnalysis capture, long timeUs) => capture.Contracts.Cast<ContractAttempt?>().FirstOrDefault(contract =>
        contract!.Value.ReadyUs <= timeUs && (contract.Value.EndedUs is null || contract.Value.EndedUs > timeUs));

    private static int? Power(Advertisement? list) => list is null ? null : PortOffer.LargestPowerOf(list);
}
