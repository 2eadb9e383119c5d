using Portwitness.Analysis.Measuring;
using Portwitness.Captures;
using Portwitness.PowerDelivery.Limits;

namespace Portwitness.Analysis.Tests.Measuring;

/// <summary>VBUS that collapses, and what excuses it.</summary>
public class DropOutTests
{
    [Theory]
    [InlineData(800, 2, "vbus-dropped-out fails")] // vSafe0V
    [InlineData(5_500, 2, "vbus-dropped-out fails")] // vSafe5V under 9 V
    [InlineData(5_501, 2, "vbus-droop fails")]
    [InlineData(0, 1, "vbus-dropped-out cannot tell")] // an instrument may miss one reading
    [InlineData(0, 40, "vbus-dropped-out fails")]
    public void CollapseThatEnds_IsADropOut(int volts, int samples, string found) =>
        Vbus.Found(Vbus.Settled(Vbus.Fixed(9), 9_000, 1_000, Vbus.Samples(samples, volts, 0))).Should().Be(found);

    [Theory]
    [InlineData(5, 801, "vbus-droop fails")]
    [InlineData(5, 800, "vbus-dropped-out fails")]
    [InlineData(6, 5_100, "vbus-droop fails")] // 6 V may be 5.2 V for a moment: 5.1 V is no other voltage
    public void LowVoltages_CollapseToVSafe0VOnly(int contract, int volts, string found) =>
        Vbus.Found(Vbus.Settled(Vbus.Fixed(contract), contract * 1_000, 1_000, Vbus.Samples(2, volts, 0))).Should().Be(found);

    [Fact]
    public void Cable_LosesNotThatMuch() => Vbus.Found(Vbus.Settled(
        Vbus.Fixed(9), 9_000, 1_000, Vbus.Samples(40, 0, 0), instrument: Vbus.At(MeasuringPoint.Sink, 0, 0))).Should().Be("vbus-dropped-out fails");

    [Fact]
    public void CollapseAfterOverload_CannotBeTold() => Vbus.Found(Vbus.Settled(
        Vbus.Fixed(9), 9_000, 1_000, [(9_000, 3_500), .. Vbus.Samples(40, 0, 0)])).Should().Be("vbus-dropped-out cannot tell");

    [Theory]
    [InlineData(200, true, "vbus-dropped-out cannot tell")] // less than a second until the end
    [InlineData(202, true, "vbus-dropped-out fails")]
    [InlineData(202, false, "vbus-dropped-out cannot tell")] // nobody would have recorded a detach
    public void CollapseUntilTheEnd_MayBeAnUnplugging(int samples, bool recordsAttach, string found)
    {
        VbusSegment segment = Vbus.Segment(Vbus.Fixed(9), recordsAttach: recordsAttach);
        segment.OnReady(100_000);
        Take(segment, samples);
        segment.Close(SegmentEnd.CaptureEnded, long.MaxValue);

        Vbus.Found(segment).Should().Be(found);
    }

    [Theory]
    [InlineData(SegmentEnd.Detached, 100, "")]
    [InlineData(SegmentEnd.HardReset, 100, "")]
    [InlineData(SegmentEnd.Replaced, 100, "vbus-dropped-out fails")]
    [InlineData(SegmentEnd.Unknown, 100, "vbus-dropped-out cannot tell")]
    [InlineData(SegmentEnd.Detached, 300, "vbus-dropped-out cannot tell")]
    public void CollapseBeforeAResetOrDetach_MayBePartOfIt(SegmentEnd end, int samples, string found)
    {
        VbusSegment segment = Vbus.Segment(Vbus.Fixed(9));
        segment.OnReady(100_000);
        Take(segment, samples);
        segment.Close(end, 2_000_000 + (5_000 * (samples + 2)));

        Vbus.Found(segment).Should().Be(found);
    }

    [Fact]
    public void OvervoltageBeforeAHardReset_StaysAFault()
    {
        foreach ((SegmentEnd end, string found) in new[] { (SegmentEnd.HardReset, "vbus-outside-tolerance fails"), (SegmentEnd.Detached, "") })
        {
            VbusSegment segment = Vbus.Segment(Vbus.Fixed(9));
            segment.OnReady(100_000);
            Take(segment, 60, 12_000);
            segment.Close(end, 2_310_000);
            Vbus.Found(segment).Should().Be(found);
        }
    }

    [Fact]
    public void LimitsOfRevision2_AreFromMemory()
    {
        VbusSegment segment = new(Vbus.Fixed(9), Vbus.Fixed(5), Vbus.Exact, 0, 1) { Editions = Editions.R20 };
        segment.OnReady(100_000);
        Take(segment, 60, 12_000);
        segment.Close(SegmentEnd.CaptureEnded, long.MaxValue);

        Vbus.Found(segment).Should().Be("vbus-outside-tolerance cannot tell");
    }

    private static void Take(VbusSegment segment, int samples, int volts = 0)
    {
        segment.Add(new Sample(2_000_000, 9_000, 1_000));
        segment.Add(new Sample(2_005_000, 9_000, 1_000));
        for (int i = 1; i <= samples; i++)
        {
            segment.Add(new Sample(2_005_000 + (5_000 * i), volts, 0));
        }
    }
}
