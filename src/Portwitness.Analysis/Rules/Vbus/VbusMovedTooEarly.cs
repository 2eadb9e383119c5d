using Portwitness.Analysis.Evidence;
using Portwitness.Analysis.Measuring;
using Portwitness.PowerDelivery.Limits;

namespace Portwitness.Analysis.Rules.Vbus;

/// <summary>VBUS leaves its old voltage before it may.</summary>
public sealed class VbusMovedTooEarly : VbusSegmentRule
{
    /// <inheritdoc/>
    public override RuleDescription Description { get; } = new()
    {
        Name = "vbus-moved-too-early",
        Severity = Severity.Violation,
        Title = "VBUS moves before its time",
        Clause = "R3.2v1.1 Tables 6.68 and 7.23 (tSrcTransition)",
        Why = "A source waits 25 ms after Accept so that the device can reduce its load before the voltage changes. One that does not wait changes "
            + "it under full load, which can restart the device.",
        Evidence = Measured,
        Example = new ScriptExample(
            """
            measured_at: source
            accuracy: {vbus_mv: 10, ibus_ma: 10}
            source: [5V 3A, 9V 3A, PPS 3.3-11V 3A]
            steps:
              - attach
              - advertise
              - request 2 at 3A
              - accept
              - measure 5V 0A
              - pause 5ms
              - measure 7V 0A every 5ms for 10ms
              - ready after 126ms
            """,
            "VBUS is 7 V five milliseconds after Accept; it may not move for 25 ms."),
        Category = RuleCategory.Vbus,
    };

    /// <inheritdoc/>
    public override VbusHit? Check(VbusSegment segment)
    {
        if (segment.MovedEarly is not { } sample)
        {
            return null;
        }

        Run run = new(sample.TimeUs, sample.TimeUs, 1, sample.Millivolts, sample.Milliamperes, sample.Milliamperes);
        Doubts doubts = segment.OfMoment(run)
            | (sample.Millivolts < segment.Before!.Static.Minimum.Millivolts ? segment.OfLow(run) : segment.General());
        return doubts.ToHit(
            sample.TimeUs,
            $"VBUS had left {segment.Before.Text} for {segment.Terms.Text} {RunText.Time(sample.TimeUs - segment.StartUs)} after Accept: "
                + $"{run.Volts()}{run.Load()}; {segment.Instrument.Text(sample.Millivolts)}.",
            $"{segment.Before.Valid} for {RunText.Time(VbusLimits.SrcTransitionMinimumUs)} after GoodCRC of Accept",
            $"{run.Volts()} {RunText.Time(sample.TimeUs - segment.StartUs)} after Accept", segment.Terms.Position);
    }
}
