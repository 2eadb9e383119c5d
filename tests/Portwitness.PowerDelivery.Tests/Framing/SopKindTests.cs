using Portwitness.PowerDelivery.Framing;

namespace Portwitness.PowerDelivery.Tests.Framing;

public sealed class SopKindTests
{
    [Theory]
    [InlineData(SopKind.Sop, "SOP")]
    [InlineData(SopKind.SopPrime, "SOP'")]
    [InlineData(SopKind.SopDoublePrime, "SOP''")]
    [InlineData(SopKind.SopPrimeDebug, "SOP'_Debug")]
    [InlineData(SopKind.SopDoublePrimeDebug, "SOP''_Debug")]
    public void Kind_HasItsSpelling_AndBack(SopKind kind, string text)
    {
        kind.ToText().Should().Be(text);
        SopKinds.TryParse(text, out SopKind read).Should().BeTrue();
        read.Should().Be(kind);
    }

    [Theory]
    [InlineData("")]
    [InlineData("sop")]
    [InlineData("SOP ")]
    public void OtherText_IsNoKind(string text) => SopKinds.TryParse(text, out _).Should().BeFalse();

    [Theory]
    [InlineData(-1)]
    [InlineData(5)]
    public void UnknownKind_Prints(int kind) => ((SopKind)kind).ToText().Should().Be("unknown SOP kind");
}
