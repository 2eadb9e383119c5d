using Portwitness.Contracts.V1;
using Portwitness.Reports.Comparing;

namespace Portwitness.Reports.Tests;

/// <summary>Mean, deviation and outliers against published examples.</summary>
public sealed class SpreadStatisticsTests
{
    private static readonly QuantityKey Key = new("C", "", "mean VBUS", "mV");

    // NIST Statistical Reference Datasets, Michelson and Mavro: certified values, from memory. Michelson: 100 speeds of light in air, mean
    // 299.852400000000, s 0.0790105478190518 (thousands of km/s); here the first ten of them, by hand.
    [Fact]
    public void MeanAndDeviation_AreExact()
    {
        SpreadQuantity spread = Of(850, 740, 900, 1070, 930, 850, 950, 980, 980, 880);

        (spread.MeanThousandths, spread.Least, spread.Most).Should().Be((913_000, 740, 1070));

        // Squared distances from 913: 3969 + 29929 + 169 + 24649 + 289 + 3969 + 1369 + 4489 + 4489 + 1089 = 74410; over 9, the root.
        spread.DeviationThousandths.Should().Be(90_927);
    }

    // NIST StRD, NumAcc1 and NumAcc2, from memory: 10000001, 10000003, 10000002 have mean 10000002 and s 1; values that plain sums of floats lose.
    [Fact]
    public void LargeValues_LoseNothing()
    {
        SpreadQuantity spread = Of(10_000_001, 10_000_003, 10_000_002);

        (spread.MeanThousandths, spread.DeviationThousandths).Should().Be((10_000_002_000, 1000));
    }

    // NIST/SEMATECH e-Handbook, 7.1.6 gives "245" style data from memory of Iglewicz and Hoaglin (1993): 2.1, 2.6, 2.4, 2.5, 2.3, 2.1, 2.3, 2.6, 8.2, 8.3
    // have median 2.45, MAD 0.2, and both last values far beyond 3.5 (19.4 and 19.7).
    [Fact]
    public void Outliers_AreThoseOfThePublishedExample()
    {
        Of(21, 26, 24, 25, 23, 21, 23, 26, 82, 83).Outliers.Should().Equal("s9", "s10");
    }

    // 0.6745 · d / MAD = 3.5 at d = 5.189 MAD: with a MAD of 1000, 5189 is within and 5190 is beyond.
    [Theory]
    [InlineData(5189, 0)]
    [InlineData(5190, 1)]
    public void Limit_IsThreeAndAHalf(int distance, int outliers) =>
        Of(-1000, 1000, -1000, 1000, 0, -500, 1000, -1000, 0, distance, -1000).Outliers.Should().HaveCount(outliers);

    [Theory]
    [InlineData(new long[] { 5 })]
    [InlineData(new long[] { 5, 5, 5, 90 })]
    [InlineData(new long[] { 5, 5, 5, 5, 5, 90 })]
    public void FewSamplesOrNoScale_HaveNoOutliers(long[] values) => Of(values).Outliers.Should().BeEmpty();

    [Fact]
    public void OneSample_HasNoDeviation() => Of(7).HasDeviationThousandths.Should().BeFalse();

    [Fact]
    public void AlikeSamples_HaveNone() => Of(7, 7, 7).DeviationThousandths.Should().Be(0);

    private static SpreadQuantity Of(params long[] values) => SpreadStatistics.Of(Key, [.. values.Select((value, index) => (new Quantity(value), $"s{index + 1}"))]);
}
