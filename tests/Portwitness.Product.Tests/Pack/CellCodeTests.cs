using Portwitness.Product.Pack;

namespace Portwitness.Product.Tests.Pack;

/// <summary>Codes of cells, after summaries of IEC 61960 (second-hand) and common practice, no source.</summary>
public class CellCodeTests
{
    [Theory]
    [InlineData("18650", "⌀ 18 x 65 mm")]
    [InlineData("21700", "⌀ 21 x 70 mm")]
    [InlineData("14500", "⌀ 14 x 50 mm")]
    [InlineData("INR18650-35", "⌀ 18 x 65 mm")]
    [InlineData("INR19/66", "⌀ 19 x 66 mm")]
    [InlineData("4INR19/66-2", "⌀ 19 x 66 mm")]
    [InlineData("1ICP11/58/85", "11 x 58 x 85 mm")]
    [InlineData("ICP08/34/150", "8 x 34 x 150 mm")]
    [InlineData("ICPT5/34/50", "0.5 x 34 x 50 mm")]
    [InlineData("606090", "6 x 60 x 90 mm | 60 x 60 x 90 mm")]
    [InlineData("103450", "1 x 34 x 50 mm | 10 x 34 x 50 mm")]
    [InlineData("1165115", "1.1 x 65 x 115 mm | 11.6 x 51 x 15 mm")]
    [InlineData("11/58/85", "")]
    [InlineData("65W", "")]
    [InlineData("", "")]
    [InlineData("123456789", "")]
    public void Code_SaysTheSizesItMayMean(string code, string sizes) =>
        string.Join(" | ", CellCode.Read(code).Select(static size => size.Text)).Should().Be(sizes);

    // Computed from size and energy; the sizes of a usual cell from memory.
    [Theory]
    [InlineData(5000, 3700, 600, 6000, 9000, 571)]
    [InlineData(5000, 3700, 6000, 6000, 9000, 57)]
    [InlineData(1800, 3700, 1000, 3400, 5000, 392)]
    [InlineData(5000, 3850, 1100, 5800, 8500, 355)]
    [InlineData(9500, 3850, 1100, 5800, 8500, 674)]
    [InlineData(3500, 3600, 1850, 6520, null, 719)]
    [InlineData(2500, 3600, 1850, 6520, null, 514)]
    public void Energy_BySize(int milliampereHours, int millivolts, int first, int second, int? third, int wattHoursPerLitre) =>
        new CellSize(first, second, third).WattHoursPerLitre((long)milliampereHours * millivolts).Should().Be(wattHoursPerLitre);
}
