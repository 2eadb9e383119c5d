using Portwitness.PowerDelivery.Units;
using Portwitness.Product.Parts;

namespace Portwitness.Product.Tests.Parts;

/// <summary>Ripple currents and conduction losses against worked values.</summary>
public class ConverterCurrentTests
{
    // Reckoned once from the formulae of makers' application notes on buck and boost stages, and again by integrating the waveforms.
    [Theory]
    [InlineData(3_700, 9_000, 2_000, 2_200, 500_000, 1_000_000, 2_422, 2_394)]
    [InlineData(3_700, 9_000, 2_000, 2_200, 500_000, 900_000, 2_636, 2_610)]
    [InlineData(14_400, 20_000, 5_000, 4_700, 300_000, 1_000_000, 3_196, 3_118)]
    [InlineData(12_000, 20_000, 5_000, 4_700, 300_000, 1_000_000, 4_153, 4_082)]
    [InlineData(14_400, 28_000, 5_000, 4_700, 300_000, 1_000_000, 4_967, 4_859)]
    [InlineData(20_000, 5_000, 3_000, 4_700, 400_000, 1_000_000, 576, 0)]
    [InlineData(28_000, 20_000, 5_000, 6_800, 300_000, 1_000_000, 809, 0)]
    public void RippleAtThePort_IsThatOfTheWaveform(int pack, int volts, int amperes, int nanohenries, int hertz, int ppm, int exact, int simple)
    {
        (Voltage, Current) output = (Voltage.FromMillivolts(volts), Current.FromMilliamperes(amperes));

        CapacitorCurrent.AtPort(output, pack, ppm, Coil(nanohenries, hertz)).Should().BeInRange(exact - 1, exact + 1);
        CapacitorCurrent.AtPort(output, pack, ppm, null).Should().BeInRange(simple - 1, simple + 1);
    }

    [Theory]
    [InlineData(20_000, 5_000, 3_000, 4_700, 400_000, 1_331, 1_299)]
    [InlineData(16_800, 9_000, 3_000, 4_700, 400_000, 1_568, 1_496)]
    [InlineData(28_000, 20_000, 5_000, 6_800, 300_000, 2_360, 2_259)]
    [InlineData(3_700, 9_000, 2_000, 2_200, 500_000, 572, 0)]
    [InlineData(12_000, 20_000, 5_000, 4_700, 300_000, 983, 0)]
    public void RippleAtThePack_IsThatOfTheWaveform(int pack, int volts, int amperes, int nanohenries, int hertz, int exact, int simple)
    {
        (Voltage, Current) output = (Voltage.FromMillivolts(volts), Current.FromMilliamperes(amperes));

        CapacitorCurrent.AtPack(output, pack, 1_000_000, Coil(nanohenries, hertz)).Should().BeInRange(exact - 1, exact + 1);
        CapacitorCurrent.AtPack(output, pack, 1_000_000, null).Should().BeInRange(simple - 1, simple + 1);
    }

    // I²R: 10 A through 4 mΩ are 0.400 W, through two 0.100 W each, through three 0.044 W each; 1.4 times that when hot.
    [Theory]
    [InlineData(1, 560)]
    [InlineData(2, 140)]
    [InlineData(3, 62)]
    public void Loss_IsSharedByTheSquare(int parallel, int milliwatts) =>
        SwitchLoss.HotMilliwatts(Current.FromMilliamperes(10_000), 4_000, parallel).Should().Be(milliwatts);

    private static ProductPart Coil(int nanohenries, int hertz) => new("L1", "C", null, null, 0, 1, 1) { Kind = PartKind.Inductor, Nanohenries = nanohenries, Hertz = hertz };
}
