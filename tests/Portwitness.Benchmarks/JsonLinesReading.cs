using BenchmarkDotNet.Attributes;
using Portwitness.Captures.Formats;

namespace Portwitness.Benchmarks;

/// <summary>Reading JSON Lines: time a message of the reader alone.</summary>
[MemoryDiagnoser]
public class JsonLinesReading
{
    private const int Messages = 10_000;

    private readonly byte[] _input = MillionMessages.Capture(Messages);

    [Benchmark(OperationsPerInvoke = Messages)]
    public long Read()
    {
        MessageCounter counter = new();
        CaptureReader reader = new(counter);
        reader.Write(_input);
        reader.Complete();
        return counter.Messages;
    }
}
