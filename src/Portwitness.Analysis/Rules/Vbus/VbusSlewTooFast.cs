using Portwitness.Analysis.Evidence;
using Portwitness.Analysis.Measuring;
using Portwitness.PowerDelivery.Limits;
using Portwitness.PowerDelivery.Units;

namespace Portwitness.Analysis.Rules.Vbus;

/// <summary>VBUS changes faster than 30 mV/µs.</summary>
public sealed class VbusSlewTooFast : VbusSegmentRule
{
    /// <inheritdoc/>
    public override RuleDescription Description { get; } = new()
    {
        Name = "vbus-slew-too-fast",
        Severity = Severity.Violation,
        Title = "VBUS changes too fast",
        Clause = "R3.2v1.1 Tables 7.23 and 7.25 (vSrcSlewPos, vSrcSlewNeg)",
        Why = "A voltage that jumps drives large currents through the capacitors of what is connected, and can trip its protection or damage it.",
        Evidence = "VBUS sampled every few hundred microseconds while it changes, \"resolution_us\" and \"accuracy\" in the header. Between two samples the "
            + "change has a slew of at least their difference by their distance.",
        Example = new ScriptExample(
            """
            measured_at: source
            accuracy: {vbus_mv: 10, ibus_ma: 10}
            source: [5V 3A, 9V 3A, 15V 3A, 20V 3A]
            steps:
              - attach
              - advertise
              - request 4 at 3A
              - accept
              - pause 30ms
              - measure 5V 0A
              - pause 100us
              - measure 20V 0A
              - ready after 126ms
            """,
            "VBUS rises by 15 V within 100 µs."),
        Category = RuleCategory.Vbus,
    };

    /// <inheritdoc/>
    public override VbusHit? Check(VbusSegment segment)
    {
        if (segment.TooFast is not { } slew)
        {
            return null;
        }

        Doubts doubts = segment.General() | (segment.Instrument.StatesTime ? Doubts.None : Doubts.TimesNotStated);
        return doubts.ToHit(
            slew.TimeUs,
            $"VBUS moved by {Voltage.FromMillivolts(slew.Millivolts)} within {slew.MicrosecondsApart} µs on its way to {segment.Terms.Text}; "
                + $"{segment.Instrument.Text(slew.Millivolts)}, {VbusLimits.SrcValid} at either end left to the load.",
            $"at most {VbusLimits.SlewMillivoltsPerUs} mV/µs", $"at least {slew.Millivolts / slew.MicrosecondsApart} mV/µs", segment.Terms.Position);
    }
}
