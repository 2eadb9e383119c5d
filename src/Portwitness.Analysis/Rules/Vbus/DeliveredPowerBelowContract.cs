using Portwitness.Analysis.Evidence;
using Portwitness.Analysis.Measuring;
using Portwitness.PowerDelivery.Units;

namespace Portwitness.Analysis.Rules.Vbus;

/// <summary>VBUS is right at small currents and sags at larger ones that the contract covers.</summary>
public sealed class DeliveredPowerBelowContract : VbusSegmentRule
{
    /// <inheritdoc/>
    public override RuleDescription Description { get; } = new()
    {
        Name = "delivered-power-below-contract",
        Severity = Severity.Violation,
        Title = "The agreed power is not delivered",
        Clause = Limits,
        Why = "A source has to keep its voltage up to the current that was agreed. One whose voltage sags before that delivers less than it "
            + "offers, and charging becomes slow or breaks off.",
        Evidence = "VBUS at the source with the current, within the limits at a small current and below them at a larger one that the contract covers.",
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
              - measure 9V 0.5A every 5ms for 300ms
              - measure 8.3V 2.5A every 5ms for 300ms
            """,
            "VBUS is 9 V at 0.5 A, and sags to 8.3 V at 2.5 A of the agreed 3 A."),
        Category = RuleCategory.Vbus,
    };

    /// <inheritdoc/>
    public override VbusHit? Check(VbusSegment segment)
    {
        (LowCase low, Run run, Doubts doubts) = LowSide.Of(segment);
        if (low != LowCase.SagsUnderLoad)
        {
            return null;
        }

        Power delivered = Voltage.FromMillivolts(run.Extreme) * Current.FromMilliamperes(run.MostMilliamperes!.Value);
        return doubts.ToHit(
            run.StartUs,
            $"VBUS was right at {Current.FromMilliamperes(segment.MostWithinMilliamperes!.Value)} and sagged to {run.Volts()}{run.Load()} "
                + $"({delivered}) under {segment.Terms.Text}: {run.Extent()}; {segment.Instrument.Text(run.Extreme)}.",
            $"{segment.Terms.Static} at every current of the contract", $"{run.Volts()}{run.Load()}, {run.Extent()}", segment.Terms.Position);
    }
}
