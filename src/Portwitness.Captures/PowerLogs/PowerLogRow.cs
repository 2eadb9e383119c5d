namespace Portwitness.Captures.PowerLogs;

/// <summary>One row of a log of power, as it was written down.</summary>
/// <param name="Line">The line of the file, counted from 1.</param>
/// <param name="TimeUs">Microseconds; those of a clock count from the first row. They may step back where the logger's clock does.</param>
/// <param name="Microvolts">Up to 1000 V of either sign.</param>
/// <param name="Microamperes">Up to 1000 A of either sign.</param>
public readonly record struct PowerLogRow(long Line, long TimeUs, long Microvolts, long Microamperes)
{
    /// <summary>The hottest surface, in thousandths of a °C; null where it was not read.</summary>
    public int? SurfaceMillidegrees { get; init; }

    /// <summary>The room, in thousandths of a °C; null where it was not read.</summary>
    public int? RoomMillidegrees { get; init; }
}

/// <summary>Takes what a log of power holds, in the order of the file. Readers never judge.</summary>
public interface IPowerLogSink
{
    /// <summary>A row of which time, volts and amps were read.</summary>
    void OnRow(in PowerLogRow row);

    /// <summary>A place that could not be used.</summary>
    void OnFault(CaptureFault fault);
}
