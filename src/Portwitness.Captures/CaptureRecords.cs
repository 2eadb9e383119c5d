namespace Portwitness.Captures;

/// <summary>Signals that are no messages (R3.2v1.1, 5.6.4 and 5.6.5).</summary>
public enum SignalKind
{
    /// <summary>Hard Reset.</summary>
    HardReset,

    /// <summary>Cable Reset.</summary>
    CableReset,
}

/// <summary>A reset signal.</summary>
/// <param name="TimeUs">Microseconds from the start.</param>
/// <param name="Line">Line of the input, counted from 1.</param>
/// <param name="Kind">Which signal.</param>
public sealed record SignalRecord(long TimeUs, long Line, SignalKind Kind)
{
    /// <summary>How well it was sent, when the line itself was recorded.</summary>
    public FrameQuality Quality { get; init; }

    /// <summary>Members that version 1 of the format does not define, as a JSON object; null when there were none.</summary>
    public string? Extra { get; init; }
}

/// <summary>Voltage and current measured on the captured port.</summary>
/// <param name="TimeUs">Microseconds from the start.</param>
/// <param name="Line">Line of the input, counted from 1.</param>
/// <param name="VbusMillivolts">VBUS, in millivolts; null when not measured.</param>
/// <param name="IbusMilliamperes">Current out of the port, in milliamperes; null when not measured.</param>
public sealed record MeasurementRecord(long TimeUs, long Line, int? VbusMillivolts, int? IbusMilliamperes)
{
    /// <summary>Members that version 1 of the format does not define, as a JSON object; null when there were none.</summary>
    public string? Extra { get; init; }
}

/// <summary>Something that happened at the bench; <see cref="CaptureEvents"/> has the words.</summary>
/// <param name="TimeUs">Microseconds from the start.</param>
/// <param name="Line">Line of the input, counted from 1.</param>
/// <param name="Name">The event's word.</param>
/// <param name="Port">The port concerned; null for the captured one.</param>
/// <param name="Value">What rp or line were seen to be, for example "3A" or "bc1.2-dcp".</param>
public sealed record EventRecord(long TimeUs, long Line, string Name, string? Port, string? Value)
{
    /// <summary>Members that version 1 of the format does not define, as a JSON object; null when there were none.</summary>
    public string? Extra { get; init; }
}

/// <summary>A place in the input that could not be used; what is before and after it was read.</summary>
/// <param name="Line">Counted from 1; 0 when the input has no lines.</param>
/// <param name="Column">Counted from 1, in bytes; 0 when not known.</param>
/// <param name="Code">A stable word, one of <see cref="FaultCodes"/>.</param>
/// <param name="Detail">What was found, what was expected, what to do.</param>
public sealed record CaptureFault(long Line, long Column, string Code, string Detail);
