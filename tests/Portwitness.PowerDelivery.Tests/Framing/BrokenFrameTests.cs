using CsCheck;
using Portwitness.PowerDelivery.Framing;
using Portwitness.PowerDelivery.Tests.Support;

namespace Portwitness.PowerDelivery.Tests.Framing;

/// <summary>What is no whole frame is told with its place, and never stops the receiver. Source: R3.2v1.1 chapter 5.</summary>
public sealed class BrokenFrameTests
{
    private static readonly LineShape Plain = new() { BitsPerSecond = 250_000 };

    // 250 kbit/s makes a bit 4 µs, and times easy to work out.
    private const long Bit = 4_000_000;

    private static byte[] Frame => FrameEncoder.Encode(SopKind.Sop, Convert.FromHexString("A1412C9101082CD102002CB1040045410600"));

    [Fact]
    public void SenderThatStops_IsNotEnded_WithWhatWasRead()
    {
        // Preamble, ordered set, two bytes of header and half of the next one.
        KeptFrame read = LineRun.Of(Plain, Frame[..(64 + 20 + 25)]).Should().ContainSingle().Subject;
        (read.Break, read.Bytes, read.Message, read.Set).Should().Be((FrameBreak.NotEnded, "A141", "", OrderedSetKind.Sop));
        read.BreakBit.Should().BeInRange(109, 111, "the sender's last edges may look like one more bit");
        read.BreakPs.Should().BeInRange(LineRun.Millisecond + (109 * Bit), LineRun.Millisecond + (111 * Bit));
    }

    [Fact]
    public void SenderThatStopsAnywhere_IsToldOnce()
    {
        for (int bits = 8; bits < Frame.Length; bits++)
        {
            List<KeptFrame> read = LineRun.Of(Plain, Frame[..bits], Frame);
            read.Should().HaveCount(2, $"{bits} bits");
            read[0].Break.Should().Be(FrameBreak.NotEnded, $"{bits} bits");
            read[1].CrcIsRight.Should().BeTrue();
        }
    }

    [Fact]
    public void InvalidSymbol_IsToldWithItsBit()
    {
        byte[] bits = Frame;

        // The third symbol after the set: 00000 stands for nothing.
        bits.AsSpan(64 + 20 + 10, 5).Clear();
        KeptFrame read = LineRun.Of(Plain, bits).Should().ContainSingle().Subject;
        (read.Break, read.BreakBit, read.BreakPs).Should().Be((FrameBreak.SymbolInvalid, 94, LineRun.Millisecond + (94 * Bit)));
        read.Bytes.Should().Be("A1");
    }

    [Fact]
    public void KCodeWithinAMessage_IsAnInvalidSymbol()
    {
        byte[] bits = Frame;
        new byte[] { 0, 0, 0, 1, 1 }.CopyTo(bits, 64 + 20);
        LineRun.Of(Plain, bits).Should().ContainSingle().Which.Break.Should().Be(FrameBreak.SymbolInvalid);
    }

    [Theory]
    [InlineData(5, "A1")]
    [InlineData(7, "A1412C")]
    [InlineData(10, "A1412C9101")]
    public void EndOfPacketTooEarly_IsTold(int symbol, string bytes)
    {
        byte[] bits = Frame[..(64 + 20 + (5 * symbol) + 5)];
        new byte[] { 1, 0, 1, 1, 0 }.CopyTo(bits, bits.Length - 5);
        KeptFrame read = LineRun.Of(Plain, bits).Should().ContainSingle().Subject;
        read.Break.Should().Be(FrameBreak.EndedTooEarly);
        read.BreakBit.Should().Be(64 + 20 + (5 * symbol));
        bytes.Should().StartWith(read.Bytes[..2]);
    }

    [Fact]
    public void UnknownOrderedSet_IsToldWithItsSymbols()
    {
        byte[] bits = Frame;

        // Two symbols of SOP, then two that are none.
        bits.AsSpan(64 + 10, 10).Clear();
        KeptFrame read = LineRun.Of(Plain, bits).Should().ContainSingle().Subject;
        (read.Break, read.BreakBit, read.Set, read.Bytes).Should().Be((FrameBreak.OrderedSetUnknown, 64, null, ""));
        (read.PreambleBits, read.Symbols).Should().Be((64, "Sync1 Sync1 Invalid Invalid"));
        read.Quality.BitsPerSecond.Should().Be(250_000);
    }

    [Theory]
    [InlineData(10)]
    [InlineData(32)]
    [InlineData(60)]
    public void ShortPreamble_IsReadAndCounted(int bits)
    {
        KeptFrame read = LineRun.Of(Plain, Frame[(64 - bits)..]).Should().ContainSingle().Subject;
        (read.CrcIsRight, read.PreambleBits, read.IdleBefore, read.StrayEdges).Should().Be((true, bits, true, 0));
        read.Quality.RateBits.Should().Be(Math.Min(bits, 32));
    }

    [Fact]
    public void NoPreamble_IsTold()
    {
        KeptFrame read = LineRun.Of(Plain, Frame[64..]).Should().ContainSingle().Subject;
        (read.Break, read.IdleBefore).Should().Be((FrameBreak.PreambleMissing, true));
        read.StartPs.Should().Be(LineRun.Millisecond);
    }

    [Fact]
    public void ShortPulse_IsLeftOutAndCounted()
    {
        List<LineEdge> edges = LineRun.Edges(Plain, Frame);
        InsertPulse(edges, LineRun.Millisecond + (100 * Bit) + (Bit / 4), 200_000);
        KeptFrame read = LineRun.Receive(edges).Should().ContainSingle().Subject;
        (read.CrcIsRight, read.Glitches).Should().Be((true, 1));
    }

    [Fact]
    public void LongerPulse_BreaksTheFrameThere()
    {
        List<LineEdge> edges = LineRun.Edges(Plain, Frame, Frame);
        InsertPulse(edges, LineRun.Millisecond + (100 * Bit) + (Bit / 8), 300_000);
        List<KeptFrame> read = LineRun.Receive(edges);
        (read[0].Break, read[0].BreakBit, read[0].BreakPs)
            .Should().Be((FrameBreak.EdgeMisplaced, 100, LineRun.Millisecond + (100 * Bit)));
        read[0].Bytes.Should().Be("A1", "16 bits after the set are three symbols, one byte and a half");
        read[^1].CrcIsRight.Should().BeTrue();
    }

    [Fact]
    public void PulseInThePreamble_DoesNotHideTheMessage()
    {
        List<LineEdge> edges = LineRun.Edges(Plain, Frame);
        InsertPulse(edges, LineRun.Millisecond + (20 * Bit) + (Bit / 8), 300_000);
        KeptFrame read = LineRun.Receive(edges).Should().ContainSingle().Subject;
        (read.CrcIsRight, read.Break).Should().Be((true, FrameBreak.None));
        read.PreambleBits.Should().BeInRange(30, 44);
        read.StrayEdges.Should().BeGreaterThan(0, "so that nobody takes the preamble for a short one");
    }

    [Fact]
    public void RecordingThatStopsWithinAFrame_SaysNothingOfTheSender()
    {
        List<LineEdge> edges = LineRun.Edges(Plain, Frame);
        LineRun run = new();
        LineReceiver receiver = new(run);
        edges.Take(140).ToList().ForEach(edge => receiver.Edge(edge.TimePs));
        receiver.Complete(edges[139].TimePs + 1_000_000);
        run.Frames.Should().ContainSingle().Which.Break.Should().Be(FrameBreak.RecordingStopped);
    }

    [Fact]
    public void RecordingThatBeginsWithinAFrame_ReadsTheNext()
    {
        List<LineEdge> edges = LineRun.Edges(Plain, Frame, Frame);
        LineRun run = new();
        LineReceiver receiver = new(run, edges[130].TimePs);
        edges.Skip(131).ToList().ForEach(edge => receiver.Edge(edge.TimePs));
        receiver.Complete(edges[^1].TimePs + LineRun.Millisecond);
        run.Frames.Should().HaveCount(2);
        (run.Frames[0].Break, run.Frames[0].IdleBefore).Should().Be((FrameBreak.PreambleMissing, false));
        (run.Frames[1].CrcIsRight, run.Frames[1].IdleBefore).Should().Be((true, true));
    }

    [Fact]
    public void GapInTheRecording_CutsTheFrame()
    {
        List<LineEdge> edges = LineRun.Edges(Plain, Frame, Frame);
        LineRun run = new();
        LineReceiver receiver = new(run);
        edges.Take(140).ToList().ForEach(edge => receiver.Edge(edge.TimePs));
        int second = edges.FindIndex(edge => edge.TimePs > LineRun.Millisecond + (2 * LineRun.Millisecond / 2) + edges[140].TimePs);
        receiver.Interrupt(edges[139].TimePs + 1, edges[139].TimePs + 1000);
        edges.Skip(Math.Max(second, 140)).ToList().ForEach(edge => receiver.Edge(edge.TimePs));
        receiver.Complete(edges[^1].TimePs + LineRun.Millisecond);
        run.Frames[0].Break.Should().Be(FrameBreak.RecordingStopped);
        run.Frames[^1].CrcIsRight.Should().BeTrue();
    }

    [Fact]
    public void EndlessMessage_IsTooLong_AndTheNextIsRead()
    {
        byte[] endless = [.. FrameEncoder.Encode(SopKind.Sop, new byte[1100])];
        List<KeptFrame> read = LineRun.Of(Plain, endless, Frame);
        read[0].Break.Should().Be(FrameBreak.TooLong);
        read[0].Bytes.Should().HaveLength(2 * 1028);
        read[^1].CrcIsRight.Should().BeTrue();
    }

    [Fact]
    public void FewEdgesOfAnIdleLine_AreNoFrame()
    {
        LineRun run = new();
        LineReceiver receiver = new(run);
        for (long time = 0; time < 1_000_000_000_000; time += 13_000_000)
        {
            receiver.Edge(time);
        }

        receiver.Complete(1_000_000_000_000);
        run.Frames.Should().BeEmpty();
    }

    [Fact]
    public void TimeGoingBack_IsABadCall()
    {
        LineReceiver receiver = new(new LineRun());
        receiver.Edge(5);
        receiver.Invoking(r => r.Edge(4)).Should().Throw<ArgumentOutOfRangeException>();
        ((Action)(() => _ = new LineReceiver(new LineRun(), -1))).Should().Throw<ArgumentOutOfRangeException>();
    }

    [Fact]
    public void RandomEdges_NeverThrow_AndAFrameAfterThemIsRead() =>
        Gen.Select(Gen.Long[0, 6_000_000].Array[0, 400], Gen.ULong).Sample((gaps, seed) =>
        {
            List<LineEdge> edges = [];
            long time = 0;
            foreach (long gap in gaps)
            {
                edges.Add(new LineEdge(time += gap, edges.Count % 2 == 0));
            }

            long shift = time;
            edges.AddRange(LineRun.Edges(new LineShape { Seed = seed }, Frame).Select(edge => edge with { TimePs = edge.TimePs + shift }));
            List<KeptFrame> read = LineRun.Receive(edges);
            read[^1].CrcIsRight.Should().BeTrue();
            read.Where(frame => frame.Break == FrameBreak.None && frame.CrcIsRight).Should().ContainSingle();
        }, iter: 2000);

    [Fact]
    public void FrameWithDamagedEdges_IsToldAtLeastOnce_AndTheNextIsRead() =>
        Gen.Select(Gen.Int[0, 280], Gen.Int[1, 6], Gen.Long[-1_900_000, 1_900_000]).Sample((first, count, shift) =>
        {
            List<LineEdge> edges = LineRun.Edges(Plain, Frame, Frame);
            for (int i = first; i < first + count; i++)
            {
                edges[i] = edges[i] with { TimePs = edges[i].TimePs + shift };
            }

            List<KeptFrame> read = LineRun.Receive([.. edges.OrderBy(edge => edge.TimePs)]);
            read.Count.Should().BeInRange(2, 4);
            (read[^1].CrcIsRight, read[^1].PreambleBits).Should().Be((true, 64));
        }, iter: 2000);

    [Fact]
    public void Receiving_AllocatesNothing()
    {
        long[] edges = [.. LineRun.Edges(Plain, Frame, Frame[..120]).Select(edge => edge.TimePs)];
        Counter counter = new();
        LineReceiver receiver = new(counter);
        Send(receiver, edges, 0);
        long before = GC.GetAllocatedBytesForCurrentThread();
        for (int round = 1; round < 100; round++)
        {
            Send(receiver, edges, round * 10 * LineRun.Millisecond);
        }

        (GC.GetAllocatedBytesForCurrentThread() - before).Should().Be(0);
        counter.Frames.Should().BeGreaterThan(190);
    }

    private static void Send(LineReceiver receiver, long[] edges, long shift)
    {
        foreach (long edge in edges)
        {
            receiver.Edge(edge + shift);
        }
    }

    private static void InsertPulse(List<LineEdge> edges, long time, long width)
    {
        int at = edges.FindIndex(edge => edge.TimePs > time);
        edges.InsertRange(at, [new LineEdge(time, edges[at].High), new LineEdge(time + width, !edges[at].High)]);
    }

    private sealed class Counter : ILineFrameSink
    {
        public int Frames { get; private set; }

        public void OnFrame(in LineFrame frame) => Frames++;
    }
}
