using Portwitness.Captures;
using Portwitness.PowerDelivery.Units;
using Portwitness.Product.Energy;
using static Portwitness.Product.Tests.Energy.LogRun;

namespace Portwitness.Product.Tests.Energy;

/// <summary>Ends, gaps, clocks, signs and uncertainty, each on both sides of its limit. Figures are worked by hand.</summary>
public class LogFollowerTests
{
    private static readonly (double, double, double)[] Off = [(3_601, 0, 0), (3_602, 0, 0)];

    // 10 W for an hour, then nothing; the last step may hold 10 W for a second more: 2.778 mWh.
    [Fact]
    public void OutputOff_EndsTheDischarge()
    {
        MeasuredLog log = Of([.. Steady(3_600, 5, 2), .. Off]);

        (log.End, log.RanOut, log.EndUs).Should().Be((LogEnd.OutputOff, true, 3_601_000_000));
        (log.Energy.Value, log.Energy.Least, log.Energy.Most).Should().Be((10_000_000, 10_000_000, 10_002_778));
        log.Collapses.Should().ContainSingle().Which.Should().Be(new Collapse(3_601_000_000, 3_603, 5_000_000, 2_000_000, null));
    }

    [Fact]
    public void LoadOff_LeavesOpenWhatIsStillInside()
    {
        MeasuredLog log = Of([.. Steady(3_600, 5, 2), (3_601, 5.05, 0), (3_602, 5.05, 0)]);

        (log.End, log.RanOut, log.Energy.Most).Should().Be((LogEnd.LoadOff, false, null));
    }

    [Fact]
    public void LogEnd_LeavesOpenWhatIsStillInside()
    {
        MeasuredLog log = Of(Steady(3_600, 5, 2));

        (log.End, log.RanOut, log.Energy.Most).Should().Be((LogEnd.LogEnded, false, null));
    }

    // The cut-off is below 4.5 V for good; 4.5 V itself is above.
    [Theory]
    [InlineData(4.499, LogEnd.CutOff, 3_601)]
    [InlineData(4.5, LogEnd.LogEnded, 3_660)]
    public void CutOff_EndsTheDischarge(double volts, LogEnd end, double seconds)
    {
        MeasuredLog log = Of(
            [.. Steady(3_600, 5, 2), .. Steady(59, volts, 2, from: 3_601)], Discharge with { CutOff = Voltage.FromMillivolts(4_500) });

        (log.End, log.EndUs).Should().Be((end, (long)(seconds * 1_000_000)));
        if (end == LogEnd.CutOff)
        {
            log.Energy.Value.Should().Be(10_000_000);
        }
    }

    // Below the cut-off for 4 s is a dip, for 5 s the end.
    [Theory]
    [InlineData(4, LogEnd.LogEnded)]
    [InlineData(5, LogEnd.CutOff)]
    public void ShortDip_IsNoEnd(double seconds, LogEnd end)
    {
        MeasuredLog log = Of(
            [.. Steady(100, 5, 2), .. Steady(seconds, 4.2, 2, from: 101), .. Steady(100, 5, 2, from: 102 + seconds)],
            Discharge with { CutOff = Voltage.FromMillivolts(4_500) });

        log.End.Should().Be(end);
    }

    // captures/ENERGY.md: five seconds. The log may end before them, at one row or several, or show the output going off.
    [Theory]
    [InlineData(1, 0, LogEnd.LogEnded)]
    [InlineData(1, 4, LogEnd.LogEnded)]
    [InlineData(1, 5, LogEnd.CutOff)]
    [InlineData(10, 0, LogEnd.LogEnded)]
    [InlineData(10, 10, LogEnd.CutOff)]
    public void CutOff_IsNotReachedByTheLastRows(double step, double seconds, LogEnd end)
    {
        MeasuredLog log = Of(
            [.. Steady(3_600, 5, 2, step: step), .. Steady(seconds, 4.49, 2, from: 3_600 + step, step: step)],
            Discharge with { CutOff = Voltage.FromMillivolts(4_500) });

        (log.End, log.RanOut, log.Energy.Most is null).Should().Be((end, end == LogEnd.CutOff, end == LogEnd.LogEnded));
    }

    // Two rows below on either side of a gap do not say what the voltage was between them.
    [Fact]
    public void CutOff_IsNotReachedOverAGap() =>
        Of([.. Steady(600, 5, 2), (601, 4.4, 2), (700, 4.4, 2)], Discharge with { CutOff = Voltage.FromMillivolts(4_500) }).End.Should().Be(LogEnd.LogEnded);

    [Theory]
    [InlineData(0, 0, LogEnd.OutputOff)]
    [InlineData(5, 0, LogEnd.LoadOff)]
    public void BelowTheCutOff_TheOutputMayGoOffOrTheLoadBeTakenAway(double volts, double amps, LogEnd end)
    {
        MeasuredLog log = Of(
            [.. Steady(3_600, 5, 2), (3_601, 4.4, 2), (3_602, 4.3, 2), .. Steady(100, volts, amps, from: 3_603)],
            Discharge with { CutOff = Voltage.FromMillivolts(4_500) });

        (log.End, log.EndUs).Should().Be((end, 3_601_000_000));
    }

    // What came before the output went off is sure, what came after it may count: 0.5 Wh and 1 Wh.
    [Fact]
    public void OutputThatComesBack_WidensTheResult()
    {
        MeasuredLog log = Of([.. Steady(180, 5, 2), (181, 0, 0), .. Steady(180, 5, 2, from: 182), (363, 0, 0)]);

        log.CollapseCount.Should().Be(2);
        log.Collapses[0].OffUs.Should().Be(1_000_000);
        log.Collapses[1].OffUs.Should().BeNull();
        log.Energy.Least.Should().Be(500_000);
        log.Energy.Value.Should().BeInRange(1_000_000, 1_004_000);
    }

    // The usual step is 1 s: 5 s are no gap, 5.001 s are one.
    [Theory]
    [InlineData(5, 0)]
    [InlineData(5.001, 1)]
    public void Gap_IsMoreThanFiveUsualSteps(double step, long gaps)
    {
        MeasuredLog log = Of([.. Steady(1_800, 5, 2), .. Steady(1_800, 5, 2, from: 1_800 + step), (3_700, 0, 0)]);

        // The step within which the output went off is no gap of the discharge.
        log.Gaps.Count.Should().Be(gaps);
    }

    // 600 s at 10 W are missing: between 10 Wh and 10 Wh + 1.667 Wh + the last second's 2.778 mWh.
    [Fact]
    public void Gap_IsBoundedByTheLargestPower()
    {
        MeasuredLog log = Of([.. Steady(1_800, 5, 2), .. Steady(1_800, 5, 2, from: 2_400), (4_201, 0, 0)]);

        (log.Gaps.Count, log.Gaps.TotalUs, log.Gaps.LongestAtUs).Should().Be((1, 600_000_000, 1_800_000_000));
        (log.Energy.Value, log.Energy.Least).Should().Be((10_000_000, 10_000_000));
        log.Energy.Most.Should().BeInRange(11_669_444, 11_669_446);
        log.Energy.MostCounted.Should().Be(10_000_000);
    }

    [Fact]
    public void StatedStep_OverridesTheUsual() =>
        Of([.. Steady(1_800, 5, 2), .. Steady(1_800, 5, 2, from: 2_400), (4_201, 0, 0)], Discharge with { LongestStepUs = 600_000_000 })
            .Gaps.Any.Should().BeFalse();

    // How much time passed while the clock was set back is not known.
    [Fact]
    public void StepBack_LeavesTheMostOpen()
    {
        MeasuredLog log = Of([.. Steady(1_800, 5, 2), .. Steady(1_800, 5, 2, from: 900), (2_701, 0, 0)]);

        (log.Gaps.Jumps, log.Gaps.FirstJumpUs, log.Gaps.FirstJumpLine).Should().Be((1, 900_000_000, 1_803));
        (log.Energy.Value, log.Energy.Most).Should().Be((10_000_000, null));
    }

    [Theory]
    [InlineData(2, CurrentSign.Inferred, 10_000_000, CurrentSign.OutPositive)]
    [InlineData(-2, CurrentSign.Inferred, 10_000_000, CurrentSign.OutNegative)]
    [InlineData(-2, CurrentSign.OutNegative, 10_000_000, CurrentSign.OutNegative)]
    [InlineData(-2, CurrentSign.OutPositive, -10_000_000, CurrentSign.OutPositive)]
    public void Sign_IsStatedOrInferred(double amps, CurrentSign stated, long energy, CurrentSign sign)
    {
        MeasuredLog log = Of(Steady(3_600, 5, amps), Discharge with { Sign = stated });

        (log.Energy.Value, log.Sign).Should().Be((energy, sign));
    }

    [Theory]
    [InlineData(1.5, CurrentSign.Inferred, CurrentSign.OutNegative)]
    [InlineData(-1.5, CurrentSign.OutPositive, CurrentSign.OutPositive)]
    public void Charge_CountsWhatGoesIn(double amps, CurrentSign stated, CurrentSign sign)
    {
        MeasuredLog log = Of(Steady(7_200, 9, amps), Discharge with { Kind = LogKind.Charge, Sign = stated });

        (log.Charge.Value, log.Energy.Value, log.Sign, log.EverLoaded).Should().Be((3_000_000, 27_000_000, sign, false));
    }

    [Fact]
    public void Reverse_IsCountedAgainstIt()
    {
        MeasuredLog log = Of([.. Steady(3_600, 5, 2), .. Steady(360, 5, -1, from: 3_601)]);

        log.ReverseMicroampereHours.Should().BeCloseTo(100_000, 300);
    }

    // From 2 A to -1 A within an hour: two triangles, of 2/3 h and 1/3 h. 2/3 Ah run one way, 1/6 Ah the other; net it is 1/2 Ah.
    [Fact]
    public void Reverse_IsTheTriangleBehindTheChangeOfSign()
    {
        MeasuredLog log = Of([(0, 5, 2), (3_600, 5, -1)]);

        (log.Charge.Value, log.ReverseMicroampereHours).Should().Be((500_000, 166_667));
    }

    // 0.1 % of 5 V and 0.2 % of 2 A over 10 Wh: 1.001 · 1.002 - 1 = 0.3002 %. Charge: 0.2 % of 2 Ah.
    [Fact]
    public void Uncertainty_OfShares()
    {
        MeasuredLog log = Of([.. Steady(3_600, 5, 2), .. Off], Discharge with { Accuracy = new MeasuringAccuracy(null, 1_000, null, 2_000) });

        (log.Charge.Value - log.Charge.Least).Should().Be(4_000);
        (log.Energy.Value - log.Energy.Least).Should().BeInRange(30_020, 30_022);
    }

    // 5 mV and 10 mA: 5.005 · 2.01 - 10 = 0.06005 W over an hour.
    [Fact]
    public void Uncertainty_OfOffsets()
    {
        MeasuredLog log = Of([.. Steady(3_600, 5, 2), .. Off], Discharge with { Accuracy = new MeasuringAccuracy(5, null, 10, null) });

        (log.Charge.Value - log.Charge.Least).Should().Be(10_000);
        (log.Energy.Value - log.Energy.Least).Should().BeInRange(60_050, 60_053);
    }

    [Fact]
    public void UnstatedAccuracy_IsTakenToBePoor()
    {
        MeasuredLog log = Of([.. Steady(3_600, 5, 2), .. Off], Discharge with { Accuracy = null });

        log.Meter.States.Should().BeFalse();
        (log.Charge.Value - log.Charge.Least).Should().Be(40_000 + 50_000);
    }

    // Longest time outside of 4.75 V to 5.5 V, without the settling second and without the way down at the end.
    [Theory]
    [InlineData(4.75, null)]
    [InlineData(4.749, 10_000_000L)]
    public void LowVoltage_IsFoundOnThePlateau(double volts, long? length)
    {
        MeasuredLog log = Of([.. Steady(600, 5, 2), .. Steady(10, volts, 2, from: 601), .. Steady(600, 5, 2, from: 612), (1_213, 0, 0)]);

        log.Below.Read?.LengthUs.Should().Be(length);
        (log.Below.Read is null).Should().Be(length is null);
    }

    [Theory]
    [InlineData(10, false)]
    [InlineData(200, true)]
    public void SagAtTheEnd_CountsOnlyWhenItIsLong(double seconds, bool found)
    {
        MeasuredLog log = Of([.. Steady(600, 5, 2), .. Steady(seconds, 4.6, 2, from: 601), (602 + seconds, 0, 0)]);

        (log.Below.Sure is not null).Should().Be(found);
    }

    // 4.74 V read with ±1 % may be 4.787 V: below by the reading, not for sure.
    [Theory]
    [InlineData(4.74, false)]
    [InlineData(4.70, true)]
    public void LowVoltage_IsSureBeyondTheMeter(double volts, bool sure)
    {
        MeasuredLog log = Of(Steady(600, volts, 2), Discharge with { Accuracy = new MeasuringAccuracy(null, 10_000, null, 0) });

        log.Below.Read.Should().NotBeNull();
        (log.Below.Sure is not null).Should().Be(sure);
    }

    [Fact]
    public void BadRows_BridgeShortStepsOnly()
    {
        string rows = string.Concat(Enumerable.Range(0, 3_601).Select(second => second % 100 == 50 ? "x,x,x\n" : $"{second},5,2\n"));
        MeasuredLog log = OfText("time (s),volts,amps\n" + rows);

        log.Energy.Value.Should().Be(10_000_000);
        log.Faults.Should().HaveCount(36);
    }
}
