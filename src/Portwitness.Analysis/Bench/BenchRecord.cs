using System.Collections.Immutable;
using Portwitness.Analysis.Measuring;
using Portwitness.Analysis.Profile;

namespace Portwitness.Analysis.Bench;

/// <summary>What happened at the bench during one capture, on its own clock.</summary>
public sealed record BenchRecord
{
    /// <summary>Date and time of time 0; null when not stated.</summary>
    public required DateTimeOffset? Started { get; init; }

    /// <summary>The last record.</summary>
    public required long EndUs { get; init; }

    /// <summary>Which ports were in use from when on, from time 0.</summary>
    public required ImmutableArray<ArrangementSpan> Spans { get; init; }

    /// <summary>Attaches and detaches, of the captured port and of others.</summary>
    public required ImmutableArray<PortEvent> Events { get; init; }

    /// <summary>Where VBUS of the captured port left its contract.</summary>
    public required ImmutableArray<Interruption> Interruptions { get; init; }

    /// <summary>What ports were seen to answer to besides USB PD, each once.</summary>
    public required ImmutableArray<PortSignal> Signals { get; init; }

    /// <summary>Whether VBUS was measured.</summary>
    public required bool MeasuresVbus { get; init; }

    /// <summary>Where the receiver found VBUS of the captured port present or gone.</summary>
    public required ImmutableArray<VbusEvent> VbusEvents { get; init; }

    /// <summary>What came before lists of the port and may say why they changed, in order.</summary>
    public required ImmutableArray<Forewarning> Forewarnings { get; init; }
}

/// <summary>The receiver found VBUS of the captured port present, or gone.</summary>
/// <param name="TimeUs">Microseconds from the start of the capture.</param>
/// <param name="IsOn">Present, or gone.</param>
public sealed record VbusEvent(long TimeUs, bool IsOn);

/// <summary>Something was attached to a port, or detached from it.</summary>
/// <param name="TimeUs">Microseconds from the start of the capture.</param>
/// <param name="Port">The port.</param>
/// <param name="Attached">Attached, or detached.</param>
public sealed record PortEvent(long TimeUs, string Port, bool Attached)
{
    /// <summary>So much the time may be off, where another capture recorded it.</summary>
    public long UncertaintyUs { get; init; }
}

/// <summary>What a port was seen to answer to besides USB PD.</summary>
/// <param name="TimeUs">Microseconds from the start of the capture.</param>
/// <param name="Port">The port.</param>
/// <param name="Word">As the capture writes it, for example "bc1.2-dcp"; an Rp of 3 A is "type-c-3A".</param>
/// <param name="InUse">Ports in use then.</param>
public sealed record PortSignal(long TimeUs, string Port, string Word, ImmutableArray<string> InUse);
