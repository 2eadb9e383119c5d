using Portwitness.Analysis.Catalogue;
using Portwitness.Analysis.Measuring;
using Portwitness.Analysis.Rules;
using Portwitness.Captures;

namespace Portwitness.Analysis.Tests.Measuring;

/// <summary>
/// Each limit with a value on either side of it (R3.2v1.1, Tables 7.23 and 7.25, 7.1.8). 40 samples every 5 ms outlast the
/// 150 ms that a transient may take.
/// </summary>
public class ToleranceTests
{
    private static VbusTerms Terms(string name) => name switch
    {
        "5 V" => Vbus.Fixed(5, position: 1),
        "9 V" => Vbus.Fixed(9),
        "20 V" => Vbus.Fixed(20),
        "48 V" => Vbus.Fixed(48, 5000, 8, epr: true),
        "variable" => Vbus.Variable(8_000, 9_500),
        "battery" => Vbus.Battery(4_000, 9_500, 30),
        "PPS 9 V" => Vbus.Pps(9_000),
        "AVS 12.3 V" => Vbus.Avs(12_300),
        _ => VbusTerms.BeforeContract,
    };

    [Theory]
    [InlineData("5 V", 4_750, 5_500)]
    [InlineData("9 V", 8_550, 9_450)]
    [InlineData("20 V", 19_000, 21_000)]
    [InlineData("48 V", 45_600, 50_400)]
    [InlineData("variable", 8_000, 9_500)]
    [InlineData("battery", 4_000, 9_500)]
    [InlineData("PPS 9 V", 8_550, 9_450)]
    [InlineData("AVS 12.3 V", 11_685, 12_915)]
    [InlineData("before a contract", 4_750, 5_500)]
    public void StaticLimit_HasTwoSides(string name, int least, int most)
    {
        VbusTerms terms = Terms(name);
        int good = (least + most) / 2;
        string At(int volts) => Vbus.Found(Vbus.Settled(terms, good, 400, Vbus.Samples(40, volts, 400)));

        At(least).Should().BeEmpty();
        At(most).Should().BeEmpty();
        At(least - 1).Should().Be("vbus-outside-tolerance fails");
        At(most + 1).Should().Be("vbus-outside-tolerance fails");
    }

    [Theory]
    [InlineData("5 V", 4_250, 6_000)]
    [InlineData("9 V", 8_050, 9_950)]
    [InlineData("variable", 7_500, 10_000)]
    [InlineData("PPS 9 V", 8_450, 9_550)]
    [InlineData("AVS 12.3 V", 11_185, 13_415)]
    [InlineData("before a contract", 4_250, 6_000)]
    public void LimitForAMoment_HasTwoSides(string name, int least, int most)
    {
        VbusTerms terms = Terms(name);
        string At(int volts) => Vbus.Found(Vbus.Settled(terms, (least + most) / 2, 400, Vbus.Samples(2, volts, 400)));

        At(least).Should().BeEmpty();
        At(most).Should().BeEmpty();
        At(least - 1).Should().Be("vbus-droop fails");
        At(most + 1).Should().Be("vbus-overshoot fails");
    }

    [Theory]
    [InlineData(9_500, 31, 5_000, "")] // 150 ms
    [InlineData(9_500, 32, 5_000, "vbus-outside-tolerance fails")] // 155 ms
    [InlineData(8_500, 31, 5_000, "")]
    [InlineData(8_500, 32, 5_000, "vbus-outside-tolerance fails")]
    [InlineData(9_500, 3, 75_001, "vbus-outside-tolerance fails")]
    [InlineData(9_500, 3, 75_000, "")]
    [InlineData(9_500, 2, 150_001, "vbus-outside-tolerance cannot tell")] // two samples may be two moments
    [InlineData(8_500, 2, 150_001, "vbus-outside-tolerance cannot tell")]
    [InlineData(9_500, 1, 500_000, "")]
    public void Duration_IsThatBetweenSamples(int volts, int samples, long everyUs, string found) =>
        Vbus.Found(Vbus.Settled(Vbus.Fixed(9), 9_000, 1_000, Vbus.Samples(samples, volts, 1_000), everyUs)).Should().Be(found);

    [Theory]
    [InlineData(9_450, 40, "")]
    [InlineData(9_451, 40, "vbus-outside-tolerance cannot tell")] // as it reads
    [InlineData(9_460, 40, "vbus-outside-tolerance cannot tell")]
    [InlineData(9_461, 40, "vbus-outside-tolerance fails")]
    [InlineData(8_540, 40, "vbus-outside-tolerance cannot tell")]
    [InlineData(8_539, 40, "vbus-outside-tolerance fails")]
    [InlineData(9_960, 2, "vbus-overshoot cannot tell")]
    [InlineData(9_961, 2, "vbus-overshoot fails")]
    [InlineData(8_040, 2, "vbus-droop cannot tell")]
    [InlineData(8_039, 2, "vbus-droop fails")]
    public void Uncertainty_IsTakenOff(int volts, int samples, string found) => Vbus.Found(Vbus.Settled(
        Vbus.Fixed(9), 9_000, 1_000, Vbus.Samples(samples, volts, 1_000), instrument: Vbus.At(MeasuringPoint.Source, 10, 0))).Should().Be(found);

    [Theory]
    [InlineData(MeasuringPoint.Source, "vbus-outside-tolerance fails", "vbus-outside-tolerance fails", "vbus-droop fails")]
    [InlineData(MeasuringPoint.Sink, "vbus-outside-tolerance cannot tell", "vbus-outside-tolerance fails", "vbus-droop cannot tell")]
    [InlineData(MeasuringPoint.Tester, "vbus-outside-tolerance cannot tell", "vbus-outside-tolerance fails", "vbus-droop cannot tell")]
    [InlineData(MeasuringPoint.Unknown, "vbus-outside-tolerance cannot tell", "vbus-outside-tolerance fails", "vbus-droop cannot tell")]
    public void BehindACable_TooLowCannotBeTold(MeasuringPoint point, string low, string high, string droop)
    {
        string At(int volts, int samples) =>
            Vbus.Found(Vbus.Settled(Vbus.Fixed(9), 9_000, 1_000, Vbus.Samples(samples, volts, 1_000), instrument: Vbus.At(point, 0, 0)));

        At(8_400, 40).Should().Be(low);
        At(9_500, 40).Should().Be(high);
        At(7_000, 3).Should().Be(droop);
    }

    [Fact]
    public void UnknownCurrent_TooLowCannotBeTold()
    {
        Vbus.Found(Vbus.Settled(Vbus.Fixed(9), 9_000, null, Vbus.Samples(40, 8_400, null))).Should().Be("vbus-outside-tolerance cannot tell");
        Vbus.Found(Vbus.Settled(Vbus.Fixed(9), 9_000, null, Vbus.Samples(3, 7_000, null))).Should().Be("vbus-droop cannot tell");
        Vbus.Found(Vbus.Settled(Vbus.Fixed(9), 9_000, null, Vbus.Samples(40, 9_600, null))).Should().Be("vbus-outside-tolerance fails");
    }

    [Theory]
    [InlineData(3_000, "vbus-outside-tolerance fails")]
    [InlineData(3_001, "load-beyond-contract")]
    public void LoadBeyondTheContract_ExcusesLowVoltage(int amps, string found) =>
        Vbus.Found(Vbus.Settled(Vbus.Fixed(9), 9_000, 3_000, Vbus.Samples(40, 7_000, amps))).Should().Be(found);

    [Theory]
    [InlineData(3_157, "")] // 30 W at 9.5 V: 3.1579 A
    [InlineData(3_158, "load-beyond-contract")]
    public void LoadOfABatteryObject_IsAPower(int amps, string found) =>
        Vbus.Found(Vbus.Settled(Vbus.Battery(4_000, 9_500, 30), 9_500, 0, Vbus.Samples(40, 9_500, amps))).Should().Be(found);

    [Fact]
    public void OneSampleOfAnUnstatedInstrument_IsNotBelieved()
    {
        Instrument unstated = new(MeasuringPoint.Source, null, 1);
        Vbus.Found(Vbus.Settled(Vbus.Fixed(9), 9_000, 1_000, Vbus.Samples(1, 12_000, 1_000), instrument: unstated)).Should().Be("vbus-overshoot cannot tell");
        Vbus.Found(Vbus.Settled(Vbus.Fixed(9), 9_000, 1_000, Vbus.Samples(2, 12_000, 1_000), instrument: unstated)).Should().Be("vbus-overshoot fails");
        Vbus.Found(Vbus.Settled(Vbus.Fixed(9), 9_000, 1_000, Vbus.Samples(1, 12_000, 1_000))).Should().Be("vbus-overshoot fails");
    }

    [Fact]
    public void SaggingUnderALoadThatTheContractCovers_IsUndeliveredPower()
    {
        Vbus.Found(Vbus.Settled(Vbus.Fixed(9), 9_000, 500, Vbus.Samples(40, 8_300, 2_900))).Should().Be("delivered-power-below-contract fails");
        Vbus.Found(Vbus.Settled(Vbus.Fixed(9), 9_000, 2_900, Vbus.Samples(40, 8_300, 2_900))).Should().Be("vbus-outside-tolerance fails");
        Vbus.Found(Vbus.Settled(Vbus.Pps(9_000), 9_000, 500, Vbus.Samples(40, 6_000, 2_000))).Should().Be("delivered-power-below-contract fails");
    }

    // The meter's noise around 0 A, or its zero.
    [Theory]
    [InlineData(0)]
    [InlineData(1_000)]
    public void SamplesOfNegativeCurrent_AreNoise(int others)
    {
        (int Volts, int? Amps)[] samples = [.. Vbus.Samples(30, 12_000, others), (12_000, -3), .. Vbus.Samples(5, 12_000, others), (12_000, -1)];

        Vbus.Found(Vbus.Settled(Vbus.Fixed(20), 12_000, others, samples)).Should().Be("vbus-outside-tolerance fails");
    }

    // As of a meter that is plugged in the other way, or of a power bank that is being charged: never silence.
    [Theory]
    [InlineData(9, "vbus-outside-tolerance cannot tell")]
    [InlineData(12, "")]
    [InlineData(20, "vbus-outside-tolerance cannot tell")]
    public void CurrentIntoThePort_LeavesOpenWhoseVbusItIs(int contract, string found)
    {
        VbusSegment segment = Vbus.Settled(Vbus.Fixed(contract), 12_000, -2_000, Vbus.Samples(40, 12_000, -2_000));

        segment.CurrentFlowsIn.Should().BeTrue();
        Vbus.Found(segment).Should().Be(found);
        foreach (VbusHit hit in RuleSet.OfCaptures.VbusSegments.Select(rule => rule.Check(segment)).OfType<VbusHit>())
        {
            hit.Hit.Detail.Should().Contain("flows into the port");
            hit.Hit.NextStep.Should().Contain("positive current out of the port");
        }
    }

    // A tenth of the samples is 4 of 40.
    [Theory]
    [InlineData(3, false)]
    [InlineData(4, true)]
    public void CurrentIntoThePort_IsMoreThanSingleSamples(int into, bool flowsIn) =>
        Vbus.Settled(Vbus.Fixed(9), 9_000, 0, [.. Vbus.Samples(36 - into, 9_000, 0), .. Vbus.Samples(into, 9_000, -500)])
            .CurrentFlowsIn.Should().Be(flowsIn);

    // 3.5 A of 3 A excuse a voltage that is too low whichever way the meter counts.
    [Fact]
    public void LoadBeyondTheContract_ExcusesWithEitherSign() =>
        Vbus.Found(Vbus.Settled(Vbus.Fixed(9), 9_000, -500, Vbus.Samples(40, 7_000, -3_500))).Should().Be("load-beyond-contract");

    // R3.2v1.1, 7.1.8: it is outside its limits; nothing has collapsed.
    [Theory]
    [InlineData(5_000, "stayed at 5 V")]
    [InlineData(0, "stayed at 0 V")]
    public void VbusThatNeverRose_HasNotCollapsed(int volts, string words)
    {
        VbusSegment segment = Vbus.Settled(Vbus.Fixed(20), volts, 0, Vbus.Samples(40, volts, 0), comesBack: false);

        VbusHit hit = RuleSet.OfCaptures.VbusSegments.Select(rule => rule.Check(segment)).OfType<VbusHit>().Should().ContainSingle().Subject;
        hit.Hit.Detail.Should().StartWith($"VBUS {words} at 0 A under fixed 20 V 3 A");
        Vbus.Found(segment).Should().StartWith("vbus-outside-tolerance");
    }

    [Fact]
    public void VbusThatRoseAndFell_HasCollapsed() =>
        Vbus.Found(Vbus.Settled(Vbus.Fixed(20), 20_000, 1_000, Vbus.Samples(40, 5_000, 0))).Should().Be("vbus-dropped-out fails");

    [Fact]
    public void MissingMessages_LeaveAnotherContractOpen()
    {
        VbusSegment segment = Vbus.Settled(Vbus.Fixed(9), 9_000, 1_000, Vbus.Samples(40, 12_000, 1_000));
        segment.MessagesMissing = true;

        Vbus.Found(segment).Should().Be("vbus-outside-tolerance cannot tell");
    }

    [Fact]
    public void LoneSampleLongAfter_CannotBeTold()
    {
        foreach ((int volts, string found) in new[] { (12_000, "vbus-outside-tolerance cannot tell"), (7_000, "vbus-outside-tolerance cannot tell"), (9_000, "") })
        {
            // From 20 V or 5 V: nothing of this is beyond what may be on the way.
            VbusSegment segment = Vbus.Segment(Vbus.Fixed(9), before: volts > 9_000 ? Vbus.Fixed(20) : Vbus.Fixed(5));
            segment.OnReady(100_000);
            segment.Add(new Sample(5_000_000, volts, 1_000));
            segment.Close(SegmentEnd.CaptureEnded, long.MaxValue);
            Vbus.Found(segment).Should().Be(found);
        }
    }
}
