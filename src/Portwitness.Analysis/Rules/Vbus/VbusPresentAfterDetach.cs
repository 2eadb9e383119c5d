using Portwitness.Analysis.Evidence;
using Portwitness.Analysis.Measuring;
using Portwitness.PowerDelivery.Limits;

namespace Portwitness.Analysis.Rules.Vbus;

/// <summary>VBUS is still there after a detach.</summary>
public sealed class VbusPresentAfterDetach : VbusRemovalRule
{
    /// <inheritdoc/>
    public override RuleDescription Description { get; } = new()
    {
        Name = "vbus-present-after-detach",
        Severity = Severity.Caution,
        Title = "VBUS stays after a detach",
        Clause = "R3.2v1.1 Table 7.23 (vSafe0V); tVBUSOFF of USB Type-C, from memory",
        Why = "An open USB-C port carries no voltage. One that stays live can damage what is plugged in next, and above 20 V its contacts arc.",
        Evidence = "VBUS at the port after the detach. The time that a port has is from memory, so that this is never more than a caution.",
        Example = new ScriptExample(
            """
            measured_at: source
            source: [5V 3A, 9V 3A]
            steps:
              - attach
              - advertise
              - contract 2 at 3A
              - detach
              - measure 9V 0A every 20ms for 1s
            """,
            "A second after the detach 9 V are on the open port."),
        Category = RuleCategory.Vbus,
    };

    /// <inheritdoc/>
    public override VbusHit? Check(VbusRemoval removal)
    {
        if (removal.IsHardReset || removal.Remains.Longest is not { Samples: >= 2 } run)
        {
            return null;
        }

        return Doubts.FromMemory.ToHit(
            run.StartUs,
            $"{RunText.Time(run.EndUs - removal.StartUs)} after the detach VBUS was {run.Volts()}: {run.Extent()}; {removal.Instrument.Text(run.Extreme)}.",
            $"at most {Electrical.Safe0VMaximum} within {RunText.Time(VbusLimits.VbusOffUs)}", $"{run.Volts()}, {run.Extent()}");
    }
}
