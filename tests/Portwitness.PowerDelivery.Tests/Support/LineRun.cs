using Portwitness.PowerDelivery.Framing;

namespace Portwitness.PowerDelivery.Tests.Support;

/// <summary>A frame that outlives the call that handed it over.</summary>
public sealed record KeptFrame(
    long StartPs, long EndPs, int PreambleBits, bool IdleBefore, int StrayEdges, int Glitches, OrderedSetKind? Set,
    int MatchingSymbols, string Symbols, string Bytes, string Message, bool CrcIsRight, FrameBreak Break, int BreakBit, long BreakPs,
    LineQuality Quality);

/// <summary>Keeps every frame that a receiver finds.</summary>
public sealed class LineRun : ILineFrameSink
{
    /// <summary>A millisecond, in picoseconds.</summary>
    public const long Millisecond = 1_000_000_000;

    public List<KeptFrame> Frames { get; } = [];

    /// <summary>Sends frames, a millisecond apart, and receives them.</summary>
    public static List<KeptFrame> Of(LineShape shape, params byte[][] frames) => Receive(Edges(shape, frames));

    public static List<LineEdge> Edges(LineShape shape, params byte[][] frames)
    {
        List<LineEdge> edges = [];
        LineTransmitter transmitter = new(shape);
        long time = Millisecond;
        foreach (byte[] frame in frames)
        {
            time = transmitter.Send(frame, time, edges) + Millisecond;
        }

        return edges;
    }

    public static List<KeptFrame> Receive(IReadOnlyList<LineEdge> edges)
    {
        LineRun run = new();
        LineReceiver receiver = new(run);
        foreach (LineEdge edge in edges)
        {
            receiver.Edge(edge.TimePs);
        }

        receiver.Complete((edges.Count == 0 ? 0 : edges[^1].TimePs) + Millisecond);
        return run.Frames;
    }

    public void OnFrame(in LineFrame frame) => Frames.Add(new KeptFrame(
        frame.StartPs, frame.EndPs, frame.PreambleBits, frame.IdleBefore, frame.StrayEdges, frame.Glitches, frame.Set,
        frame.MatchingSymbols, string.Join(' ', frame.Symbols.ToArray()), Convert.ToHexString(frame.Bytes),
        Convert.ToHexString(frame.Message), frame.CrcIsRight, frame.Break, frame.BreakBit, frame.BreakPs, frame.Quality));
}
