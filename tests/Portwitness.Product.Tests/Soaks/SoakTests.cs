using System.Collections.Immutable;
using System.Globalization;
using System.Text;
using Portwitness.Product.Energy;
using Portwitness.Product.Soaks;

namespace Portwitness.Product.Tests.Soaks;

/// <summary>Power and temperature over time. What the source says is common practice, no source; the sums are arithmetic.</summary>
public class SoakTests
{
    private const string Rows = "time (s),volts,amps,case (°C),ambient (°C)\n";

    [Fact]
    public void HeldPower_IsToldAtItsMarks()
    {
        SustainedPower power = Of(Log(4_000, static _ => (20, 3.25, 40, 25))).Single().Power;

        power.AtMarks.Should().Equal(65_000, 65_000, 65_000, 65_000, 65_000);
        (power.FirstMilliwatts, power.SteadyMilliwatts, power.IsPowerSteady, power.Fall).Should().Be((65_000, 65_000, true, PowerFall.None));
        power.ForUs.Should().Be(4_000_000_000);

        // 65 W for 4000 s are 72.222 Wh; 3.25 A are 3611 mAh.
        power.UntilFall.Should().Be((3_611_111, 72_222_222));
    }

    // The current is held and the voltage falls: the source. The current falls and the voltage holds: the load. Both fall: a load of constant resistance.
    [Theory]
    [InlineData(14, 3.25, PowerFall.Voltage, true)]
    [InlineData(20.05, 2.25, PowerFall.Current, false)]
    [InlineData(14, 2.275, PowerFall.Voltage, true)]

    // 19.5 V are within 19 to 21 V (vSrcNew, R3.2v1.1, Table 7.23): less power, and no fault of the source.
    [InlineData(19.5, 3.25, PowerFall.Voltage, false)]
    [InlineData(19.9, 3.25, PowerFall.None, false)]
    [InlineData(0, 0, PowerFall.Off, true)]
    public void Fall_IsTheSourcesOrTheLoads(double volts, double amps, PowerFall fall, bool isOfSource)
    {
        Soak soak = Of(Log(2_400, seconds => seconds < 1_080 ? (20, 3.25, 40, 25) : (volts, amps, 40, 25))).Single();

        (soak.Power.Fall, soak.IsOfSource).Should().Be((fall, isOfSource));
        soak.Power.FellAtUs.Should().Be(fall switch { PowerFall.None => null, PowerFall.Off => 1_075_000_000L, _ => 1_080_000_000L });
    }

    // A dip of ten seconds is no fall.
    [Fact]
    public void Dip_IsNoFall() => Of(Log(1_800, static seconds => seconds is >= 600 and < 610 ? (14, 3.25, 40, 25) : (20, 3.25, 40, 25))).Single().Power.Fall.Should().Be(PowerFall.None);

    [Fact]
    public void PowerThatComesBack_IsTold() =>
        Of(Log(2_400, static seconds => seconds is >= 600 and < 1_200 ? (14, 3.25, 40, 25) : (20, 3.25, 40, 25))).Single().Power.RecoveredAtUs.Should().BeInRange(1_200_000_000, 1_230_000_000);

    // T25 = T + (25 - Tamb) for up to 5 K: 71 °C at 22 °C are 74 °C (common practice; the figures are reckoned by hand).
    [Theory]
    [InlineData(71, 22, 74_000)]
    [InlineData(71, 30, 66_000)]
    [InlineData(71, 19.9, null)]
    [InlineData(71, 35, null)]
    public void Temperature_IsBroughtToARoomOf25Degrees(double surface, double room, int? at25) =>
        Of(Log(1_200, _ => (20, 3.25, surface, room))).Single().Power.Temperatures!.HottestAt25.Should().Be(at25);

    [Fact]
    public void HottestOfSeveralSurfaces_Counts()
    {
        SurfaceTemperatures temperatures = Of(
            "time (s),volts,amps,Top [degC],Bottom (C),room\n" + string.Concat(Enumerable.Range(0, 100).Select(static row => string.Create(CultureInfo.InvariantCulture, $"{row * 10},20,3.25,{30 + (row / 10.0)},{55 - (row / 10.0)},24\n"))),
            "[top, bottom, room]").Single().Power.Temperatures!;

        (temperatures.HottestSurface, temperatures.HottestAtUs).Should().Be((55_000, 0));
        temperatures.Rise.Should().BeInRange(21_000, 22_000);
    }

    // Within 1 K for fifteen minutes, or not.
    [Theory]
    [InlineData(0.0, true)]
    [InlineData(0.002, false)]
    public void Surface_IsSteadyOrNot(double kelvinsPerSecond, bool isSteady) =>
        Of(Log(1_800, seconds => (20, 3.25, 40 + (seconds * kelvinsPerSecond), 25))).Single().Power.Temperatures!.IsSteady.Should().Be(isSteady);

    [Fact]
    public void MissingHeading_IsSaid() => Analysis(Log(400, static _ => (20, 3.25, 40, 25)), "[case, lid]").Faults
        .Should().Contain(static fault => fault.Fault.Detail.Contains("No column is headed \"lid\"", StringComparison.Ordinal));

    // A short load is none, unless somebody calls it a soak.
    [Theory]
    [InlineData(200, true, 1)]
    [InlineData(200, false, 0)]
    [InlineData(400, false, 1)]
    [InlineData(30, true, 0)]
    public void Load_IsASoakWhenItIsLong(int seconds, bool isSoak, int count) =>
        Analysis(Log(seconds, static _ => (20, 3.25, 40, 25)), null, isSoak ? "soaks" : "loads").Soaks.Should().HaveCount(count);

    // A clock that steps back, a gap and a load that is taken away end it; nothing is added up beyond.
    [Theory]
    [InlineData("0,20,3.25\n400,20,3.25\n390,20,3.25\n900,20,3.25\n", 400)]
    [InlineData("0,20,3.25\n100,20,3.25\n200,20,3.25\n300,20,3.25\n400,20,3.25\n9000,20,3.25\n", 400)]
    [InlineData("0,20,3.25\n100,20,3.25\n200,20,3.25\n300,20,3.25\n400,20,0\n500,20,3.25\n", 300)]
    public void WhatInterrupts_Ends(string rows, int seconds) => Analysis("time (s),volts,amps\n" + rows, null).Soaks.Single().Power.ForUs.Should().Be(seconds * 1_000_000L);

    // 24 hours at 10 Hz are 864,000 rows: what is kept of them for a plot is bounded.
    [Fact]
    public void LogOfADay_IsThinnedOut()
    {
        using ProductCheck check = ProductCheck.ForProduct(
            "product.yaml", "product: x\nlabel: \"USB-C: 20V⎓3.25A\"\nsoaks: [{port: C, at: 20V 3.25A, file: log.csv, temperatures: [case, ambient], measured_at: source}]\n", null);
        LogIntake intake = check.OpenLog();
        intake.Write(Encoding.UTF8.GetBytes(Rows));
        byte[] piece = new byte[64];
        for (int row = 0; row < 864_000; row++)
        {
            Encoding.UTF8.TryGetBytes(string.Create(CultureInfo.InvariantCulture, $"{row / 10.0:0.0},20,3.25,45,25\n"), piece, out int length);
            intake.Write(piece.AsSpan(0, length));
        }

        check.CloseLog();
        Soak soak = check.Complete().Soaks.Single();
        soak.Log.Trace.Length.Should().BeInRange(1, 5_000);
        SustainedPower power = soak.Power;
        (power.ForUs, power.SteadyMilliwatts).Should().Be((86_399_900_000L, 65_000L));
    }

    private static ImmutableArray<Soak> Of(string log, string temperatures = "[case, ambient]") => Analysis(log, temperatures).Soaks;

    private static ProductAnalysis Analysis(string log, string? temperatures, string member = "soaks")
    {
        string columns = temperatures is null || member != "soaks" ? "" : $", temperatures: {temperatures}";
        using ProductCheck check = ProductCheck.ForProduct(
            "product.yaml",
            $"product: x\nlabel: \"USB-C: 5V⎓3A 20V⎓3.25A\"\n{member}: [{{port: C, at: 20V 3.25A, file: log.csv{columns}, accuracy: {{volts: 0.1%, amps: 0.1%}}, measured_at: source}}]\n", null);
        check.OpenLog().Write(Encoding.UTF8.GetBytes(log));
        check.CloseLog();
        return check.Complete();
    }

    private static string Log(int seconds, Func<int, (double Volts, double Amps, double Surface, double Room)> at)
    {
        StringBuilder rows = new(Rows);
        for (int second = 0; second <= seconds; second += 5)
        {
            (double volts, double amps, double surface, double room) = at(second);
            rows.Append(CultureInfo.InvariantCulture, $"{second},{volts},{amps},{surface:0.###},{room}\n");
        }

        return rows.ToString();
    }
}
