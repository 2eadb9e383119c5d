using Portwitness.Analysis.PdpRules;

namespace Portwitness.Analysis.Tests.PdpRules;

/// <summary>R3.2v1.1 Tables 10.2 to 10.4 and the rounding rule of 10.2.</summary>
public class PowerRulesTests
{
    // The worked roundings of PDP / V (computed from 10.2: down or up to 10 mA).
    [Theory]
    [InlineData(20, 9, 2220, 2230)]
    [InlineData(25, 9, 2770, 2780)]
    [InlineData(30, 15, 2000, 2000)]
    [InlineData(33, 15, 2200, 2200)]
    [InlineData(35, 15, 2330, 2340)]
    [InlineData(65, 20, 3250, 3250)]
    [InlineData(67, 20, 3350, 3350)]
    [InlineData(140, 28, 5000, 5000)]
    public void Rounding_GoesDownOrUpTo10Milliamperes(int watts, int volts, int down, int up)
    {
        PowerRules.RoundDown(watts * 1000, volts * 1000).Should().Be(down);
        PowerRules.RoundUp(watts * 1000, volts * 1000).Should().Be(up);
    }

    // Table 10.2: which voltages are normative; boundaries belong to the lower row.
    [Theory]
    [InlineData(15, "5")]
    [InlineData(16, "5 9")]
    [InlineData(27, "5 9")]
    [InlineData(28, "5 9 15")]
    [InlineData(45, "5 9 15")]
    [InlineData(46, "5 9 15 20")]
    [InlineData(60, "5 9 15 20")]
    [InlineData(100, "5 9 15 20")]
    public void NormativeVoltages_FollowTheRowsOfTable102(int watts, string volts)
    {
        IEnumerable<int> required = new[] { 5, 9, 15, 20 }
            .Where(v => PowerRules.For(v * 1000, watts * 1000, watts * 1000).Required);
        string.Join(' ', required).Should().Be(volts);
    }

    // Table 10.2: least and largest current in mA.
    [Theory]
    [InlineData(10, 5, 2000, 2000)]
    [InlineData(15, 5, 3000, 3000)]
    [InlineData(20, 5, 3000, 4000)]
    [InlineData(25, 5, 3000, 5000)]
    [InlineData(65, 5, 3000, 5000)]
    [InlineData(18, 9, 2000, 2000)]
    [InlineData(27, 9, 3000, 3000)]
    [InlineData(30, 9, 3000, 3340)]
    [InlineData(45, 9, 3000, 5000)]
    [InlineData(30, 15, 2000, 2000)]
    [InlineData(45, 15, 3000, 3000)]
    [InlineData(65, 15, 3000, 4340)]
    [InlineData(80, 15, 3000, 5000)]
    [InlineData(60, 20, 3000, 3000)]
    [InlineData(65, 20, 3250, 3250)]
    [InlineData(100, 20, 5000, 5000)]
    [InlineData(140, 20, 3000, 5000)]
    public void Currents_FollowTable102(int watts, int volts, int least, int most)
    {
        CurrentRule rule = PowerRules.For(volts * 1000, watts * 1000, watts * 1000);
        (rule.Minimum, rule.Maximum).Should().Be((least, most));
    }

    // Table 10.4: an 80 W port at 40 W.
    [Theory]
    [InlineData(5, 3000)]
    [InlineData(9, 3000)]
    [InlineData(15, 2660)]
    [InlineData(20, 2000)]
    public void ReducedPort_KeepsVoltagesAndLowersCurrents(int volts, int least)
    {
        CurrentRule rule = PowerRules.For(volts * 1000, 80_000, 40_000);
        (rule.Required, rule.Minimum).Should().Be((true, least));
    }
}
