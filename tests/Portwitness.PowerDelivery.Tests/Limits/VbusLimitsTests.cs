using Portwitness.PowerDelivery.Limits;
using Portwitness.PowerDelivery.Units;

namespace Portwitness.PowerDelivery.Tests.Limits;

/// <summary>R3.2v1.1, Tables 7.23 and 7.25.</summary>
public class VbusLimitsTests
{
    [Theory]
    [InlineData(5_000, 4_750, 5_500)] // vSafe5V is the wider one
    [InlineData(9_000, 8_550, 9_450)]
    [InlineData(20_000, 19_000, 21_000)]
    [InlineData(48_000, 45_600, 50_400)]
    public void FixedSupply_HasFivePercent(int nominal, int least, int most) => VbusLimits.OfFixed(Voltage.FromMillivolts(nominal)).Should().Be(
        new VoltageBand(Voltage.FromMillivolts(least), Voltage.FromMillivolts(most)));

    // 5 % of 3.42 V are 171 mV; of 3.35 V 167.5, of which the whole millivolts are inside.
    [Theory]
    [InlineData(3_420, 3_249, 3_591)]
    [InlineData(3_350, 3_183, 3_517)]
    public void AdjustableSupply_HasFivePercentOfTheRequest(int asked, int least, int most) => VbusLimits.Around(Voltage.FromMillivolts(asked)).Should().Be(
        new VoltageBand(Voltage.FromMillivolts(least), Voltage.FromMillivolts(most)));

    [Theory]
    [InlineData(900, 750, 1_150)] // iPpsCLMin 1 A
    [InlineData(1_000, 850, 1_150)]
    [InlineData(3_000, 2_850, 3_150)]
    [InlineData(5_000, 4_750, 5_250)]
    public void PpsCurrentLimit_IsIPpsCLNew(int asked, int least, int most)
    {
        VbusLimits.PpsCurrentLimitMinimum(Current.FromMilliamperes(asked)).Milliamperes.Should().Be(least);
        VbusLimits.PpsCurrentLimitMaximum(Current.FromMilliamperes(asked)).Milliamperes.Should().Be(most);
    }

    [Fact]
    public void Bands_WidenAndJoin()
    {
        VoltageBand band = VbusLimits.Safe5V.WidenedBy(VbusLimits.SrcValid);

        band.ToString().Should().Be("4.25 V to 6 V");
        band.And(VbusLimits.Around(Voltage.FromMillivolts(20_000))).ToString().Should().Be("4.25 V to 21 V");
        VbusLimits.Around(Voltage.FromMillivolts(20_000)).And(band).ToString().Should().Be("4.25 V to 21 V");
    }
}
