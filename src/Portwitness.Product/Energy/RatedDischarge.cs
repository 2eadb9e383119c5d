using Portwitness.Analysis.Evidence;
using Portwitness.Analysis.Phrases;
using Portwitness.Labels;
using Portwitness.Product.Decisions;

namespace Portwitness.Product.Energy;

/// <summary>The discharge that tells of a rated capacity.</summary>
/// <remarks>
/// The rated capacity holds at its printed voltage and current; of several discharges there the best one counts (GB/T 35590, effective
/// output capacity at rated voltage and current, second-hand; IEC 61960, one of up to five cycles, from memory).
/// </remarks>
/// <param name="Log">The log.</param>
/// <param name="Verdict">Whether so much came out.</param>
/// <param name="NextStep">What would settle it; empty where it is settled.</param>
internal sealed record RatedDischarge(MeasuredLog Log, Verdict Verdict, Phrase NextStep)
{
    /// <summary>"came out in 2 h 47 min under load, until the output went off".</summary>
    public Phrase HowText => $"came out in {EnergyText.Time(Log.LoadUs)} under load, {Ended}";

    /// <summary>Whether so much came out, under whatever conditions.</summary>
    public bool IsEnough { get; private init; }

    /// <summary>Whether it was a whole discharge with known units, so that only the meter is left to ask.</summary>
    public bool IsComparable => Log is { RanOut: true, UnitsAssumed: false, Log.AtVoltage: not null };

    private Phrase Ended => Log.End switch
    {
        LogEnd.CutOff => Phrase.Of($"to the cut-off of {Log.Log.CutOff}"),
        LogEnd.OutputOff => "until the output went off",
        LogEnd.LoadOff => "until the load was taken away",
        _ => "to the end of the log, with the output still on",
    };

    /// <summary>The one that gave most; null when none was logged on that basis.</summary>
    public static RatedDischarge? Of(ProductEnergy energy, PrintedBattery battery, int milliampereHours)
    {
        MeasuredLog? best = energy.Logs
            .Where(log => log.Log.Kind == LogKind.Discharge && log.Log.BegunFull != false && log.EverLoaded
                && (log.Log.AtVoltage is null || battery.RatedVoltage is null || log.Log.AtVoltage == battery.RatedVoltage))
            .MaxBy(static log => log.Charge.Value);
        if (best is null)
        {
            return null;
        }

        long rated = milliampereHours * 1000L;
        bool isEnough = (energy.Decision.TakesConditionalPass(best.Meter.States) ? best.Charge.Value : best.Charge.Least) >= rated;
        (Verdict verdict, Phrase? next) = isEnough ? Enough(best, battery) : TooLittle(best, battery, rated);
        return new RatedDischarge(best, verdict, next ?? Phrase.Empty) { IsEnough = isEnough };
    }

    // With a smaller current more comes out.
    private static (Verdict Verdict, Phrase? NextStep) Enough(MeasuredLog log, PrintedBattery battery) =>
        log.UnitsAssumed ? (Verdict.CannotTell, "State the units of the log's columns.")
        : battery.RatedVoltage is not null && log.Log.AtVoltage is null ? (Verdict.CannotTell, "State the voltage and current of the discharge: \"at: 5V 2A\".")
        : battery.RatedCurrent is { } printed && (log.Log.AtCurrent is not { } drawn || drawn < printed)
            ? (Verdict.CannotTell, $"Discharge with the rated {printed}, and state it with \"at:\".")
        : (Verdict.Holds, null);

    private static (Verdict Verdict, Phrase? NextStep) TooLittle(MeasuredLog log, PrintedBattery battery, long rated) =>
        !log.RanOut ? (Verdict.CannotTell, "Go on with the discharge until the output goes off, or to a stated cut-off.")
        : log.UnitsAssumed ? (Verdict.CannotTell, "State the units of the log's columns.")
        : battery.RatedVoltage is null ? (Verdict.CannotTell, "Ask at which voltage and current the capacity is rated; the label does not say.")
        : log.Log.AtVoltage is null ? (Verdict.CannotTell, "State the voltage and current of the discharge: \"at: 5V 2A\".")
        : battery.RatedCurrent is { } printed && (log.Log.AtCurrent is not { } drawn || drawn > printed)
            ? (Verdict.CannotTell, $"Discharge with no more than the rated {printed}, and state it with \"at:\".")
        : log.Charge.Most is not { } most ? (Verdict.CannotTell, "Discharge again with a log without gaps and steps of the clock.")
        : most >= rated ? (Verdict.CannotTell, log.Charge.MostCounted < rated ? "Discharge again with a log without gaps."
            : log.Meter.States ? "Discharge again with a more exact meter; the rated capacity lies within its uncertainty."
            : "State the meter's accuracy: \"accuracy: {volts: 0.1%, amps: 0.2%}\".")
        : (Verdict.Fails, null);
}
