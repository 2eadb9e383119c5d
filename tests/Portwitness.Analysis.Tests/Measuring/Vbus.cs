using Portwitness.Analysis.Catalogue;
using Portwitness.Analysis.Evidence;
using Portwitness.Analysis.Findings;
using Portwitness.Analysis.Measuring;
using Portwitness.Analysis.Rules;
using Portwitness.Captures;
using Portwitness.Following.Contracts;
using Portwitness.PowerDelivery.PowerData;
using Portwitness.PowerDelivery.Units;

namespace Portwitness.Analysis.Tests.Measuring;

/// <summary>Segments made by hand, and what the rules say of them.</summary>
internal static class Vbus
{
    /// <summary>An instrument that is exact to the millivolt, milliampere and microsecond, at the source.</summary>
    public static Instrument Exact { get; } = At(MeasuringPoint.Source, 0, 0);

    public static Instrument At(MeasuringPoint point, int millivolts, int milliamperes) =>
        new(point, new MeasuringAccuracy(millivolts, null, milliamperes, null), 1);

    public static VbusTerms Fixed(int volts, int milliamperes = 3000, int position = 2, bool epr = false) => Terms(
        FixedSourceSupply.Create(Volts(volts * 1000), Amps(3000)).Raw, volts * 1000, milliamperes, position, epr);

    public static VbusTerms Pps(int millivolts, int milliamperes = 3000, bool limited = false) => Terms(
        PpsSourceSupply.Create(Volts(3300), Volts(21_000), Amps(5000), limited).Raw, millivolts, milliamperes, 6);

    // 0xE004B1F4: SPR AVS 3 A / 5 A, shared/vectors.
    public static VbusTerms Avs(int millivolts, int milliamperes = 3000) => Terms(0xE004B1F4, millivolts, milliamperes, 5);

    public static VbusTerms Variable(int low, int high, int milliamperes = 3000) => Terms(
        VariableSourceSupply.Create(Volts(low), Volts(high), Amps(3000)).Raw, null, milliamperes, 4);

    public static VbusTerms Battery(int low, int high, int watts) => VbusTerms.Of(
        new ContractAttempt { MessageIndex = 1, RequestedUs = 0, ObjectPosition = 3, Power = Power.FromMilliwatts(watts * 1000) },
        new OfferedObject(3, BatterySourceSupply.Create(Volts(low), Volts(high), Power.FromMilliwatts(60_000)).Raw, uint.MaxValue))!;

    public static VbusTerms Terms(uint word, int? millivolts, int milliamperes, int position, bool epr = false) => VbusTerms.Of(
        new ContractAttempt
        {
            MessageIndex = 1, RequestedUs = 0, ObjectPosition = position, InEprMode = epr,
            Voltage = millivolts is { } volts ? Volts(volts) : null, Current = Amps(milliamperes),
        },
        new OfferedObject(position, word, uint.MaxValue))!;

    /// <summary>A contract that was accepted at 0, from 5 V; PS_RDY came after 100 ms.</summary>
    public static VbusSegment Segment(
        VbusTerms terms, Instrument? instrument = null, VbusTerms? before = null, bool unknownBefore = false, bool recordsAttach = true)
    {
        VbusSegment segment = new(terms, unknownBefore ? null : before ?? Fixed(5, position: 1), instrument ?? Exact, 0, 1)
        {
            RecordsAttach = recordsAttach,
        };
        return segment;
    }

    /// <summary>From 2 s on everything has settled: two good samples, then these every so many microseconds, then two good ones.</summary>
    public static VbusSegment Settled(
        VbusTerms terms, int good, int? goodCurrent, IEnumerable<(int Volts, int? Amps)> samples, long everyUs = 5_000, Instrument? instrument = null,
        bool comesBack = true)
    {
        VbusSegment segment = Segment(terms, instrument);
        segment.OnReady(100_000);
        long at = 2_000_000;
        segment.Add(new Sample(at, good, goodCurrent));
        segment.Add(new Sample(at += everyUs, good, goodCurrent));
        foreach ((int volts, int? amps) in samples)
        {
            segment.Add(new Sample(at += everyUs, volts, amps));
        }

        if (comesBack)
        {
            segment.Add(new Sample(at += everyUs, good, goodCurrent));
            segment.Add(new Sample(at + everyUs, good, goodCurrent));
        }

        segment.Close(SegmentEnd.CaptureEnded, long.MaxValue);
        return segment;
    }

    public static IEnumerable<(int Volts, int? Amps)> Samples(int count, int volts, int? amps) => Enumerable.Repeat((volts, amps), count);

    /// <summary>"vbus-droop Fails", in the order of the catalogue; notes without a verdict.</summary>
    public static string Found(VbusSegment segment) => Text(RuleSet.OfCaptures.VbusSegments.Select(rule => ((VbusRule)rule, rule.Check(segment))));

    public static string Found(VbusRemoval removal) => Text(RuleSet.OfCaptures.VbusRemovals.Select(rule => ((VbusRule)rule, rule.Check(removal))));

    public static Voltage Volts(int millivolts) => Voltage.FromMillivolts(millivolts);

    public static Current Amps(int milliamperes) => Current.FromMilliamperes(milliamperes);

    private static string Text(IEnumerable<(VbusRule Rule, VbusHit? Hit)> found) => string.Join(", ", GoldenFindings
        .Check([.. found.Where(pair => pair.Hit is not null).Select(pair => Finding.From(pair.Rule.Description, pair.Hit!.Value.Hit))])
        .Select(finding => finding.Verdict is not { } verdict ? finding.Rule
            : $"{finding.Rule} {(verdict == Verdict.Fails ? "fails" : "cannot tell")}"));
}
