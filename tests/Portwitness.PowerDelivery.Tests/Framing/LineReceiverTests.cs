using System.Text.Json;
using CsCheck;
using Portwitness.PowerDelivery.Framing;
using Portwitness.PowerDelivery.Tests.Support;

namespace Portwitness.PowerDelivery.Tests.Framing;

/// <summary>Sources: R3.2v1.1 chapter 5; the bits of the known frame are those of shared/vectors/line-code.json.</summary>
public sealed class LineReceiverTests
{
    private static readonly byte[] GoodCrc = [0x81, 0x00];

    // The standard's limits of fBitRate (R3.2v1.1, 5.8.1): 270, 300 and 330 kbit/s.
    public static TheoryData<int> Rates => [270_000, 300_000, 330_000];

    // The edges are worked out here from the listed bits, without the project's own transmitter or encoder.
    [Fact]
    public void KnownLineBits_GiveTheKnownMessage()
    {
        JsonElement frame = Vectors.Read("line-code.json").GetProperty("frames")[0];
        string bits = string.Concat(Enumerable.Repeat("01", 32))
            + frame.GetProperty("bits_after_preamble").GetString()!.Replace(" ", "");
        const long half = 1_666_667;
        LineRun run = new();
        LineReceiver receiver = new(run);
        long time = LineRun.Millisecond;
        receiver.Edge(time);
        foreach (char bit in bits)
        {
            if (bit == '1')
            {
                receiver.Edge(time + half);
            }

            time += 2 * half;
            receiver.Edge(time);
        }

        receiver.Complete(time + LineRun.Millisecond);
        KeptFrame read = run.Frames.Should().ContainSingle().Subject;
        read.Message.Should().Be(Convert.ToHexString(Vectors.ParseBytes(frame.GetProperty("bytes").GetString()!)));
        (read.Set, read.MatchingSymbols, read.CrcIsRight).Should().Be((OrderedSetKind.Sop, 4, true));
        (read.PreambleBits, read.IdleBefore, read.StrayEdges, read.Glitches).Should().Be((64, true, 0, 0));
        (read.StartPs, read.EndPs).Should().Be((LineRun.Millisecond, time));
        read.Quality.Should().Be(new LineQuality(300_000, 32, 300_000, 0));
    }

    [Theory]
    [InlineData(SopKind.Sop)]
    [InlineData(SopKind.SopPrime)]
    [InlineData(SopKind.SopDoublePrime)]
    [InlineData(SopKind.SopPrimeDebug)]
    [InlineData(SopKind.SopDoublePrimeDebug)]
    public void EverySopKind_IsReceived(SopKind sop)
    {
        KeptFrame read = LineRun.Of(new LineShape(), FrameEncoder.Encode(sop, GoodCrc)).Should().ContainSingle().Subject;
        (read.Set, read.Message, read.CrcIsRight, read.Break).Should().Be((OrderedSet.Of(sop), "8100", true, FrameBreak.None));
        read.Bytes.Should().Be("8100F5BB4163", "zlib's CRC of 81 00 is 0x6341BBF5");
    }

    [Theory]
    [InlineData(OrderedSetKind.HardReset)]
    [InlineData(OrderedSetKind.CableReset)]
    public void Reset_IsReceivedWithoutAnEndOfPacket(OrderedSetKind reset)
    {
        KeptFrame read = LineRun.Of(new LineShape(), FrameEncoder.EncodeReset(reset)).Should().ContainSingle().Subject;
        (read.Set, read.MatchingSymbols, read.Message, read.Break).Should().Be((reset, 4, "", FrameBreak.None));
        read.PreambleBits.Should().Be(64);
    }

    [Theory]
    [MemberData(nameof(Rates))]
    public void RateWithinTheStandard_IsMeasuredAndRead(int rate)
    {
        KeptFrame read = LineRun.Of(new LineShape { BitsPerSecond = rate }, Capabilities).Should().ContainSingle().Subject;
        read.CrcIsRight.Should().BeTrue();
        read.Quality.BitsPerSecond.Should().BeCloseTo(rate, 1);
        read.Quality.FrameBitsPerSecond.Should().BeCloseTo(rate, 1);
        read.Quality.WorstJitterPs.Should().BeLessThan(100);
    }

    // A rate that breaks the standard is read too, so that there is evidence.
    [Theory]
    [InlineData(215_000)]
    [InlineData(420_000)]
    public void RateOutsideTheStandard_IsMeasuredAndRead(int rate)
    {
        KeptFrame read = LineRun.Of(new LineShape { BitsPerSecond = rate }, Capabilities).Should().ContainSingle().Subject;
        (read.CrcIsRight, read.PreambleBits).Should().Be((true, 64));
        read.Quality.BitsPerSecond.Should().BeCloseTo(rate, 1);
    }

    // 200 ns of jitter, 250 ns between rising and falling edges, and 2 % of drift where the standard allows 0.25 %.
    [Theory]
    [MemberData(nameof(Rates))]
    public void JitterAsymmetryAndDrift_AreTolerated(int rate)
    {
        for (ulong seed = 0; seed < 50; seed++)
        {
            foreach (int drift in new[] { -20_000, 0, 20_000 })
            {
                LineShape shape = new() { BitsPerSecond = rate, JitterNs = 100, RiseLagNs = 250, DriftPpm = drift, Seed = seed };
                KeptFrame read = LineRun.Of(shape, Capabilities).Should().ContainSingle().Subject;
                (read.CrcIsRight, read.PreambleBits).Should().Be((true, 64));
            }
        }
    }

    [Fact]
    public void Jitter_IsMeasured()
    {
        KeptFrame read = LineRun.Of(new LineShape { JitterNs = 50, Seed = 3 }, Capabilities)[0];
        read.Quality.WorstJitterPs.Should().BeInRange(60_000, 110_000, "two edges of 50 ns either way, against an average");
        read = LineRun.Of(new LineShape { RiseLagNs = 200 }, Capabilities)[0];
        read.Quality.WorstJitterPs.Should().BeInRange(190_000, 215_000, "an interval is longer or shorter by the lag");
    }

    [Fact]
    public void Drift_IsMeasured()
    {
        byte[] longest = FrameEncoder.Encode(SopKind.Sop, new byte[264]);
        LineQuality quality = LineRun.Of(new LineShape { DriftPpm = 10_000 }, longest)[0].Quality;

        // The preamble's last 32 bits are at 2 % of the frame, the middle of the rest is at 51 %.
        quality.DriftPpm.Should().BeInRange(4_500, 5_200);
        LineRun.Of(new LineShape(), longest)[0].Quality.DriftPpm.Should().BeInRange(-3, 3);
    }

    // Where the line rests at the level with which the preamble begins, the first 0 shows no beginning.
    [Fact]
    public void LineIdleAtLow_HidesTheFirstBitOnly()
    {
        KeptFrame read = LineRun.Of(new LineShape { IdlesHigh = false }, FrameEncoder.Encode(SopKind.Sop, GoodCrc)).Single();
        (read.CrcIsRight, read.PreambleBits, read.StrayEdges).Should().Be((true, 63, 0));
    }

    [Fact]
    public void ManyFrames_AreReceivedInOrderWithTheirTimes()
    {
        List<KeptFrame> read = LineRun.Of(
            new LineShape(), Capabilities, FrameEncoder.Encode(SopKind.Sop, GoodCrc), FrameEncoder.EncodeReset(OrderedSetKind.HardReset));
        read.Select(frame => frame.Set).Should().Equal(OrderedSetKind.Sop, OrderedSetKind.Sop, OrderedSetKind.HardReset);
        read.Should().OnlyContain(frame => frame.IdleBefore && frame.PreambleBits == 64 && frame.Break == FrameBreak.None);
        read.Select(frame => frame.StartPs).Should().BeInAscendingOrder();
    }

    // R3.2v1.1, Table 5.3: a set with three right symbols of four may be accepted, and that it was is to be seen.
    [Theory]
    [InlineData(0)]
    [InlineData(1)]
    [InlineData(2)]
    [InlineData(3)]
    public void OneWrongSymbolOfTheSet_IsAcceptedAndTold(int place)
    {
        byte[] bits = FrameEncoder.Encode(SopKind.Sop, GoodCrc);
        "00000"u8.ToArray().Select(digit => (byte)(digit - '0')).ToArray().CopyTo(bits, 64 + (5 * place));
        KeptFrame read = LineRun.Of(new LineShape(), bits).Should().ContainSingle().Subject;
        (read.Set, read.MatchingSymbols, read.CrcIsRight).Should().Be((OrderedSetKind.Sop, 3, true));
        read.Symbols.Should().Contain("Invalid");
    }

    // The receiver looks for a set at every bit; this is what allows it to.
    [Fact]
    public void NoSet_ShowsInAPreambleOrBeforeAnotherSetIsWhole()
    {
        foreach (OrderedSetKind set in Enum.GetValues<OrderedSetKind>())
        {
            byte[] bits = OrderedSet.SopOf(set) is { } sop ? FrameEncoder.Encode(sop, GoodCrc) : FrameEncoder.EncodeReset(set);
            for (int end = 20; end < 84; end++)
            {
                SymbolKind[] symbols = [.. bits[(end - 20)..end].Chunk(5)
                    .Select(five => SymbolCode.Decode(five.Select((bit, place) => bit << place).Sum()).Kind)];
                OrderedSet.Match(symbols, out _).Should().BeNull($"{set}, bit {end}");
            }
        }
    }

    [Fact]
    public void WhateverIsSent_IsReceived() =>
        Gen.Select(
            Gen.Byte.Array[2, 300], Gen.Int[0, 4], Gen.Int[240_000, 370_000], Gen.Int[0, 200], Gen.Int[-200, 200], Gen.Bool,
            Gen.ULong).Sample((message, sop, rate, jitter, lag, idle, seed) =>
        {
            LineShape shape = new() { BitsPerSecond = rate, JitterNs = jitter, RiseLagNs = lag, IdlesHigh = idle, Seed = seed };
            KeptFrame read = LineRun.Of(shape, FrameEncoder.Encode((SopKind)sop, message)).Should().ContainSingle().Subject;
            read.Message.Should().Be(Convert.ToHexString(message));
            (read.Set, read.CrcIsRight).Should().Be((OrderedSet.Of((SopKind)sop), true));
        }, iter: 500);

    private static byte[] Capabilities => FrameEncoder.Encode(SopKind.Sop, Convert.FromHexString("A1412C9101082CD102002CB1040045410600"));
}
