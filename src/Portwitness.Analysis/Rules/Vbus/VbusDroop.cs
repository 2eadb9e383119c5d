using Portwitness.Analysis.Evidence;
using Portwitness.Analysis.Measuring;
using Portwitness.PowerDelivery.Limits;
using Portwitness.PowerDelivery.Units;

namespace Portwitness.Analysis.Rules.Vbus;

/// <summary>VBUS is too low for a moment.</summary>
public sealed class VbusDroop : VbusSegmentRule
{
    /// <inheritdoc/>
    public override RuleDescription Description { get; } = new()
    {
        Name = "vbus-droop",
        Severity = Severity.Violation,
        Title = "VBUS droops",
        Clause = Limits,
        Why = "For a moment VBUS may leave its limits by half a volt, under PPS by a tenth. A deeper droop at a current that the contract covers "
            + "can restart what is connected. A load that takes more than it may is to blame itself.",
        Evidence = Measured,
        Example = new ScriptExample(
            """
            measured_at: source
            accuracy: {vbus_mv: 10, ibus_ma: 10}
            source: [5V 3A, 9V 3A, PPS 3.3-11V 3A]
            steps:
              - attach
              - advertise
              - contract 2 at 3A
              - pause 300ms
              - measure 9V 1A every 5ms for 100ms
              - measure 7.5V 3A every 5ms for 20ms
              - measure 9V 3A every 5ms for 100ms
            """,
            "VBUS droops to 7.5 V at a current that the contract covers."),
        Category = RuleCategory.Vbus,
    };

    /// <inheritdoc/>
    public override VbusHit? Check(VbusSegment segment)
    {
        (LowCase low, Run run, Doubts doubts) = LowSide.Of(segment);
        if (low == LowCase.SlowToRecover)
        {
            return doubts.ToHit(
                run.StartUs,
                $"After a load step VBUS stayed at {run.Volts()}{run.Load()} under {segment.Terms.Text} for longer than a moment: {run.Extent()}; "
                    + $"{segment.Instrument.Text(run.Extreme)}.",
                $"at least {segment.Terms.Static.Minimum} within {RunText.Time(VbusLimits.LargeStepTransientUs)} of a load step of "
                    + $"{VbusLimits.LargeLoadStep} or more",
                $"{run.Volts()}, {run.Extent()}", segment.Terms.Position);
        }

        if (low != LowCase.Droops)
        {
            return null;
        }

        bool moving = run != segment.Valid.Low.Deepest && run != segment.Valid.LowAsRead.Deepest;
        Voltage expected = (moving ? segment.Moving : segment.Valid).Band.Minimum;
        return doubts.ToHit(
            run.StartUs,
            $"VBUS fell to {run.Volts()}{run.Load()} {(moving ? "on its way to" : "under")} {segment.Terms.Text}: {run.Extent()}; {segment.Instrument.Text(run.Extreme)}.",
            $"at least {expected} for a moment", $"{run.Volts()}, {run.Extent()}", segment.Terms.Position);
    }
}
