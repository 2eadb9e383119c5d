using Portwitness.Reports.Sampling;

namespace Portwitness.Reports.Tests.Sampling;

/// <summary>Factors of tolerance limits and Cpk against printed tables.</summary>
public class ToleranceFactorTests
{
    // One-sided factors at 95 % confidence: computed with SciPy for the fact sheet (under-load, 7.1); n = 40 is printed exactly by a text on statistics.
    [Theory]
    [InlineData(3, 6.155, 7.656, 10.553)]
    [InlineData(5, 3.407, 4.203, 5.741)]
    [InlineData(8, 2.582, 3.187, 4.354)]
    [InlineData(10, 2.355, 2.911, 3.981)]
    [InlineData(20, 1.926, 2.396, 3.295)]
    [InlineData(30, 1.777, 2.220, 3.064)]
    [InlineData(50, 1.646, 2.065, 2.862)]
    public void OneSide_IsAsTabled(int samples, double k90, double k95, double k99)
    {
        ToleranceFactors.OneSide(samples, 0.90, 0.95).Should().BeApproximately(k90, 0.0006);
        ToleranceFactors.OneSide(samples, 0.95, 0.95).Should().BeApproximately(k95, 0.0006);
        ToleranceFactors.OneSide(samples, 0.99, 0.95).Should().BeApproximately(k99, 0.0006);
    }

    // Two-sided factors at 95 % confidence; n = 4 to 30 agree with a printed table of environmental statistics (under-load, 7.1).
    [Theory]
    [InlineData(3, 8.306, 9.789, 12.647)]
    [InlineData(5, 4.291, 5.077, 6.598)]
    [InlineData(8, 3.156, 3.746, 4.889)]
    [InlineData(10, 2.856, 3.393, 4.437)]
    [InlineData(20, 2.319, 2.760, 3.621)]
    [InlineData(30, 2.145, 2.555, 3.355)]
    [InlineData(50, 1.999, 2.382, 3.129)]
    public void BothSides_IsAsTabled(int samples, double k90, double k95, double k99)
    {
        ToleranceFactors.BothSides(samples, 0.90, 0.95).Should().BeApproximately(k90, 0.0006);
        ToleranceFactors.BothSides(samples, 0.95, 0.95).Should().BeApproximately(k95, 0.0006);
        ToleranceFactors.BothSides(samples, 0.99, 0.95).Should().BeApproximately(k99, 0.0006);
    }

    // NIST/SEMATECH e-Handbook, 7.2.6.3: n = 43, 90 % of all, 99 % confidence; its 1.8752 and 2.2173 are approximations of these.
    [Fact]
    public void NistExample_IsTheExactOne()
    {
        ToleranceFactors.OneSide(43, 0.90, 0.99).Should().BeApproximately(1.8740, 0.0001);
        ToleranceFactors.BothSides(43, 0.90, 0.99).Should().BeApproximately(2.2228, 0.0001);
        ToleranceFactors.OneSide(40, 0.95, 0.90).Should().BeGreaterThan(1.9);
    }

    // (n − 1)! for whole numbers, the root of pi for a half (Abramowitz and Stegun, 6.1.8).
    [Theory]
    [InlineData(1, 0)]
    [InlineData(5, 3.1780538303479458)]
    [InlineData(11, 15.104412573075516)]
    [InlineData(0.5, 0.57236494292470008)]
    public void LogGamma_IsThatOfFactorials(double x, double expected) => Distributions.LogGamma(x).Should().BeApproximately(expected, 1e-12);

    // Tables of the normal and the chi-square distribution (any textbook): 1.959964, 1.644854; 3.841459 and 18.307038 at 5 %.
    [Fact]
    public void Distributions_AreThoseOfTextbooks()
    {
        Distributions.NormalQuantile(0.975).Should().BeApproximately(1.959964, 1e-6);
        Distributions.NormalQuantile(0.95).Should().BeApproximately(1.644854, 1e-6);
        Distributions.Normal(-1).Should().BeApproximately(0.158655, 1e-6);
        Distributions.ChiSquareAbove(3.841459, 1).Should().BeApproximately(0.05, 1e-6);
        Distributions.ChiSquareAbove(18.307038, 10).Should().BeApproximately(0.05, 1e-6);
    }

    // Bissell's bound: 1.15 of 45 with z = 1.96 is 0.89 to 1.41 (published example); 1.33 one-sided 95 %: 0.79, 1.03, 1.10, 1.17 (under-load, 7.1).
    [Theory]
    [InlineData(1.15, 45, 1.96, 0.89)]
    [InlineData(1.33, 10, 1.6449, 0.79)]
    [InlineData(1.33, 30, 1.6449, 1.03)]
    [InlineData(1.33, 50, 1.6449, 1.10)]
    [InlineData(1.33, 100, 1.6449, 1.17)]
    public void CpkIsAtLeast(double cpk, int samples, double z, double least) => Capability.AtLeast(cpk, samples, z).Should().BeApproximately(least, 0.006);

    // The worked ripple of under-load, 7.1 and 7.2: 78, 83, 81, 90, 76 mV against 120 mV; Cpk 2.36, at least 0.97; (120 − 81.6)/5.41 = 7.09 is more than 1.53.
    [Fact]
    public void WorkedRipple_HasItsCpk()
    {
        double cpk = Capability.Cpk(81.6, 5.4129, null, 120)!.Value;

        cpk.Should().BeApproximately(2.36, 0.01);
        Capability.AtLeast(cpk, 5).Should().BeApproximately(0.97, 0.01);
        Capability.ByVariables(cpk, 5, "1.0").Should().Be(Contracts.V1.Verdict.Holds);
        Capability.Cpk(81.6, 0, null, 120).Should().BeNull("nothing can be said of values that are all alike");
        Capability.Cpk(81.6, 5, null, null).Should().BeNull();
    }

    // Z1.9: k is 1.53 for 5 units and 1.62 for 7 at AQL 1.0. Between them a lot is accepted by the larger and rejected by the smaller one.
    [Theory]
    [InlineData(1.52, 5, "1.0", Contracts.V1.Verdict.Fails)]
    [InlineData(1.54, 5, "1.0", Contracts.V1.Verdict.Holds)]
    [InlineData(1.52, 6, "1.0", Contracts.V1.Verdict.Fails)]
    [InlineData(1.57, 6, "1.0", Contracts.V1.Verdict.CannotTell)]
    [InlineData(1.63, 6, "1.0", Contracts.V1.Verdict.Holds)]
    [InlineData(1.11, 3, "2.5", Contracts.V1.Verdict.Fails)]
    [InlineData(9, 3, "1.0", null)]
    [InlineData(9, 51, "1.0", null)]
    [InlineData(9, 10, "4.0", null)]
    public void ByVariables_AcceptsByTheTable(double distance, int samples, string aql, Contracts.V1.Verdict? expected) =>
        Capability.ByVariables(distance / 3, samples, aql).Should().Be(expected);
}
