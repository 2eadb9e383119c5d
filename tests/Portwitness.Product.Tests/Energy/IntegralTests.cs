using Portwitness.Product.Energy;

namespace Portwitness.Product.Tests.Energy;

/// <summary>Sums against integrals that have a closed form. The goal is an error below 0.01 %.</summary>
public class IntegralTests
{
    private const double Goal = 0.0001;

    // 5 V 2 A for an hour: 2 Ah, 10 Wh.
    [Fact]
    public void Constant()
    {
        MeasuredLog log = LogRun.Of(LogRun.Steady(3_600, 5, 2));

        (log.Charge.Value, log.Energy.Value).Should().Be((2_000_000, 10_000_000));
    }

    // Amps from 0 to 2 at 5 V: half of it.
    [Theory]
    [InlineData(1)]
    [InlineData(3_600)]
    public void RampOfAmps(double step)
    {
        MeasuredLog log = LogRun.Of(LogRun.Rows(3_600, step, _ => 5, t => 2 * t / 3_600));

        log.Charge.Value.Should().BeCloseTo(1_000_000, 100);
        log.Energy.Value.Should().BeCloseTo(5_000_000, 500);
    }

    // Volts from 0 to 6 while amps go from 0 to 2: the integral of 12 s² is 4 Wh. The trapezoid of V·I over one step would be 6 Wh.
    [Theory]
    [InlineData(3_600)]
    [InlineData(10)]
    public void RampOfBoth_IsExactWhateverTheStep(double step)
    {
        MeasuredLog log = LogRun.Of(LogRun.Rows(3_600, step, t => 6 * t / 3_600, t => 2 * t / 3_600), LogRun.Discharge with { Kind = LogKind.Charge });

        log.Energy.Value.Should().BeCloseTo(4_000_000, 40);
    }

    // One falls while the other rises: the integral of 12 s (1 - s) is 2 Wh; the trapezoid of V·I would be nothing.
    [Fact]
    public void OppositeRamps_AreExact()
    {
        MeasuredLog log = LogRun.Of(LogRun.Rows(3_600, 3_600, t => 6 - (6 * t / 3_600), t => 2 * t / 3_600), LogRun.Discharge with { Kind = LogKind.Charge });

        log.Energy.Value.Should().Be(2_000_000);
    }

    // Whole periods of 5 + 0.5 sin and 2 + 0.5 sin: the mean power is 10 + 0.125 W; shifted by 90° it is 10 W.
    [Theory]
    [InlineData(0, 10.125)]
    [InlineData(Math.PI / 2, 10)]
    [InlineData(Math.PI, 9.875)]
    public void Sinusoid(double phase, double watts)
    {
        static double Angle(double t) => 2 * Math.PI * t / 60;
        MeasuredLog log = LogRun.Of(LogRun.Rows(3_600, 0.5, t => 5 + (0.5 * Math.Sin(Angle(t))), t => 2 + (0.5 * Math.Sin(Angle(t) + phase))));

        (log.Charge.Value / 2_000_000d).Should().BeApproximately(1, Goal);
        (log.Energy.Value / (watts * 1_000_000)).Should().BeApproximately(1, Goal);
    }

    // Uneven steps between 0.1 s and 1.9 s.
    [Fact]
    public void UnevenSteps_DoNotMatter()
    {
        Random random = new(7);
        List<(double, double, double)> rows = [];
        for (double t = 0; t < 3_600; t += 0.1 + (1.8 * random.NextDouble()))
        {
            rows.Add((t, 5 + (t / 3_600), 2));
        }

        rows.Add((3_600, 6, 2));
        LogRun.Of(rows).Energy.Value.Should().BeCloseTo(11_000_000, 1_100);
    }

    // A tenth of a microamp-hour a second would be lost if steps were rounded one by one.
    [Fact]
    public void SmallSteps_AreNotRounded()
    {
        MeasuredLog log = LogRun.Of(LogRun.Rows(100, 0.001, _ => 5, _ => 0.000_360));

        (log.Charge.Value, log.Energy.Value).Should().Be((10, 50));
    }

    // 10^9 µV and µA over steps of an hour, forth and back: nothing overflows, and nothing throws.
    [Fact]
    public void ExtremeValues_Saturate()
    {
        MeasuredLog log = LogRun.OfText(
            "time (us),volts,amps\n" + string.Concat(Enumerable.Range(0, 400).Select(row => $"{(row % 2 == 0 ? 0 : 9_007_199_254_740_991)},1000,-1000\n")));

        log.Gaps.Jumps.Should().Be(199);
        log.Energy.Most.Should().BeNull();
    }
}
