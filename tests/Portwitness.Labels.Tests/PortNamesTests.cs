namespace Portwitness.Labels.Tests;

public sealed class PortNamesTests
{
    [Theory]
    [InlineData("USB-C1", "C1")]
    [InlineData("Type-C1", "C1")]
    [InlineData("USB Type-C 1", "C1")]
    [InlineData("usb_c", "C")]
    [InlineData("USB-A", "A")]
    [InlineData(" C1 ", "C1")]
    [InlineData("USB", "USB")]
    [InlineData("USB1", "USB1")]
    [InlineData("OUT1", "OUT1")]
    [InlineData("Micro USB", "Micro USB")]
    [InlineData("Typewriter", "Typewriter")]
    [InlineData("", "")]
    public void PrintedName_IsShortenedWhereTheRestIsEnough(string printed, string name) =>
        PortNames.Shorten(printed).Should().Be(name);

    [Theory]
    [InlineData("C1", "c1", true)]
    [InlineData("USB-C1", "C1", true)]
    [InlineData("USB-C1", "Type C 1", true)]
    [InlineData("Output 1", "OUT1", true)]
    [InlineData("C1", "C2", false)]
    [InlineData("C", "C1", false)]
    [InlineData("A1", "C1", false)]
    [InlineData("USB1", "1", false)]
    [InlineData(null, "C1", false)]
    [InlineData(null, null, false)]
    public void TwoNames_AreTheSamePortWhenOnlySpellingDiffers(string? a, string? b, bool same)
    {
        PortNames.Same(a, b).Should().Be(same);
        PortNames.Same(b, a).Should().Be(same);
    }
}
