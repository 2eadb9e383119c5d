using System.Collections.Immutable;
using Portwitness.Captures.Archives;
using Portwitness.Captures.JsonLines;
using Portwitness.Captures.Pcapng;
using Portwitness.Captures.Waveforms;

namespace Portwitness.Captures.Formats;

/// <summary>A format that captures are written in.</summary>
/// <param name="Name">As options name it.</param>
/// <param name="Endings">How names of such files end, the usual one first.</param>
/// <param name="Open">Begins a capture on a stream; the second argument is told of faults of a conversion's input.</param>
public sealed record CaptureFormat(
    string Name, ImmutableArray<string> Endings, Func<Stream, Action<CaptureFault>?, ICaptureWriter> Open)
{
    /// <summary>Begins a capture on a stream, compressed or not; disposing the writer ends the compressed file, and leaves the stream open.</summary>
    public ICaptureWriter Begin(Stream stream, bool packed) => packed ? new PackedWriter(this, stream) : Open(stream, null);
}

/// <summary>The formats that captures can be written in. A new one is one line here.</summary>
public static class CaptureFormats
{
    /// <summary>All of them.</summary>
    public static ImmutableArray<CaptureFormat> All { get; } =
    [
        new("jsonl", [".jsonl", ".ndjson"], (stream, onFault) => new CaptureWriter(stream, onFault)),
        new("pcapng", [".pcapng", ".ntar"], (stream, onFault) => new PcapngWriter(stream, onFault)),
        new("vcd", [".vcd"], (stream, onFault) => new VcdWriter(stream, shape: null, onFault)),
    ];

    /// <summary>Finds a format by its name, or by that of a file; either may end in ".gz".</summary>
    /// <returns>The format, null when there is none of that name, and whether it is to be compressed.</returns>
    public static (CaptureFormat? Format, bool Packed) Find(string name)
    {
        bool packed = name.EndsWith(Gzip.Ending, StringComparison.OrdinalIgnoreCase);
        string plain = packed ? name[..^Gzip.Ending.Length] : name;
        CaptureFormat? found = All.FirstOrDefault(format =>
            format.Name.Equals(plain, StringComparison.OrdinalIgnoreCase)
            || format.Endings.Any(ending => plain.EndsWith(ending, StringComparison.OrdinalIgnoreCase)));
        return (found, packed);
    }
}
