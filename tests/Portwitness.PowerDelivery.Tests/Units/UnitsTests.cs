using Portwitness.PowerDelivery.Units;

namespace Portwitness.PowerDelivery.Tests.Units;

public sealed class UnitsTests
{
    [Theory]
    [InlineData(0, "0")]
    [InlineData(20_000, "20")]
    [InlineData(3_250, "3.25")]
    [InlineData(25, "0.025")]
    [InlineData(-500, "-0.5")]
    [InlineData(int.MaxValue, "2147483.647")]
    [InlineData(int.MinValue, "-2147483.648")]
    public void Value_PrintsInWholeUnits(int value, string number)
    {
        Voltage.FromMillivolts(value).ToString().Should().Be($"{number} V");
        Current.FromMilliamperes(value).ToString().Should().Be($"{number} A");
        Power.FromMilliwatts(value).ToString().Should().Be($"{number} W");
        Energy.FromMilliwattHours(value).ToString().Should().Be($"{number} Wh");
    }

    [Fact]
    public void Default_IsZero()
    {
        default(Voltage).Should().Be(Voltage.Zero);
        default(Current).Should().Be(Current.Zero);
        default(Power).Should().Be(Power.Zero);
        default(Energy).Should().Be(Energy.Zero);
    }

    [Fact]
    public void SumAndDifference_AreExact()
    {
        (Voltage.FromMillivolts(5) + Voltage.FromMillivolts(7)).Millivolts.Should().Be(12);
        (Voltage.FromMillivolts(5) - Voltage.FromMillivolts(7)).Millivolts.Should().Be(-2);
        (Current.FromMilliamperes(5) + Current.FromMilliamperes(7)).Milliamperes.Should().Be(12);
        (Current.FromMilliamperes(5) - Current.FromMilliamperes(7)).Milliamperes.Should().Be(-2);
        (Power.FromMilliwatts(5) + Power.FromMilliwatts(7)).Milliwatts.Should().Be(12);
        (Power.FromMilliwatts(5) - Power.FromMilliwatts(7)).Milliwatts.Should().Be(-2);
        (Energy.FromMilliwattHours(5) + Energy.FromMilliwattHours(7)).MilliwattHours.Should().Be(12);
        (Energy.FromMilliwattHours(5) - Energy.FromMilliwattHours(7)).MilliwattHours.Should().Be(-2);
    }

    [Fact]
    public void SumBeyondTheRange_Throws()
    {
        ((Action)(() => _ = Voltage.FromMillivolts(int.MaxValue) + Voltage.FromMillivolts(1))).Should().Throw<OverflowException>();
        ((Action)(() => _ = Current.FromMilliamperes(int.MinValue) - Current.FromMilliamperes(1))).Should().Throw<OverflowException>();
        ((Action)(() => _ = Power.FromMilliwatts(int.MaxValue) + Power.FromMilliwatts(1))).Should().Throw<OverflowException>();
        ((Action)(() => _ = Energy.FromMilliwattHours(int.MinValue) - Energy.FromMilliwattHours(1))).Should().Throw<OverflowException>();
    }

    [Theory]
    [InlineData(1, 2)]
    [InlineData(2, 2)]
    [InlineData(3, 2)]
    public void Order_IsThatOfTheNumbers(int left, int right)
    {
        (Voltage v, Voltage w) = (Voltage.FromMillivolts(left), Voltage.FromMillivolts(right));
        new[] { v < w, v <= w, v >= w, v > w, v.CompareTo(w) < 0 }.Should().Equal(Expected(left, right));
        (Current a, Current b) = (Current.FromMilliamperes(left), Current.FromMilliamperes(right));
        new[] { a < b, a <= b, a >= b, a > b, a.CompareTo(b) < 0 }.Should().Equal(Expected(left, right));
        (Power p, Power q) = (Power.FromMilliwatts(left), Power.FromMilliwatts(right));
        new[] { p < q, p <= q, p >= q, p > q, p.CompareTo(q) < 0 }.Should().Equal(Expected(left, right));
        (Energy e, Energy f) = (Energy.FromMilliwattHours(left), Energy.FromMilliwattHours(right));
        new[] { e < f, e <= f, e >= f, e > f, e.CompareTo(f) < 0 }.Should().Equal(Expected(left, right));
    }

    private static bool[] Expected(int left, int right) =>
        [left < right, left <= right, left >= right, left > right, left < right];
}
