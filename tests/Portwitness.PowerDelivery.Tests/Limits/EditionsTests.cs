using Portwitness.PowerDelivery.Limits;

namespace Portwitness.PowerDelivery.Tests.Limits;

public sealed class EditionsTests
{
    [Theory]
    [InlineData("R1.0", Editions.R10)]
    [InlineData("R2.0", Editions.R20)]
    [InlineData("r3.0", Editions.R30)]
    [InlineData("3.1", Editions.R31)]
    [InlineData("R3.2", Editions.R32)]
    public void Name_IsRead(string text, Editions expected)
    {
        EditionNames.TryParse(text, out Editions edition).Should().BeTrue();
        edition.Should().Be(expected);
    }

    [Theory]
    [InlineData("")]
    [InlineData("R")]
    [InlineData("R3")]
    [InlineData("R3.3")]
    [InlineData(" R3.2")]
    public void OtherText_IsNoEdition(string text)
    {
        EditionNames.TryParse(text, out Editions edition).Should().BeFalse();
        edition.Should().Be(Editions.None);
    }

    [Theory]
    [InlineData(Editions.R20, "R2.0")]
    [InlineData(Editions.R3x, "R3.0..R3.2")]
    [InlineData(Editions.R31 | Editions.R32, "R3.1..R3.2")]
    [InlineData(Editions.R30 | Editions.R32, "R3.0, R3.2")]
    [InlineData(Editions.All, "unknown")]
    [InlineData(Editions.None, "unknown")]
    [InlineData((Editions)64, "unknown")]
    public void Editions_Print(Editions editions, string text) => editions.ToText().Should().Be(text);

    // R3.2v1.1, 6.2.1.1.5: 00 R1.0, 01 R2.0, 10 R3.x, 11 invalid.
    [Theory]
    [InlineData(0, Editions.R10)]
    [InlineData(1, Editions.R20)]
    [InlineData(2, Editions.R3x)]
    [InlineData(3, Editions.All)]
    public void HeaderCode_LeavesEditionsOpen(int code, Editions expected) =>
        EditionNames.FromRevisionCode(code).Should().Be(expected);
}
