namespace Portwitness.Text.Tests;

public class AmountWordsTests
{
    [Theory]
    [InlineData("5V", 5000)]
    [InlineData("3.3v", 3300)]
    [InlineData("5000mV", 5000)]
    [InlineData("1000V", 1_000_000)]
    [InlineData("1000.001V", null)]
    [InlineData("3.3005V", null)]
    [InlineData("5A", null)]
    [InlineData("V", null)]
    [InlineData("5", null)]
    public void Voltage_IsInMillivolts(string word, int? expected) => AmountWords.Millivolts(word).Should().Be(expected);

    [Theory]
    [InlineData("5-21V", 5000, 21000)]
    [InlineData("5V–21V", 5000, 21000)]
    [InlineData("3300-11000mV", 3300, 11000)]
    public void Range_HasTheUnitOfItsEnd(string word, int minimum, int maximum) =>
        AmountWords.MillivoltRange(word).Should().Be((minimum, maximum));

    [Theory]
    [InlineData("3A", 3000, null)]
    [InlineData("3A/3.25A", 3000, 3250)]
    public void Currents_AreOneOrTwo(string word, int first, int? second) =>
        AmountWords.MilliamperePair(word).Should().Be((first, second));

    [Theory]
    [InlineData("250us", 250L)]
    [InlineData("126ms", 126_000L)]
    [InlineData("0.5s", 500_000L)]
    [InlineData("5min", 300_000_000L)]
    [InlineData("2h", 7_200_000_000L)]
    [InlineData("8784h", 31_622_400_000_000L)]
    [InlineData("8785h", null)]
    [InlineData("0.5us", null)]
    [InlineData("5", null)]
    public void Time_IsInMicroseconds(string word, long? expected) => AmountWords.Microseconds(word).Should().Be(expected);

    [Theory]
    [InlineData("0x0801912C", 0x0801912Cu)]
    [InlineData("0X1", 1u)]
    [InlineData("0x123456789", null)]
    [InlineData("801912C", null)]
    public void Word_HasItsPrefix(string word, uint? expected) => AmountWords.Word(word).Should().Be(expected);
}
