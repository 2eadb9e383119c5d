using System.Collections.Immutable;
using Portwitness.Analysis.Phrases;
using Portwitness.PowerDelivery.Limits;
using Portwitness.PowerDelivery.Units;
using Portwitness.Product.Decisions;
using Portwitness.Product.Energy;

namespace Portwitness.Product.Loads;

/// <summary>That a port was loaded, and what it gave: out of a log, or as it was read and typed.</summary>
/// <param name="Port">The port.</param>
/// <param name="InUse">Ports in use.</param>
/// <param name="At">The printed voltage that it was loaded at.</param>
/// <param name="Microvolts">What it gave, the mean of a log.</param>
/// <param name="Microamperes">What was drawn, the mean of a log.</param>
/// <param name="TimeUs">For how long; null when it is not stated.</param>
/// <param name="Meter">The meter.</param>
/// <param name="LeftLimits">Whether the voltage read outside its limits for longer than a load step explains.</param>
/// <param name="Name">The log's file, or empty for a reading.</param>
public sealed record LoadEvidence(
    string Port, ImmutableArray<string> InUse, Voltage At, long Microvolts, long Microamperes, long? TimeUs, LogMeter Meter, bool LeftLimits, string Name)
{
    /// <summary>What was read at one instant says nothing of a load that lasts (common practice, no source).</summary>
    private const long ShortestUs = 10_000_000;

    /// <summary>How a reading near its limits is decided.</summary>
    public DecisionRule Decision { get; init; }

    /// <summary>Between which the voltage has to be.</summary>
    public VoltageBand Limits => VbusLimits.OfFixed(At);

    /// <summary>Whether the voltage was within its limits; by the guarded rule, whatever the meter may be off.</summary>
    public bool IsWithin => !LeftLimits && (Decision.TakesConditionalPass(Meter.States)
        ? Microvolts >= Limits.Minimum.Millivolts * 1000L && Microvolts <= Limits.Maximum.Millivolts * 1000L
        : Microvolts >= Meter.SurelyAbove(Limits.Minimum.Millivolts * 1000L) && Microvolts <= Meter.SurelyBelow(Limits.Maximum.Millivolts * 1000L));

    /// <summary>Whether it was held for long enough to say something.</summary>
    public bool IsLong => TimeUs is null or >= ShortestUs;

    /// <summary>Whether as much as this was drawn, as far as the meter can tell.</summary>
    public bool Draws(Current printed) => Microamperes + Meter.OfCurrent(Microamperes) >= printed.Milliamperes * 1000L;

    /// <summary>Watts as ratings are printed: the printed voltage times what was drawn at most. In µW.</summary>
    public long MostMicrowatts => At.Millivolts * (Microamperes + Meter.OfCurrent(Microamperes)) / 1_000;

    /// <summary>"4.92 V at 3 A for 10 min (a.csv)".</summary>
    public Phrase Text =>
        Phrase.Of($"{EnergyText.Volts(Microvolts)} at {EnergyText.Amperes(Microamperes)}")
        + (TimeUs is { } time ? Phrase.Of($" for {EnergyText.Time(time)}") : ", for how long is not stated")
        + (Name.Length > 0 ? Phrase.Of($" ({Name})") : "");

    /// <summary>All that there are: readings in the order of the file, then logs.</summary>
    public static ImmutableArray<LoadEvidence> Of(
        IEnumerable<LoadReading> readings, IEnumerable<MeasuredLog> logs, Func<string, string> named, DecisionRule decision) =>
    [
        .. readings.Select(one => new LoadEvidence(
            named(one.Port), [.. one.InUse.Select(named)], one.AtVoltage, one.Measured.Millivolts * 1000L, one.Drawn.Milliamperes * 1000L, one.ForUs, one.Meter, false, "")
            { Decision = decision }),
        .. logs.Where(static log => log is { Log: { Port: not null, Kind: LogKind.Discharge }, Mean: not null, UnitsAssumed: false } && log.Limits is not null)
            .Select(log => new LoadEvidence(
                named(log.Log.Port!), log.Log.InUse.IsEmpty ? [named(log.Log.Port!)] : [.. log.Log.InUse.Select(named)], log.Log.AtVoltage!.Value,
                log.Mean!.Value.Microvolts, log.Mean.Value.Microamperes, log.LoadUs, log.Meter,
                log.Above.Read?.LengthUs > VbusLimits.TransientUs || log.Below.Read?.LengthUs > VbusLimits.TransientUs, log.Log.File)
                { Decision = decision }),
    ];
}
