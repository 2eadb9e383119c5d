using Portwitness.Analysis.Evidence;
using Portwitness.Analysis.Measuring;
using Portwitness.Analysis.Phrases;
using Portwitness.PowerDelivery.Units;

namespace Portwitness.Analysis.Rules.Vbus;

/// <summary>The load takes more than its contract allows.</summary>
public sealed class LoadBeyondContract : VbusSegmentRule
{
    /// <inheritdoc/>
    public override RuleDescription Description { get; } = new()
    {
        Name = "load-beyond-contract",
        Severity = Severity.Note,
        Title = "The load takes more than was agreed",
        Clause = "R3.2v1.1 6.4.2.8",
        Why = "Fixed, variable, battery and AVS supplies do not limit the current: keeping to the contract is up to the load. What VBUS does "
            + "meanwhile is not the source's fault; for a fair test the load has to stay within the contract.",
        Evidence = "The current under a contract, more than the instrument's accuracy above it.",
        Example = new ScriptExample(
            """
            measured_at: source
            accuracy: {vbus_mv: 10, ibus_ma: 10}
            source: [5V 3A, 9V 3A, PPS 3.3-11V 3A]
            steps:
              - attach
              - advertise
              - contract 2 at 2A
              - pause 300ms
              - measure 9V 2.5A every 5ms for 100ms
            """,
            "The load takes 2.5 A where 2 A were agreed."),
        Category = RuleCategory.Vbus,
    };

    /// <inheritdoc/>
    public override VbusHit? Check(VbusSegment segment)
    {
        if (segment.Terms is { Kind: null } or { IsPps: true } || segment.Overload.Longest is not { Samples: >= 2 } run)
        {
            return null;
        }

        Current seen = Current.FromMilliamperes(run.Extreme);
        Phrase agreed = segment.Terms.Current is { } amperes ? $"{amperes}" : Phrase.Of($"{segment.Terms.Power}");
        return new VbusHit(
            new Hit(
                Verdict.CannotTell,
                $"The load took {seen} under {segment.Terms.Text}: {run.Extent()}, ±{segment.Instrument.OfCurrent(run.Extreme)} mA.")
            {
                IsNote = true, Position = segment.Terms.Position, Expected = $"at most {agreed}", Observed = $"{seen}, {run.Extent()}",
            },
            run.StartUs);
    }
}
