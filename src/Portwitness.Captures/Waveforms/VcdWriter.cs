using System.Buffers;
using System.Text;
using Portwitness.PowerDelivery.Framing;

namespace Portwitness.Captures.Waveforms;

/// <summary>Writes the CC line as a value change dump (IEEE 1364, 18.2) with one signal, "cc", in nanoseconds.</summary>
public sealed class VcdWriter : WaveformWriter
{
    private const long PsPerNs = 1000;

    private long _timeNs;

    /// <summary>A writer to a stream, which stays open.</summary>
    /// <param name="stream">Where the dump goes.</param>
    /// <param name="shape">How the frames are sent; null for 300 kbit/s without flaws.</param>
    /// <param name="onFault">Told of each fault of a conversion's input.</param>
    public VcdWriter(Stream stream, LineShape? shape = null, Action<CaptureFault>? onFault = null)
        : base(stream, shape ?? new LineShape(), onFault)
    {
    }

    private protected override void Begin(string? port, bool high)
    {
        // A name of a VCD file has no blanks.
        string scope = port is null || port.Any(letter => !char.IsAsciiLetterOrDigit(letter)) ? "port" : port;
        Put($"$version Portwitness $end\n$timescale 1 ns $end\n$scope module {scope} $end\n$var wire 1 ! cc $end\n"
            + $"$upscope $end\n$enddefinitions $end\n#0\n$dumpvars\n{(high ? '1' : '0')}!\n$end\n");
    }

    private protected override void Write(IReadOnlyList<LineEdge> edges)
    {
        foreach (LineEdge edge in edges)
        {
            PutTime(edge.TimePs);
            Put(edge.High ? "1!\n" : "0!\n");
        }

        FlushIfFull();
    }

    private protected override void End(long timePs) => PutTime(timePs);

    private void PutTime(long timePs)
    {
        _timeNs = Math.Max(_timeNs, (timePs + (PsPerNs / 2)) / PsPerNs);
        Span<byte> digits = stackalloc byte[24];
        _timeNs.TryFormat(digits, out int length);
        Output.Write("#"u8);
        Output.Write(digits[..length]);
        Output.Write("\n"u8);
    }

    private void Put(string text) => Encoding.UTF8.GetBytes(text, Output);
}
