using Portwitness.Testing;

namespace Portwitness.Synthesis.Tests;

/// <summary>Times are within R3.2v1.1 Tables 6.68 and 5.18; all limits here are in microseconds and from those tables.</summary>
public class SynthesisTimeTests
{
    private const string Steps =
        """
        cable: EPR
        source: [5V 3A epr, 9V 3A, SPR AVS 3A/5A, PPS 5-11V 3A, 28V 5A, EPR AVS 15-28V 140W]
        sink: [5V 3A]
        steps:
          - attach
          - advertise
          - advertise
          - contract 2 at 3A
          - get-sink-cap
          - contract 4 at 5V 3A
          - contract 4 at 5.5V 3A
          - contract 4 at 9V 3A
          - contract 3 at 12V 3A
          - contract 3 at 13V 3A
          - contract 3 at 9V 3A
          - request 2 at 3A
          - wait
          - request 2 at 3A with bad-crc
          - no-answer
          - enter-epr at 140W
          - contract 5 at 3A
        """;

    private static readonly string Script = Steps.Replace("contract 5 at 3A", "contract 8 at 5A");

    [Theory]
    [InlineData(0, 0)]
    [InlineData(10_000, 1)]
    [InlineData(10_000, 77)]
    public void Gaps_AreWithinTheStandard(int jitter, int seed)
    {
        Synthesised capture = Synthesised.Of($"jitter_us: {jitter}\nseed: {seed}\n{Script}");
        List<SentMessage> messages = capture.Messages;

        for (int i = 1; i < messages.Count; i++)
        {
            long gap = messages[i].TimeUs - messages[i - 1].EndUs;
            gap.Should().BeGreaterThanOrEqualTo(25, "tInterFrameGap, before record {0}", i);
            if (messages[i].Name == "GoodCRC")
            {
                gap.Should().BeLessThanOrEqualTo(195, "tTransmit");
            }
        }

        long vbusOn = capture.Events.Single(e => e.Name == "vbus-on").TimeUs;
        vbusOn.Should().BeInRange(0, 275_000, "tSrcTurnOn");
        SentMessage[] lists = [.. capture.Spoken.Where(m => m.Name == "Source_Capabilities")];
        (lists[0].TimeUs - vbusOn).Should().BeInRange(0, 250_000, "tFirstSourceCap");
        (lists[1].TimeUs - lists[0].TimeUs).Should().BeInRange(100_000, 200_000, "tTypeCSendSourceCap");
        foreach (string answer in new[] { "Accept", "Wait", "Sink_Capabilities", "Request", "EPR_Request", "EPR_Mode" })
        {
            IEnumerable<long> gaps = messages.Select((m, i) => (m, i)).Where(p => p.m.Name == answer && p.i > 0)
                .Select(p => p.m.TimeUs - messages[p.i - 1].EndUs);
            gaps.Where(gap => gap < 25_000).Should().OnlyContain(gap => gap <= 15_000, "tReceiverResponse of {0}", answer);
        }
    }

    [Fact]
    public void PowerTransitions_TakeWhatTheirKindMayTake()
    {
        Synthesised capture = Synthesised.Of("jitter_us: 10000\n" + Script);

        // Fixed; into PPS; 500 mV; 3.5 V; into AVS; 1 V; 4 V; EPR fixed: least and most of each.
        (long Least, long Most)[] limits =
        [
            (25_000, 325_000), (25_000, 325_000), (0, 25_000), (0, 275_000), (0, 700_000), (0, 50_000), (0, 700_000), (25_000, 760_000),
        ];
        long[] taken = [.. capture.Messages.Select((m, i) => (m, i)).Where(p => p.m.Name == "PS_RDY")
            .Select(p => p.m.TimeUs - capture.Messages[p.i - 1].EndUs)];
        taken.Should().HaveCount(limits.Length);
        taken.Zip(limits).Should().OnlyContain(p => p.First >= p.Second.Least && p.First <= p.Second.Most);
        taken[2].Should().BeLessThan(taken[3]);
        taken[5].Should().BeLessThan(taken[6]);
    }

    [Fact]
    public void RetryAndWait_KeepTheirTimes()
    {
        Synthesised capture = Synthesised.Of(Script);
        SentMessage[] requests = [.. capture.Messages.Where(m => m.Name == "Request")];
        SentMessage wait = capture.Only("Wait");
        SentMessage bad = requests.Single(m => m.CrcOk == false);

        (bad.TimeUs - wait.EndUs).Should().BeGreaterThanOrEqualTo(100_000, "tSinkRequest");
        // tReceive 0.9 to 1.1 ms, then tRetry of at most 195 us.
        (requests[^1].TimeUs - bad.EndUs).Should().BeInRange(900, 1_295);
        SentMessage acknowledged = capture.Messages[capture.Messages.IndexOf(requests[^1]) + 1];
        (capture.Messages[capture.Messages.IndexOf(acknowledged) + 1].TimeUs - acknowledged.EndUs)
            .Should().BeGreaterThanOrEqualTo(27_000, "tSenderResponse");
    }

    [Theory]
    [InlineData("[attach, advertise, hard-reset, advertise]", 660_000, 1_000_000)]
    [InlineData("[attach, advertise, enter-epr at 140W, hard-reset, advertise]", 1_085_000, 1_425_000)]
    public void HardReset_TakesVbusAwayAndBack(string steps, long least, long most)
    {
        Synthesised capture = Synthesised.Of($"cable: EPR captive\nsource: [5V 3A, 28V 5A]\nsteps: {steps}");

        long reset = capture.Signals.Single().TimeUs;
        long[] vbus = [.. capture.Events.Where(e => e.Name.StartsWith("vbus") && e.TimeUs > reset).Select(e => e.TimeUs)];
        (vbus[0] - reset).Should().BeInRange(25_000, 35_000, "tPSHardReset");
        (vbus[1] - vbus[0]).Should().BeLessThanOrEqualTo(650_000, "tSafe0V");
        (vbus[2] - vbus[1]).Should().BeInRange(least, most, "tSrcRecover");
        (capture.Messages[^2].TimeUs - vbus[2]).Should().BeLessThanOrEqualTo(250_000, "tFirstSourceCap");
    }

    [Fact]
    public void ReadyAfter_CountsFromAccept()
    {
        Synthesised capture = Synthesised.Of(
            "source: [5V 3A, 9V 3A]\nsteps: [advertise, request 2 at 3A, accept, pause 28ms, measure 5V, ready after 126ms]");

        SentMessage acknowledged = capture.Messages[capture.Messages.IndexOf(capture.Only("PS_RDY")) - 1];
        (capture.Only("PS_RDY").TimeUs - acknowledged.EndUs).Should().Be(126_000);
    }

    [Fact]
    public void SameScript_GivesTheSameBytes()
    {
        string jittered = "jitter_us: 900\nseed: 5\n" + Script;

        Synthesised.Bytes(Script).Should().Equal(Synthesised.Bytes(Script));
        Synthesised.Bytes(jittered).Should().Equal(Synthesised.Bytes(jittered));
        Synthesised.Bytes(jittered).Should().NotEqual(Synthesised.Bytes(jittered.Replace("seed: 5", "seed: 6")));
    }

    [Fact]
    public void TwoHours_AreWrittenInPiecesOfBoundedSize()
    {
        SynthesisScript script = ScriptReader.Read(
            """
            source: [5V 3A, PPS 5-11V 3A]
            steps:
              - attach
              - advertise
              - contract 2 at 9V 3A
              - repeat every 8s for 2h: [contract 2 at 9V 3A, measure 9V 3A every 5ms for 7.9s]
            """);
        script.Faults.Should().BeEmpty();
        (long lines, int longest) = (0, 0);
        foreach (ReadOnlyMemory<byte> piece in Synthesizer.Write(script))
        {
            piece.Span[^1].Should().Be((byte)'\n');
            longest = Math.Max(longest, piece.Length);
            lines += piece.Span.Count((byte)'\n');
        }

        // 900 rounds of 6 messages and 1580 measurements; attach, vbus-on, a list with its GoodCRC, a contract; the header.
        script.Records.Should().Be((900 * (6 + 1580)) + 10);
        lines.Should().Be(script.Records + 1);
        longest.Should().BeLessThan(80 * 1024);
        script.DurationUs.Should().BeInRange(7_200_000_000, 7_201_000_000);
    }

    [Fact]
    public void RecordsThatAreForetold_AreThoseThatAreWritten()
    {
        string text = "source: [5V 3A, PPS 5-11V 3A]\nsteps: [attach, advertise, {repeat 7 every 30s: [contract 2 at 9V 3A, {repeat 5: [advertise, contract 1 at 1A, hard-reset, advertise]}]}]";

        ScriptReader.Read(text).Records.Should().Be(Synthesised.Of(text).Records);
    }
}
