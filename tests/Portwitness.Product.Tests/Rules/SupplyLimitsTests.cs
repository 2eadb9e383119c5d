using Portwitness.PowerDelivery.Units;
using Portwitness.Product.Printed;

namespace Portwitness.Product.Tests.Rules;

/// <summary>
/// (EU) 2019/1782 Annex II and 10 CFR 430.32(w). Values in per cent were worked out from the published formulae with a calculator,
/// to two digits; the step at 49 W is in the tables.
/// </summary>
public class SupplyLimitsTests
{
    [Theory]
    [InlineData(0.5, 41.00, 34.55, 31.55)]
    [InlineData(1, 66.00, 60.40, 56.40)]
    [InlineData(2.5, 73.16, 68.19, 62.97)]
    [InlineData(5, 77.73, 73.62, 68.17)]
    [InlineData(10, 81.95, 78.70, 73.37)]
    [InlineData(12, 82.96, 79.94, 74.74)]
    [InlineData(15, 84.13, 81.39, 76.41)]
    [InlineData(18, 85.00, 82.49, 77.78)]
    [InlineData(20, 85.47, 83.08, 78.57)]
    [InlineData(25, 86.35, 84.25, 80.24)]
    [InlineData(27, 86.62, 84.61, 80.82)]
    [InlineData(30, 86.95, 85.07, 81.61)]
    [InlineData(36, 87.40, 85.75, 82.98)]
    [InlineData(45, 87.73, 86.35, 84.65)]
    [InlineData(49, 87.77, 86.50, 85.29)]
    [InlineData(60, 88.00, 87.00, 86.00)]
    [InlineData(250, 88.00, 87.00, 86.00)]
    [InlineData(300, 87.50, 87.50, 86.00)]
    public void Efficiency_IsThatOfTheTables(double watts, double basic, double low, double multiple)
    {
        Power power = Power.FromMilliwatts((int)(watts * 1000));

        (SupplyLimits.Efficiency(SupplyKind.Basic, power) * 100).Should().BeApproximately(basic, 0.0051);
        (SupplyLimits.Efficiency(SupplyKind.LowVoltage, power) * 100).Should().BeApproximately(low, 0.0051);
        (SupplyLimits.Efficiency(SupplyKind.MultipleVoltage, power) * 100).Should().BeApproximately(multiple, 0.0051);
    }

    [Theory]
    [InlineData(49_000, 100)]
    [InlineData(49_001, 210)]
    [InlineData(250_000, 210)]
    [InlineData(250_001, 500)]
    public void NoLoad_IsThatOfTheTables(int milliwatts, int limit)
    {
        SupplyLimits.NoLoad(SupplyKind.Basic, Power.FromMilliwatts(milliwatts)).Should().Be(limit);
        SupplyLimits.NoLoad(SupplyKind.MultipleVoltage, Power.FromMilliwatts(milliwatts)).Should().Be(300);
    }
}
