using Portwitness.Analysis.Evidence;
using Portwitness.Analysis.Measuring;
using Portwitness.Analysis.Phrases;
using Portwitness.PowerDelivery.Units;

namespace Portwitness.Analysis.Rules.Vbus;

/// <summary>What a source says of its output is not what was measured.</summary>
public sealed class StatusDiffersFromMeasurement : StatusRule
{
    // Table 6.62: 3 % and 150 mA. A value may be rounded either way to its step of 20 mV or 50 mA.
    private const int VoltsPercent = 3;
    private const int VoltsStep = 20;
    private const int AmpsTolerance = 150;
    private const int AmpsStep = 50;

    // iPpsCLMin and iPpsCLNew (Table 7.23): where the current is limited, the load takes that much less 5 % or 150 mA.
    private const int LeastLimit = 1_000;
    private const int LimitPercent = 5;

    /// <inheritdoc/>
    public override RuleDescription Description { get; } = new()
    {
        Name = "status-differs-from-measurement",
        Severity = Severity.Caution,
        Title = "What the source says of its output is not what was measured",
        Clause = "R3.2v1.1 Tables 6.55 and 6.62",
        Why = "A device that charges a battery directly goes by what the source says of its voltage and current. When that is wrong it charges "
            + "too slowly, or beyond what the battery takes.",
        Evidence = "PPS_Status or Status of the source, and three samples at least within the half second before. Voltage is held against 3 %, "
            + "current against 150 mA, behind a cable with what it may lose. What lies within the instrument's accuracy is not told.",
        Example = new ScriptExample(
            """
            measured_at: source
            accuracy: {vbus_mv: 10, ibus_ma: 10}
            source: [5V 3A, PPS 3.3-11V 3A]
            steps:
              - attach
              - advertise
              - contract 2 at 9V 3A
              - pause 300ms
              - measure 9V 1A every 10ms for 600ms
              - send sink Get_PPS_Status
              - send source PPS_Status F4012800
            """,
            "PPS_Status says 10 V and 2 A; 9 V and 1 A were measured."),
        Category = RuleCategory.Vbus,
    };

    /// <inheritdoc/>
    public override void Check(StatusCase seen, IHitSink hits)
    {
        CheckVoltage(seen, hits);
        CheckCurrent(seen, hits);
        CheckMode(seen, hits);
    }

    private void CheckVoltage(StatusCase seen, IHitSink hits)
    {
        if (seen is not { Volts.IsEnough: true, Told: { } told })
        {
            return;
        }

        int tolerance = (told.Millivolts * VoltsPercent / 100) + VoltsStep;
        if (IsBeside(seen.Volts, told.Millivolts, tolerance, seen.LostInCable, seen.Instrument.OfVoltage))
        {
            Report(
                hits, $"{seen.Message} says {told}; {Volts(seen.Volts)} were measured in the half second before, {seen.Instrument.Text(seen.Volts.Most)}.",
                $"{told} ±{tolerance} mV", Volts(seen.Volts));
        }
    }

    private void CheckCurrent(StatusCase seen, IHitSink hits)
    {
        if (seen is not { Amps.IsEnough: true, ToldCurrent: { } told })
        {
            return;
        }

        const int tolerance = AmpsTolerance + AmpsStep;
        if (IsBeside(seen.Amps, told.Milliamperes, tolerance, 0, seen.Instrument.OfCurrent))
        {
            Report(
                hits, $"{seen.Message} says {told}; {Amps(seen.Amps)} were measured in the half second before, ±{seen.Instrument.OfCurrent(seen.Amps.Most)} mA.",
                $"{told} ±{tolerance} mA", Amps(seen.Amps));
        }
    }

    private void CheckMode(StatusCase seen, IHitSink hits)
    {
        if (seen is not { Limits: true, Amps.IsEnough: true, Terms: { IsPps: true, PowerLimited: false, Current: { } granted } })
        {
            return;
        }

        int limit = Math.Max(granted.Milliamperes, LeastLimit);
        int least = limit - Math.Max(AmpsTolerance, limit * LimitPercent / 100) - AmpsStep;
        if (seen.Amps.Most + seen.Instrument.OfCurrent(seen.Amps.Most) < least)
        {
            Report(
                hits, $"{seen.Message} says that the current is limited, to {Current.FromMilliamperes(limit)}; the load took no more than {Current.FromMilliamperes(seen.Amps.Most)}.",
                "constant voltage", "current limit");
        }
    }

    // All that was measured lies beside what was said, whatever the instrument's uncertainty.
    private static bool IsBeside(RecentSamples.Range measured, int told, int tolerance, int lost, Func<int, int> uncertainty) =>
        measured.Most + uncertainty(measured.Most) < told - tolerance - lost || measured.Least - uncertainty(measured.Least) > told + tolerance;

    private static Phrase Volts(RecentSamples.Range range)
    {
        (Voltage least, Voltage most) = (Voltage.FromMillivolts(range.Least), Voltage.FromMillivolts(range.Most));
        return least == most ? $"{most}" : Phrase.Of($"{least} to {most}");
    }

    private static Phrase Amps(RecentSamples.Range range)
    {
        (Current least, Current most) = (Current.FromMilliamperes(range.Least), Current.FromMilliamperes(range.Most));
        return least == most ? $"{most}" : Phrase.Of($"{least} to {most}");
    }

    private void Report(IHitSink hits, Phrase detail, Phrase expected, Phrase observed) => hits.Report(
        this, new Hit(Verdict.Fails, detail) { Expected = expected, Observed = observed });
}
