using Portwitness.Analysis.Evidence;
using Portwitness.Analysis.Measuring;
using Portwitness.Analysis.Phrases;
using Portwitness.Analysis.Rules;
using Portwitness.Product.Arrangements;

namespace Portwitness.Product.Rules.Arrangements;

/// <summary>A port's power is interrupted when something is attached to another port, or detached from it.</summary>
public sealed class NeighbourInterrupted : ArrangementRule
{
    /// <inheritdoc/>
    public override RuleDescription Description { get; } = new()
    {
        Name = "neighbour-interrupted",
        Severity = Severity.Mismatch,
        Title = "Attaching or detaching at one port interrupts another",
        Clause = "R3.2v1.1 7.1.8; that a Hard Reset should be avoided is common practice",
        Why = "A charger can take power back without interrupting it: it offers less, and the device asks anew while VBUS stays. Where VBUS "
            + "goes instead, drives lose their data, displays go dark, and devices without a battery restart whenever a neighbour is plugged in.",
        Evidence = "The attach or detach as an event, and VBUS of the other port every millisecond or so. Who sent a Hard Reset is not on the line, "
            + "so that one that comes before VBUS falls cannot be told.",
        Example = new ScriptExample(
            """
            port: C1
            in_use: [C1]
            measured_at: source
            accuracy: {vbus_mv: 10, ibus_ma: 10}
            source: [5V 3A, 9V 3A]
            steps:
              - attach
              - advertise
              - contract 2 at 3A
              - pause 300ms
              - measure 9V 2.5A every 1ms for 100ms
              - attach C2
              - measure 0V 0A every 1ms for 200ms
              - measure 9V 2.5A every 1ms for 100ms
            """,
            "When C2 is attached, C1 has no power for a fifth of a second."),
        Category = RuleCategory.Arrangements,
    };

    /// <inheritdoc/>
    public override void Check(ProductArrangements product, IProductHitSink hits)
    {
        foreach (Transition one in product.Transitions.Where(one => one.IsInterrupted))
        {
            Phrase nextStep = one.IsAfterHardReset
                ? "Capture with an instrument that shows which side sends the Hard Reset, and with another device at the port."
                : one.Interruption is { SingleSample: true } ? "Sample VBUS more often, at least every millisecond: a single sample may be a misreading."
                : one.Interruption is { Overloaded: true } ? "Capture again with a load within the contract."
                : one is { Interruption: null, VbusOnUs: null } ? "Measure VBUS of the port: the receiver found it gone, and did not find it again."
                : one.UncertaintyUs > 0 ? "Record both ports on one clock: in one file, or with \"with\" and \"offset\" in the product file." : "";
            hits.Report(
                this,
                new Hit(nextStep.IsEmpty ? Verdict.Fails : Verdict.CannotTell, Text(one))
                {
                    Expected = "VBUS stays within the contract while less is offered, asked for and granted",
                    Observed = one.Interruption is { } lost ? Phrase.Of($"{InterruptionText.Duration(lost)}, down to {InterruptionText.Depth(lost)}")
                        : one.VbusOffUs is { } off ? one.VbusOnUs is { } on ? Phrase.Of($"VBUS gone for {InterruptionText.Milliseconds(on - off)}") : "VBUS gone"
                        : "a Hard Reset; VBUS was not measured",
                    NextStep = nextStep,
                },
                new ProductPlace(one.Port, one.InUse) { File = one.File, TimeUs = one.Interruption?.StartUs ?? one.HardResetUs ?? one.VbusOffUs });
        }
    }

    private static Phrase Text(Transition one)
    {
        Phrase when = Phrase.Of($"Something was {(one.Attached ? "attached to" : "detached from")} {one.Neighbour} at {InterruptionText.Seconds(one.AtUs)}")
            + (one.UncertaintyUs > 0 ? Phrase.Of($", give or take {InterruptionText.Milliseconds(one.UncertaintyUs)}") : "");
        Phrase next = one.ReadyUs is { } ready
            ? Phrase.Of($" The next contract was reached {InterruptionText.Milliseconds(ready - one.AtUs)} after that.") : " No other contract was seen.";
        if (one.Interruption is not { } lost)
        {
            Phrase vbus = one.VbusOffUs is { } off ? VbusEvents(one, off) : "VBUS was not measured";
            if (one.HardResetUs is not { } sent)
            {
                return $"{when}. {vbus}, without a Hard Reset.{next}";
            }

            Phrase gone = one.ReadyUs is { } back ? Phrase.Of($" {one.Port} was without a contract for {InterruptionText.Milliseconds(back - sent)}.") : next;
            return $"{when}. A Hard Reset of {one.Port} followed at {InterruptionText.Seconds(sent)}; {vbus}.{gone}";
        }

        Phrase how = lost.HardResetUs is not { } reset ? "without a Hard Reset"
            : lost.AfterHardReset ? Phrase.Of($"after a Hard Reset at {InterruptionText.Seconds(reset)}")
            : $"and a Hard Reset followed at {InterruptionText.Seconds(reset)}";
        return $"{when}. VBUS of {one.Port} left its contract ({lost.Contract?.Text}) at {InterruptionText.Seconds(lost.StartUs)} for "
            + $"{InterruptionText.Duration(lost)}, down to {InterruptionText.Depth(lost)}, {how}"
            + $"{(lost.EndUs is null ? "; it did not come back in the capture" : "")}.{next}";
    }

    // Events tell when the receiver noticed, which is not to the millisecond when VBUS went.
    private static Phrase VbusEvents(Transition one, long offUs) => one.VbusOnUs is { } on
        ? Phrase.Of($"VBUS of {one.Port} was found gone at {InterruptionText.Seconds(offUs)} and present again {InterruptionText.Milliseconds(on - offUs)} later")
        : $"VBUS of {one.Port} was found gone at {InterruptionText.Seconds(offUs)}, and not present again";
}
