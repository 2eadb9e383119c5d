using Portwitness.Analysis.PdpRules;

namespace Portwitness.Analysis.Tests.PdpRules;

/// <summary>R3.2v1.1 Table 10.10: the ranges that a source with PPS owes, by its PDP.</summary>
public class PpsRulesTests
{
    // PDP in mW; least current of 9 V, 15 V and 20 V Prog in mA, 0 where none is owed.
    [Theory]
    [InlineData(15_000, 0, 0, 0)]
    [InlineData(15_001, 1650, 0, 0)]
    [InlineData(16_000, 1750, 0, 0)]
    [InlineData(20_000, 2200, 0, 0)]
    [InlineData(26_000, 2850, 0, 0)]
    [InlineData(27_000, 3000, 0, 0)]
    [InlineData(28_000, 3000, 1850, 0)]
    [InlineData(44_000, 3000, 2900, 0)]
    [InlineData(45_000, 0, 3000, 0)]
    [InlineData(46_000, 0, 3000, 2300)]
    [InlineData(59_000, 0, 3000, 2950)]
    [InlineData(60_000, 0, 0, 3000)]
    [InlineData(61_000, 0, 0, 3050)]
    [InlineData(99_000, 0, 0, 4950)]
    [InlineData(100_000, 0, 0, 5000)]
    [InlineData(101_000, 0, 0, 3000)]
    public void OwedRanges_FollowTable1010(int pdp, int prog9, int prog15, int prog20)
    {
        new[] { 9000, 15000, 20000 }.Select(prog => PpsRules.MinimumFor(prog, pdp) ?? 0).Should().Equal(prog9, prog15, prog20);
    }

    // 10.2.3.3: in EPR mode 20 V gives 100 W, and not more.
    [Theory]
    [InlineData(101_000)]
    [InlineData(240_000)]
    public void EprModeOwes100W(int pdp) => PpsRules.MinimumFor(20000, pdp, true).Should().Be(5000);

    [Fact]
    public void OtherRanges_AreNotOwed() => PpsRules.MinimumFor(5000, 100_000).Should().BeNull();

    [Theory]
    [InlineData(20_000, 9000, 2200)]
    [InlineData(27_000, 9000, 3000)]
    [InlineData(26_999, 9000, 2950)]
    public void Rounding_GoesDownTo50Milliamperes(int pdp, int volts, int expected) => PpsRules.RoundDown(pdp, volts).Should().Be(expected);
}
