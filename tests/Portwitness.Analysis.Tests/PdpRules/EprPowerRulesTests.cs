using Portwitness.Analysis.PdpRules;

namespace Portwitness.Analysis.Tests.PdpRules;

/// <summary>R3.2v1.1 Tables 10.12 and 10.13, and ratings as 10.1 has them.</summary>
public class EprPowerRulesTests
{
    // Which voltages a maximum PDP makes normative; boundaries belong to the lower row.
    [Theory]
    [InlineData(100, "")]
    [InlineData(101, "28")]
    [InlineData(140, "28")]
    [InlineData(141, "28 36")]
    [InlineData(180, "28 36")]
    [InlineData(181, "28 36 48")]
    [InlineData(240, "28 36 48")]
    public void NormativeVoltages_FollowTable1012(int watts, string volts) => Required(watts, watts).Should().Be(volts);

    // What stays normative when the present PDP is reduced.
    [Theory]
    [InlineData(27, "")]
    [InlineData(28, "28")]
    [InlineData(45, "28")]
    [InlineData(46, "28 36")]
    [InlineData(60, "28 36")]
    [InlineData(61, "28 36 48")]
    public void ReducedPort_FollowsTable1013(int present, string volts) => Required(240, present).Should().Be(volts);

    // Least and largest current in mA: x / V rounded down or up, 5 A above the row.
    [Theory]
    [InlineData(28, 101, 101, 3600, 3610)]
    [InlineData(28, 140, 140, 5000, 5000)]
    [InlineData(28, 240, 240, 5000, 5000)]
    [InlineData(36, 141, 141, 3910, 3920)]
    [InlineData(36, 180, 180, 5000, 5000)]
    [InlineData(48, 181, 181, 3770, 3780)]
    [InlineData(48, 240, 240, 5000, 5000)]
    [InlineData(48, 240, 100, 2080, 2090)]
    public void Currents_FollowTables1012And1013(int volts, int maximum, int present, int least, int most)
    {
        CurrentRule rule = PowerRules.For(volts * 1000, maximum * 1000, present * 1000);
        (rule.Minimum, rule.Maximum).Should().Be((least, most));
    }

    // 10.2.3.3: 100 W at 20 V in EPR mode, perhaps less in SPR mode.
    [Theory]
    [InlineData(101, false, 3000)]
    [InlineData(101, true, 5000)]
    [InlineData(100, false, 5000)]
    public void TwentyVolts_DependOnTheMode(int watts, bool inEprMode, int least) =>
        PowerRules.For(20000, watts * 1000, watts * 1000, inEprMode).Minimum.Should().Be(least);

    [Theory]
    [InlineData(140_000, 28000)]
    [InlineData(140_001, 36000)]
    [InlineData(180_000, 36000)]
    [InlineData(180_001, 48000)]
    public void EprAvs_EndsWithTheRow(int pdp, int end) => PowerRules.EprAvsEnd(pdp).Should().Be(end);

    [Theory]
    [InlineData(9_500, true)]
    [InlineData(9_750, false)]
    [InlineData(10_000, true)]
    [InlineData(10_500, false)]
    [InlineData(240_000, true)]
    public void Ratings_AreWholeWattsAndHalfOnesBelow10W(int milliwatts, bool expected) =>
        PowerRules.IsRatingFigure(milliwatts).Should().Be(expected);

    [Theory]
    [InlineData(9_400, 9_500)]
    [InlineData(9_500, 9_500)]
    [InlineData(9_501, 10_000)]
    [InlineData(10_001, 11_000)]
    [InlineData(11_000, 11_000)]
    public void NextRating_IsTheFigureOrTheNextAbove(int milliwatts, int expected) =>
        PowerRules.NextRating(milliwatts).Should().Be(expected);

    private static string Required(int maximum, int present) => string.Join(' ', new[] { 28, 36, 48 }
        .Where(volts => PowerRules.For(volts * 1000, maximum * 1000, present * 1000).Required));
}
