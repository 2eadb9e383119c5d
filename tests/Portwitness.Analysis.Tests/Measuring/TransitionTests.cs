using Portwitness.Analysis.Measuring;
using Portwitness.Captures;

namespace Portwitness.Analysis.Tests.Measuring;

/// <summary>VBUS on its way (R3.2v1.1, Tables 6.68, 7.23 and 7.25). Accept is at 0; 10 ms are left for its GoodCRC, 1 µs for the clock.</summary>
public class TransitionTests
{
    private const long Slack = VbusSegment.GoodCrcUs + 1;

    public static TheoryData<string, long> Deadlines() => new()
    {
        { "9 V", 310_000 }, // tSrcTransition 35 + tSrcSettle 275 ms
        { "28 V", 735_000 }, // 35 + 700 ms in EPR mode
        { "PPS entered", 310_000 },
        { "PPS +0.5 V", 25_000 }, // tPpsSrcTransSmall
        { "PPS +0.52 V", 275_000 }, // tPpsSrcTransLarge
        { "PPS of another object", 310_000 },
        { "AVS entered", 700_000 }, // tAvsSrcTransLarge
        { "AVS +1 V", 50_000 }, // tAvsSrcTransSmall
        { "AVS +1.1 V", 700_000 },
    };

    private static (VbusTerms Terms, VbusTerms Before) Step(string name) => name switch
    {
        "9 V" => (Vbus.Fixed(9), Vbus.Fixed(5)),
        "28 V" => (Vbus.Fixed(28, 5000, 8, epr: true), Vbus.Fixed(20)),
        "PPS entered" => (Vbus.Pps(9_000), Vbus.Fixed(5)),
        "PPS +0.5 V" => (Vbus.Pps(9_500), Vbus.Pps(9_000)),
        "PPS +0.52 V" => (Vbus.Pps(9_520), Vbus.Pps(9_000)),
        "PPS of another object" => (Vbus.Pps(9_500), Vbus.Pps(9_000, limited: true)),
        "AVS entered" => (Vbus.Avs(12_000), Vbus.Fixed(9)),
        "AVS +1 V" => (Vbus.Avs(13_000), Vbus.Avs(12_000)),
        _ => (Vbus.Avs(13_100), Vbus.Avs(12_000)),
    };

    [Theory]
    [MemberData(nameof(Deadlines))]
    public void Settling_IsAllowedUntilTheStandardsTime(string name, long limitUs)
    {
        (VbusTerms terms, VbusTerms before) = Step(name);

        terms.SettleUs(before).Should().Be(limitUs);
        new VbusSegment(terms, before, Vbus.Exact, 1_000, 1).DeadlineUs.Should().Be(1_000 + limitUs + Slack);
    }

    // The sample before has to be past the deadline too; up to there, PS_RDY was too soon, which is from memory.
    [Theory]
    [InlineData(310_000 + Slack, "vbus-transition-late cannot tell")]
    [InlineData(310_000 + Slack + 1, "vbus-transition-late fails")]
    public void ArrivalAfterTheDeadline_IsLate(long firstLowUs, string found)
    {
        VbusSegment segment = Vbus.Segment(Vbus.Fixed(9));
        segment.OnReady(100_000);
        segment.Add(new Sample(150_000, 8_000, 0));
        segment.Add(new Sample(200_000, 8_000, 0));
        segment.Add(new Sample(250_000, 8_000, 0));
        segment.Add(new Sample(firstLowUs, 8_000, 0));
        segment.Add(new Sample(firstLowUs + 1, firstLowUs > 310_000 + Slack ? 8_000 : 9_000, 0));
        segment.Add(new Sample(firstLowUs + 2, firstLowUs > 310_000 + Slack ? 8_000 : 9_000, 0));
        Settle(segment, firstLowUs + 2);

        Vbus.Found(segment).Should().Be(found);
    }

    [Theory]
    [InlineData(1, "cannot tell")]
    [InlineData(2, "fails")]
    public void LatenessNeedsTwoSettledSamples(int samples, string verdict)
    {
        VbusSegment segment = Vbus.Segment(Vbus.Fixed(9));
        segment.OnReady(100_000);
        long at = 310_000 + Slack + 1;
        segment.Add(new Sample(at, 8_000, 0));
        for (int i = 0; i < samples; i++)
        {
            segment.Add(new Sample(at += 5_000, 8_000, 0));
        }

        Settle(segment, at);

        Vbus.Found(segment).Should().Be($"vbus-transition-late {verdict}");
    }

    [Theory]
    [InlineData(8_050, "")] // vSrcValid: a load step
    [InlineData(8_049, "vbus-transition-late fails")]
    public void Lateness_IsBeyondWhatALoadStepMayDo(int volts, string found)
    {
        VbusSegment segment = Vbus.Segment(Vbus.Fixed(9));
        segment.OnReady(100_000);
        for (long at = 330_000; at < 360_000; at += 5_000)
        {
            segment.Add(new Sample(at, volts, 0));
        }

        Settle(segment, 360_000);

        Vbus.Found(segment).Should().Be(found);
    }

    [Fact]
    public void FallingVoltage_IsLateFromAbove()
    {
        VbusSegment segment = Vbus.Segment(Vbus.Fixed(5), before: Vbus.Fixed(20));
        segment.OnReady(100_000);
        for (long at = 200_000; at < 500_000; at += 5_000)
        {
            segment.Add(new Sample(at, 12_000, 0));
        }

        Settle(segment, 500_000, 5_000);

        Vbus.Found(segment).Should().Be("vbus-transition-late fails");
    }

    [Theory]
    [InlineData(24_998, "vbus-moved-too-early fails")]
    [InlineData(24_999, "")] // 25 ms less the clock's step
    public void VbusStays_ForTheFirst25Ms(long at, string found)
    {
        VbusSegment segment = Vbus.Segment(Vbus.Fixed(9));
        segment.Add(new Sample(1_000, 5_000, 0));
        segment.Add(new Sample(at, 6_001, 0));
        segment.OnReady(100_000);
        Settle(segment, 400_000);

        Vbus.Found(segment).Should().Be(found);
    }

    [Theory]
    [InlineData(6_000, "")] // vSafe5V with vSrcValid
    [InlineData(6_001, "vbus-moved-too-early fails")]
    public void EarlyMove_IsBeyondWhatIsValid(int volts, string found)
    {
        VbusSegment segment = Vbus.Segment(Vbus.Fixed(9));
        segment.Add(new Sample(10_000, volts, 0));
        segment.OnReady(100_000);
        Settle(segment, 400_000);

        Vbus.Found(segment).Should().Be(found);
    }

    [Fact]
    public void EarlyMoveDown_NeedsPlaceAndLoad()
    {
        string At(MeasuringPoint point, int? amps)
        {
            VbusSegment segment = Vbus.Segment(Vbus.Fixed(5), Vbus.At(point, 0, 0), before: Vbus.Fixed(9));
            segment.Add(new Sample(10_000, 8_049, amps));
            segment.OnReady(100_000);
            Settle(segment, 400_000, 5_000);
            return Vbus.Found(segment);
        }

        At(MeasuringPoint.Source, 500).Should().Be("vbus-moved-too-early fails");
        At(MeasuringPoint.Source, null).Should().Be("vbus-moved-too-early cannot tell");
        At(MeasuringPoint.Sink, 500).Should().Be("vbus-moved-too-early cannot tell");
        At(MeasuringPoint.Source, 3_001).Should().BeEmpty();
    }

    [Fact]
    public void StepWithinOnePpsObject_MayBeginAtOnce()
    {
        VbusSegment segment = Vbus.Segment(Vbus.Pps(11_000), before: Vbus.Pps(9_000));
        segment.Add(new Sample(1_000, 10_500, 0));
        segment.OnReady(100_000);
        Settle(segment, 400_000, 11_000);

        Vbus.Found(segment).Should().BeEmpty();
    }

    [Theory]
    [InlineData(9_950, "")]
    [InlineData(9_951, "vbus-overshoot fails")]
    [InlineData(4_250, "")]
    [InlineData(4_249, "vbus-droop fails")]
    public void OnTheWay_BothVoltagesBound(int volts, string found)
    {
        VbusSegment segment = Vbus.Segment(Vbus.Fixed(9));
        segment.Add(new Sample(1_000, 5_000, 0));
        segment.Add(new Sample(60_000, volts, 0));
        segment.OnReady(100_000);
        Settle(segment, 400_000);

        Vbus.Found(segment).Should().Be(found);
    }

    [Fact]
    public void WhereItComesFromIsNotKnown_NothingIsSaidOfTheWay()
    {
        VbusSegment segment = Vbus.Segment(Vbus.Fixed(9), unknownBefore: true);
        segment.Add(new Sample(1_000, 20_000, 0));
        segment.Add(new Sample(60_000, 12_000, 0));
        segment.OnReady(100_000);
        Settle(segment, 400_000);

        Vbus.Found(segment).Should().BeEmpty();
    }

    // 30 mV/µs over 100 µs and the clock's step: 3030 mV, with 500 mV at either end left to the load.
    [Theory]
    [InlineData(MeasuringPoint.Source, 4_030, "")]
    [InlineData(MeasuringPoint.Source, 4_031, "vbus-slew-too-fast fails")]
    [InlineData(MeasuringPoint.Sink, 4_780, "")]
    [InlineData(MeasuringPoint.Sink, 4_781, "vbus-slew-too-fast fails")]
    public void Slew_IsWhatTwoSamplesProve(MeasuringPoint point, int millivolts, string found)
    {
        foreach (bool down in new[] { false, true })
        {
            VbusTerms high = Vbus.Fixed(15);
            VbusTerms low = Vbus.Fixed(5);
            VbusSegment segment = Vbus.Segment(down ? low : high, Vbus.At(point, 0, 0), before: down ? high : low);
            (int from, int to) = down ? (15_000, 15_000 - millivolts) : (5_000, 5_000 + millivolts);
            segment.Add(new Sample(40_000, from, 0));
            segment.Add(new Sample(40_100, to, 0));
            segment.OnReady(100_000);
            Settle(segment, 400_000, down ? 5_000 : 15_000);

            Vbus.Found(segment).Should().Be(found);
        }
    }

    [Fact]
    public void Slew_WithoutStatedTimesCannotBeTold()
    {
        Instrument instrument = new(MeasuringPoint.Source, new MeasuringAccuracy(0, 0, 0, 0), null);
        VbusSegment segment = Vbus.Segment(Vbus.Fixed(48, epr: true), instrument);
        segment.Add(new Sample(40_000, 5_000, 0));
        segment.Add(new Sample(40_100, 45_000, 0));
        segment.OnReady(100_000);
        Settle(segment, 800_000, 48_000);

        Vbus.Found(segment).Should().Be("vbus-slew-too-fast cannot tell");
    }

    [Fact]
    public void SamplesOfOneTime_SayNothingOfSlew()
    {
        VbusSegment segment = Vbus.Segment(Vbus.Fixed(15));
        segment.Add(new Sample(40_000, 5_000, 0));
        segment.Add(new Sample(40_000, 15_000, 0));
        segment.OnReady(100_000);
        Settle(segment, 400_000, 15_000);

        Vbus.Found(segment).Should().BeEmpty();
    }

    private static void Settle(VbusSegment segment, long afterUs, int volts = 9_000)
    {
        for (int i = 1; i <= 5; i++)
        {
            segment.Add(new Sample(afterUs + (5_000 * i), volts, 0));
        }

        segment.Close(SegmentEnd.CaptureEnded, long.MaxValue);
    }
}
