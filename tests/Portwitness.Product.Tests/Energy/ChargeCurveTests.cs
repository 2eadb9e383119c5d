using System.Globalization;
using System.Text;
using Portwitness.Product.Energy;

namespace Portwitness.Product.Tests.Energy;

/// <summary>The course of a charge. The check values are reckoned by hand from the curve.</summary>
public class ChargeCurveTests
{
    // 18 W for 45 min, then 18 e^(-t / 20 min): below 5 % after 104.9 min with 19.20 Wh; 50 % are in after 32.0, 80 % after 52.4, 99 % after 95.0 min; mean 10.98 W.
    [Fact]
    public void ConstantThenFalling_IsToldAtItsMarks()
    {
        ChargeCurve curve = Charge(180, minutes => minutes < 45 ? 18 : 18 * Math.Exp(-(minutes - 45) / 20)).Charging!;

        Minutes(curve.EndedAtUs).Should().BeApproximately(104.9, 0.3);
        (curve.MicrowattHours / 1_000_000.0).Should().BeApproximately(19.20, 0.03);
        foreach ((long? mark, double minutes) in curve.AtMarks.Zip([32.0, 52.4, 95.0]))
        {
            Minutes(mark).Should().BeApproximately(minutes, 0.15);
        }

        (curve.PeakMilliwatts, Math.Round(curve.MeanMilliwatts / 1000.0, 1)).Should().Be((18_000, 11.0));

        // 95 % of 18 W are left after 20 ln(1 / 0.95) = 1.03 min.
        Minutes(curve.ConstantUntilUs).Should().BeApproximately(46.0, 0.4);
    }

    // A charge that the log does not see to its end has its energy so far.
    [Fact]
    public void LogThatStopsBefore_HasNoEnd()
    {
        ChargeCurve curve = Charge(60, static _ => 18).Charging!;

        (curve.EndedAtUs, curve.ConstantUntilUs).Should().Be((null, null));
        (curve.MicrowattHours / 1_000_000.0).Should().BeApproximately(18, 0.1);
        Minutes(curve.AtMarks[0]).Should().BeApproximately(30, 0.2);
    }

    // A pause of a minute is no end, and the plateau goes on behind it.
    [Fact]
    public void Pause_IsNoEnd()
    {
        ChargeCurve curve = Charge(90, static minutes => minutes is >= 20 and < 20.8 ? 0.1 : 18).Charging!;

        (curve.EndedAtUs, curve.ConstantUntilUs).Should().Be((null, null));
    }

    // Long logs keep some thousand points.
    [Fact]
    public void LongCharge_IsToldAsExactly() =>
        Minutes(Charge(3_000, static minutes => minutes < 2_000 ? 18 : 0).Charging!.AtMarks[0]).Should().BeApproximately(1_000, 1);

    // 18 Wh in, 14.4 Wh out: 80 %.
    [Theory]
    [InlineData("", 0.8)]
    [InlineData(", begun: partly", null)]
    public void RoundTrip_IsOfAWholeChargeAndAWholeDischarge(string begun, double? share)
    {
        using ProductCheck check = ProductCheck.ForProduct(
            "product.yaml",
            $$"""
            product: x
            label: "USB-C: 5V⎓3A\nBattery: 5000mAh 3.6V 18Wh"
            discharges:
              - {file: in.csv, port: C, at: 9V 2A, kind: charge, accuracy: {volts: 0.1%, amps: 0.1%}, longest_step: 1h{{begun}}}
              - {file: out.csv, port: C, at: 5V 2.88A, accuracy: {volts: 0.1%, amps: 0.1%}, longest_step: 1h}
            """, null);
        check.OpenLog().Write(Encoding.UTF8.GetBytes("time (s),volts,amps\n" + Rows(120, static minutes => minutes < 60 ? 18 : 0)));
        check.CloseLog();
        check.OpenLog().Write(Encoding.UTF8.GetBytes("time (s),volts,amps\n0,5,2.88\n1800,5,2.88\n3600,5,2.88\n3601,0,0\n"));
        check.CloseLog();

        RoundTrip? trip = RoundTrip.Of(check.Complete().Energy.Logs);

        (trip is null).Should().Be(share is null);
        if (trip is not null)
        {
            (trip.Ppm / 1_000_000.0).Should().BeApproximately(share!.Value, 0.002);
            trip.ExpandedPpm.Should().BeInRange(1_000, 10_000);
        }
    }

    private static double Minutes(long? microseconds) => microseconds!.Value / 60_000_000.0;

    private static MeasuredLog Charge(int minutes, Func<double, double> watts)
    {
        using ProductCheck check = ProductCheck.ForProduct(
            "product.yaml", "product: x\nlabel: \"USB-C: 5V⎓3A\"\ndischarges: [{file: in.csv, port: C, at: 9V 2A, kind: charge}]\n", null);
        check.OpenLog().Write(Encoding.UTF8.GetBytes("time (s),volts,amps\n" + Rows(minutes, watts)));
        check.CloseLog();
        return check.Complete().Energy.Logs.Single();
    }

    private static string Rows(int minutes, Func<double, double> watts)
    {
        StringBuilder rows = new();
        for (int seconds = 0; seconds <= minutes * 60; seconds += 5)
        {
            rows.Append(CultureInfo.InvariantCulture, $"{seconds},9,{watts(seconds / 60.0) / 9:0.#######}\n");
        }

        return rows.ToString();
    }
}
