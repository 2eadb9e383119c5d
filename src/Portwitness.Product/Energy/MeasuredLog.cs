using System.Collections.Immutable;
using Portwitness.Analysis.Plots;
using Portwitness.Captures;
using Portwitness.PowerDelivery.Limits;

namespace Portwitness.Product.Energy;

/// <summary>How a discharge ended.</summary>
public enum LogEnd
{
    /// <summary>The voltage stayed below the stated cut-off.</summary>
    CutOff,

    /// <summary>The output went off under load.</summary>
    OutputOff,

    /// <summary>The load was taken away, the output stayed on.</summary>
    LoadOff,

    /// <summary>The log ended; the load, if there was one, was still on.</summary>
    LogEnded,
}

/// <summary>The output went off under load.</summary>
/// <param name="AtUs">The log's time of the first row without output.</param>
/// <param name="Line">Its line.</param>
/// <param name="Microvolts">What the row before read.</param>
/// <param name="Microamperes">What the load drew in the row before.</param>
/// <param name="OffUs">How long it stayed off; null when it did not come back.</param>
public sealed record Collapse(long AtUs, long Line, long Microvolts, long Microamperes, long? OffUs);

/// <summary>A measured amount in µAh or µWh, and between which values it is.</summary>
/// <param name="Value">As counted.</param>
/// <param name="Least">With everything that may be wrong against it.</param>
/// <param name="Most">With everything in its favour, gaps included; null when nothing bounds it.</param>
/// <param name="MostCounted">The same without gaps, jumps and what came later than the end.</param>
public sealed record MeasuredAmount(long Value, long Least, long? Most, long MostCounted);

/// <summary>Everything that was learned of one log of power.</summary>
public sealed record MeasuredLog
{
    /// <summary>What the product file says of it.</summary>
    public required ProductLog Log { get; init; }

    /// <summary>The meter.</summary>
    public required LogMeter Meter { get; init; }

    /// <summary>Rows that were read.</summary>
    public required long Rows { get; init; }

    /// <summary>Charge in µAh; negative when it ran against the kind of log.</summary>
    public required MeasuredAmount Charge { get; init; }

    /// <summary>Energy in µWh; negative when it ran against the kind of log.</summary>
    public required MeasuredAmount Energy { get; init; }

    /// <summary>Charge in µAh that ran against the net direction.</summary>
    public required long ReverseMicroampereHours { get; init; }

    /// <summary>What a positive current was taken to mean.</summary>
    public required CurrentSign Sign { get; init; }

    /// <summary>How it ended.</summary>
    public required LogEnd End { get; init; }

    /// <summary>When it ended, in the log's time.</summary>
    public required long EndUs { get; init; }

    /// <summary>Whether a load was on at any time; always false of charges.</summary>
    public required bool EverLoaded { get; init; }

    /// <summary>Counted time with the load on and settled.</summary>
    public required long LoadUs { get; init; }

    /// <summary>Mean voltage and amount of the current in that time, in µV and µA; null without such time.</summary>
    public required (long Microvolts, long Microamperes)? Mean { get; init; }

    /// <summary>Lowest and highest voltage in that time, in µV.</summary>
    public required (long Low, long High)? Extremes { get; init; }

    /// <summary>The largest amount of the current in any row, in µA.</summary>
    public required long LargestMicroamperes { get; init; }

    /// <summary>Between which the voltage has to be; null when no nominal voltage is stated.</summary>
    public required VoltageBand? Limits { get; init; }

    /// <summary>The longest time above: by the reading, and surely.</summary>
    public required (Outside? Read, Outside? Sure) Above { get; init; }

    /// <summary>The longest time below: by the reading, surely, and by more than a cable may lose.</summary>
    public required (Outside? Read, Outside? Sure, Outside? BeyondCable) Below { get; init; }

    /// <summary>Times that the output went off under load; the first ones.</summary>
    public required ImmutableArray<Collapse> Collapses { get; init; }

    /// <summary>How many there were.</summary>
    public required long CollapseCount { get; init; }

    /// <summary>Gaps, and steps back of the clock.</summary>
    public required LogGaps Gaps { get; init; }

    /// <summary>The longest step that is no gap, in µs.</summary>
    public required long LongestStepUs { get; init; }

    /// <summary>A unit was taken because nothing states it.</summary>
    public required bool UnitsAssumed { get; init; }

    /// <summary>What could not be read.</summary>
    public required ImmutableArray<CaptureFault> Faults { get; init; }

    /// <summary>Voltage and current, thinned out for a plot.</summary>
    public required ImmutableArray<TraceSpan> Trace { get; init; }

    /// <summary>Power over the time under load; null for charges, and where no load was on for a minute at a stated voltage.</summary>
    public SustainedPower? Sustained { get; init; }

    /// <summary>How a charge went; null for discharges.</summary>
    public ChargeCurve? Charging { get; init; }

    /// <summary>Whether it can be reckoned with.</summary>
    public bool IsUsable => Rows > 1;

    /// <summary>Whether everything that was in the pack had come out when it ended.</summary>
    public bool RanOut => EverLoaded && End is LogEnd.CutOff or LogEnd.OutputOff;
}

/// <summary>Where a log does not say what happened.</summary>
/// <param name="Count">Steps longer than the longest that is no gap.</param>
/// <param name="TotalUs">Their time.</param>
/// <param name="LongestUs">The longest.</param>
/// <param name="LongestAtUs">Where in the log's time it begins.</param>
/// <param name="LongestLine">The line behind it.</param>
/// <param name="Jumps">Steps back of the clock.</param>
/// <param name="FirstJumpUs">How far the first one goes back.</param>
/// <param name="FirstJumpLine">The line behind it.</param>
public sealed record LogGaps(
    long Count, long TotalUs, long LongestUs, long LongestAtUs, long LongestLine, long Jumps, long FirstJumpUs, long FirstJumpLine)
{
    /// <summary>Whether there are any.</summary>
    public bool Any => Count > 0 || Jumps > 0;
}
