using Portwitness.Analysis.Phrases;
using Portwitness.Product.Pack;

namespace Portwitness.Product.Tests.Pack;

/// <summary>What is reckoned of a pack: arithmetic over what is stated, with usual losses (common practice, no source).</summary>
public class PackFigureTests
{
    [Fact]
    public void Figures_AreReckonedFromWhatIsStated()
    {
        // 4S of 5000 mAh 3.6 V: 72 Wh. 30 W take 72 / 30 = 2.4 h at least; 2.4 / 0.94 x 1.16 = 2.96 h, 2.4 / 0.88 x 1.47 = 4.01 h.
        // 88 % of 72 Wh are 63.36 Wh; 0.80 and 0.90 of it over 19.35 Wh are 2.62 and 2.95.
        PackFigures pack = ProductRun.Typed("""
            product: x
            label: "Input: 20V 1.5A\nOutput: USB-C 65W Max\nBattery: 20000mAh 3.6V 72Wh"
            battery:
              cells: {series: 4, capacity_mah: 5000, nominal_v: 3.6, full_v: 4.2, empty_v: 3, mass_g: 69, size_mm: [21.2, 70.2]}
              mass_g: 450
              size_mm: [160, 72, 28]
              fills: [{device: handset, energy_wh: 19.35}]
            """).Pack!;

        pack.All().Select(static one => $"{one.About}: {one.Value.Least}{(one.Value.Most is { } most ? $" to {most}" : "")} {one.Value.Unit}").Should().Equal(
            "a cell by volume: 726 WattHoursPerLitre",
            "a cell by mass: 261 WattHoursPerKilogram",
            "the product by mass: 160 WattHoursPerKilogram",
            "the product by volume: 223 WattHoursPerLitre",
            "current of a cell, empty, at full output: 5888 Milliamperes",
            "current of a cell, empty, at full input: 2300 Milliamperes",
            "time to recharge: 178 to 241 Minutes",
            "fills of handset: 26 to 29 TenthsOfFills");
    }

    // 12,600 mAh at 5 V are 63 Wh, which count before any default.
    [Fact]
    public void Fills_GoByTheRatedCapacity()
    {
        PackFigures pack = ProductRun.Typed("""
            product: x
            label: "Battery: 20000mAh 3.6V 72Wh\nRated capacity: 12600mAh (5V 3A)"
            battery: {fills: [{device: handset, energy_wh: 20}]}
            """).Pack!;

        PhraseText.Of(pack.All().Single().Basis).Should().Be("20 Wh each, of 63 Wh by the rated capacity; 80 to 90 % arrive, common practice");
        pack.All().Single().Value.Should().Be(new FigureValue(25, 28, FigureUnit.TenthsOfFills));
    }

    // Two sockets that take power at once may be faster than the larger of them: 72 Wh at 30 W take 144 min through that one.
    [Theory]
    [InlineData("Input: USB-C1: 20V 1.5A", "at 30 W, printed, with usual losses and end phase, no standard; never less than 144 min")]
    [InlineData(
        "Input: USB-C1: 20V 1.5A\\nInput: USB-C2: 9V 2A",
        "at 30 W, the largest printed input by itself, with usual losses and end phase, no standard; never less than 144 min through it")]
    public void TimeToRecharge_SaysThroughWhich(string input, string basis) =>
        ProductRun.Typed($"product: x\nlabel: \"{input}\\nBattery: 20000mAh 3.6V 72Wh\"\nbattery: {{cells: {{series: 4, capacity_mah: 5000, nominal_v: 3.6}}}}\n").Pack!
            .All().Where(static one => one.About == "time to recharge").Select(static one => PhraseText.Of(one.Basis)).Should().Equal(basis);

    [Fact]
    public void NothingStatedOfTheBuild_NothingReckoned() =>
        ProductRun.Typed("product: x\nlabel: \"Battery: 20000mAh 3.6V 72Wh\"\n").Pack.Should().BeNull();
}
