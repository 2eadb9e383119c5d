using Portwitness.Captures.Measurements;
using Portwitness.Captures.Quoted;
using Portwitness.Captures.Tables;
using Portwitness.Captures.Waveforms;

namespace Portwitness.Captures.Formats;

/// <summary>What a reader is told besides the bytes.</summary>
public sealed record CaptureReadOptions
{
    /// <summary>
    /// The port whose records are wanted from a file of several; null for the first one. Names are compared without
    /// regard to case. A file of one port is read whatever the name.
    /// </summary>
    public string? Port { get; init; }

    /// <summary>What is known of a recording of the CC line.</summary>
    public WaveformOptions Waveform { get; init; } = new();

    /// <summary>
    /// Which columns of a table hold what. Text that begins as no other format does is then read as a table; without it,
    /// only one whose first line has plain headings is.
    /// </summary>
    public TableMapping? Table { get; init; }

    /// <summary>Whether the text quotes lists, and how it writes objects; null when the text has to show it.</summary>
    public QuotedForm? Quoted { get; init; }

    /// <summary>Measurements that are to be joined in; null for none.</summary>
    public MeasurementOptions? Measurements { get; init; }
}
