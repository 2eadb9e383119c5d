using BenchmarkDotNet.Attributes;
using Portwitness.Analysis;
using Portwitness.Analysis.Conversation;
using Portwitness.Synthesis;

namespace Portwitness.Benchmarks;

/// <summary>A PPS conversation of 100,000 messages as it should be, from bytes to findings, with the rules of sequence and timing.</summary>
[MemoryDiagnoser]
public class ConversationChecking
{
    /// <summary>Messages in the capture: list and contract with their GoodCRCs, then rounds of six.</summary>
    public const int Messages = 8 + (6 * 16_665) + 2;

    private readonly byte[] _capture = Capture();

    /// <summary>All of it.</summary>
    [Benchmark(OperationsPerInvoke = Messages)]
    public long Analyse()
    {
        CaptureAnalyzer analyzer = new(new CaptureOptions { File = "benchmark" });
        analyzer.Write(_capture);
        return analyzer.Complete().MessageCount;
    }

    /// <summary>The capture's bytes.</summary>
    public static byte[] Capture()
    {
        SynthesisScript script = ScriptReader.Read(
            """
            source: [5V 3A, 9V 3A, PPS 5-11V 3A]
            steps:
              - attach
              - advertise
              - contract 3 at 9V 3A
              - contract 3 at 9V 3A every 8s for 133320s
              - send source Get_Sink_Cap
            """);
        using MemoryStream all = new();
        foreach (ReadOnlyMemory<byte> piece in Synthesizer.Write(script))
        {
            all.Write(piece.Span);
        }

        return all.ToArray();
    }
}
