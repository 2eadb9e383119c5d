using Portwitness.Product.Signalling;

namespace Portwitness.Product.Tests.Signalling;

/// <summary>People's words for the words of captures/FORMAT.md ("Other signalling"); which forms people use is common practice, no source.</summary>
public class SignallingPhraseTests
{
    [Theory]
    [InlineData("DCP", "bc1.2-dcp")]
    [InlineData("BC 1.2 DCP", "bc1.2-dcp")]
    [InlineData("USB BC1.2 (CDP)", "bc1.2-cdp")]
    [InlineData("Dedicated Charging Port", "bc1.2-dcp")]
    [InlineData("USB-C 3A", "type-c-3a")]
    [InlineData("Type-C 3.0 A", "type-c-3a")]
    [InlineData("Rp 1.5A", "type-c-1.5a")]
    [InlineData("YD/T 1591", "ydt1591")]
    [InlineData("D+ 2.7V D- 2.7V", "divider-2.7V-2.7V")]
    [InlineData("2.7 V / 2.0 V", "divider-2.7V-2.0V")]
    [InlineData("D+=2.7V, D−=2.7V", "divider-2.7V-2.7V")]
    [InlineData("ＵＦＣＳ", "ufcs")]
    [InlineData("bc1.2-dcp", "bc1.2-dcp")]
    [InlineData("type-c-3A", "type-c-3A")]
    [InlineData("house scheme 2", "house scheme 2")]
    public void PeoplesWords_AreThoseOfThePage(string text, string word)
    {
        SignallingWord read = SignallingWord.Read(text)!;

        (read.Text, read.Denied).Should().Be((word, false));
    }

    [Theory]
    [InlineData("no UFCS")]
    [InlineData("not UFCS")]
    [InlineData("without ufcs")]
    [InlineData("no-ufcs")]
    public void Denials_AreUnderstood(string text) => SignallingWord.Read(text)!.ToString().Should().BeOneOf("no ufcs", "no UFCS");

    [Fact]
    public void ProductFile_TakesThemInOneText()
    {
        ProductFile file = ProductFileReader.Read("label: \"USB-A: 5V⎓3A\"\nsignalling: {A: \"DCP, not UFCS; house scheme\", B: \"D+ 2.7V, D- 2.7V\"}\n");

        file.Faults.Should().BeEmpty();
        file.Signalling.Select(static one => one.Word).Should().Equal("DCP", "not UFCS", "house scheme", "D+ 2.7V, D- 2.7V");
    }
}
