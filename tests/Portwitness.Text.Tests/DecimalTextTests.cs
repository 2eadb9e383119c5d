using System.Globalization;
using System.Numerics;
using System.Text;
using CsCheck;

namespace Portwitness.Text.Tests;

public class DecimalTextTests
{
    // By hand: the number times ten to the power, rounded to the nearest, halves away from zero.
    [Theory]
    [InlineData("1.25", 3, 1250)]
    [InlineData("1,25", 3, 1250)]
    [InlineData(".5", 0, 1)]
    [InlineData("-0.5", 0, -1)]
    [InlineData("0.49999", 0, 0)]
    [InlineData("5.", 0, 5)]
    [InlineData("+7", 0, 7)]
    [InlineData("1.25e-3", 6, 1250)]
    [InlineData("1E+3", 0, 1000)]
    [InlineData("0e99", 50, 0)]
    [InlineData("1e-99", 0, 0)]
    [InlineData("000000000000000000000000000012", 0, 12)]
    [InlineData("0.000000000000000000000000000012", 31, 120)]
    [InlineData("9223372036854775807", 0, long.MaxValue)]
    [InlineData("-9223372036854775808", 0, long.MinValue)]
    [InlineData("9223372036854775806.5", 0, long.MaxValue - 1)]
    public void Number_IsReadExactly(string text, int power, long expected)
    {
        DecimalText.TryRead(Encoding.ASCII.GetBytes(text), power, out long value).Should().BeTrue();
        value.Should().Be(expected);
    }

    [Theory]
    [InlineData("")]
    [InlineData("-")]
    [InlineData(".")]
    [InlineData("1.2.3")]
    [InlineData("1.2,3")]
    [InlineData("1 2")]
    [InlineData("0x12")]
    [InlineData("1e")]
    [InlineData("1e+")]
    [InlineData("1e101")]
    [InlineData("e5")]
    [InlineData("9223372036854775808")]
    [InlineData("-9223372036854775809")]
    [InlineData("1e19")]
    public void WhatIsNoNumberOf64Bits_IsNotRead(string text) =>
        DecimalText.TryRead(Encoding.ASCII.GetBytes(text), 0, out _).Should().BeFalse();

    [Theory]
    [InlineData("1,5", DecimalMark.Point, false)]
    [InlineData("1.5", DecimalMark.Point, true)]
    [InlineData("1,5", DecimalMark.Comma, true)]
    [InlineData("1.5", DecimalMark.Comma, false)]
    public void DecimalMark_IsTheOneAskedFor(string text, DecimalMark mark, bool isRead) =>
        DecimalText.TryRead(Encoding.ASCII.GetBytes(text), 1, out _, mark).Should().Be(isRead);

    // Against arbitrary-precision integers.
    [Fact]
    public void AnyNumber_IsThatOfIntegers() => Gen.Select(Gen.Long, Gen.Int[0, 18], Gen.Int[-6, 6], Gen.Int[1, 3600]).Sample(
        (digits, decimals, power, factor) =>
        {
            BigInteger magnitude = BigInteger.Abs(digits);
            string padded = magnitude.ToString(CultureInfo.InvariantCulture).PadLeft(decimals + 1, '0');
            string text = $"{(digits < 0 ? "-" : "")}{padded[..^decimals]}.{padded[^decimals..]}";
            BigInteger twice = 2 * magnitude * factor * BigInteger.Pow(10, power + 6);
            BigInteger divisor = BigInteger.Pow(10, decimals + 6);
            BigInteger expected = BigInteger.Divide(twice + divisor, 2 * divisor) * digits.CompareTo(0);
            bool fits = expected >= long.MinValue && expected <= long.MaxValue;

            return DecimalText.TryRead(Encoding.ASCII.GetBytes(text), power, out long value, factor: factor) == fits
                && (!fits || value == expected);
        });

    [Theory]
    [InlineData("3.25", 3, 3250L)]
    [InlineData("-3.25", 3, -3250L)]
    [InlineData("3.2505", 3, null)]
    [InlineData("3,25", 3, null)]
    [InlineData("3e2", 3, null)]
    [InlineData("", 3, null)]
    [InlineData("٣", 3, null)]
    [InlineData("00000000000000000001", 0, 1L)]
    [InlineData("000000000000000000001", 0, null)]
    public void ExactNumber_IsWholeInItsUnit(string text, int power, long? expected) =>
        DecimalText.Exact(text, power).Should().Be(expected);
}
