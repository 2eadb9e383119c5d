using BenchmarkDotNet.Attributes;
using Portwitness.Captures;
using Portwitness.Captures.Formats;

namespace Portwitness.Benchmarks;

/// <summary>Reading pcapng: time a message of the reader alone, in one piece and in pieces that end within blocks.</summary>
[MemoryDiagnoser]
public class PcapngReading
{
    private const int Messages = 10_000;

    private byte[] _input = [];

    [Params(int.MaxValue, 16_384)]
    public int Piece { get; set; }

    [GlobalSetup]
    public void Convert()
    {
        using MemoryStream output = new();
        using (ICaptureWriter writer = CaptureFormats.Find("pcapng").Format!.Open(output, null))
        {
            CaptureReader reader = new(writer);
            reader.Write(MillionMessages.Capture(Messages));
            reader.Complete();
        }

        _input = output.ToArray();
    }

    [Benchmark(OperationsPerInvoke = Messages)]
    public long Read()
    {
        MessageCounter counter = new();
        CaptureReader reader = new(counter);
        for (int at = 0; at < _input.Length; at += Math.Min(Piece, _input.Length - at))
        {
            reader.Write(_input.AsSpan(at, Math.Min(Piece, _input.Length - at)));
        }

        reader.Complete();
        return counter.Messages;
    }
}
