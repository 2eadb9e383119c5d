using Portwitness.Analysis.Evidence;
using Portwitness.Analysis.Measuring;
using Portwitness.PowerDelivery.Limits;
using Portwitness.PowerDelivery.Units;

namespace Portwitness.Analysis.Rules.Vbus;

/// <summary>A port supplies VBUS while nothing is attached.</summary>
public sealed class VbusPresentBeforeAttach : VbusBeforeAttachRule
{
    /// <inheritdoc/>
    public override RuleDescription Description { get; } = new()
    {
        Name = "vbus-present-before-attach",
        Severity = Severity.Caution,
        Title = "VBUS is on before anything is attached",
        Clause = "R3.2v1.1 Table 7.23 (vSafe0V); cold VBUS of a USB Type-C source, from memory",
        Why = "A USB Type-C source keeps VBUS off until it sees a device. A port that is always on shorts its 5 V into whatever "
            + "source it is plugged into.",
        Evidence = "VBUS measured before an attach that is recorded as an event. The clause is from memory.",
        Example = new ScriptExample(
            """
            measured_at: source
            accuracy: {vbus_mv: 10, ibus_ma: 10}
            source: [5V 3A, 9V 3A]
            steps:
              - pause 800ms
              - measure 5V 0A every 100ms for 2s
              - attach
              - advertise
              - contract 2 at 3A
            """,
            "VBUS is at 5 V for two seconds before the attach."),
        Category = RuleCategory.Vbus,
    };

    /// <inheritdoc/>
    public override VbusHit? Check(VbusBeforeAttach cold) => cold.LeastMillivolts is not { } least ? null
        : Doubts.FromMemory.ToHit(
            cold.AttachUs, $"Before the attach VBUS was at {Voltage.FromMillivolts(least)} or more for {RunText.Time(cold.LastedUs)}, {cold.Samples} samples.",
            $"at most {Electrical.Safe0VMaximum} while nothing is attached", $"at least {Voltage.FromMillivolts(least)}");
}
