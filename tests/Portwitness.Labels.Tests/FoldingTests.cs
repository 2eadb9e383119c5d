namespace Portwitness.Labels.Tests;

public sealed class FoldingTests
{
    /// <summary>Against the compatibility decompositions of the Unicode character database (14.0, NFKC).</summary>
    [Theory]
    [InlineData(0xff01, "!")]
    [InlineData(0xff05, "%")]
    [InlineData(0xff0b, "+")]
    [InlineData(0xff0c, ",")]
    [InlineData(0xff0d, "-")]
    [InlineData(0xff0f, "/")]
    [InlineData(0xff10, "0")]
    [InlineData(0xff19, "9")]
    [InlineData(0xff1a, ":")]
    [InlineData(0xff1b, ";")]
    [InlineData(0xff1d, "=")]
    [InlineData(0xff21, "A")]
    [InlineData(0xff36, "V")]
    [InlineData(0xff41, "a")]
    [InlineData(0xff5a, "z")]
    [InlineData(0xff5e, "~")]
    [InlineData(0xa0, " ")]
    [InlineData(0x2002, " ")]
    [InlineData(0x2009, " ")]
    [InlineData(0x202f, " ")]
    [InlineData(0x3000, " ")]
    [InlineData(0x207c, "=")]
    [InlineData(0x208c, "=")]
    [InlineData(0xfe63, "-")]
    [InlineData(0xfe62, "+")]
    [InlineData(0xfe66, "=")]
    [InlineData(0xfe50, ",")]
    [InlineData(0xfe52, ".")]
    [InlineData(0xfe54, ";")]
    [InlineData(0xfe55, ":")]
    [InlineData(0xfe59, "(")]
    [InlineData(0xfe5a, ")")]
    [InlineData(0x2026, "...")]
    [InlineData(0x3383, "mA")]
    [InlineData(0x3390, "Hz")]
    [InlineData(0x33b7, "mV")]
    [InlineData(0x33bd, "mW")]
    [InlineData(0xfe10, ",")]
    [InlineData(0xfe13, ":")]
    [InlineData(0xfe14, ";")]
    [InlineData(0xff61, ".")]
    [InlineData(0xff64, ",")]
    [InlineData(0x2024, ".")]
    [InlineData(0xfe6a, "%")]
    [InlineData(0x2103, "°C")]
    [InlineData(0x2116, "No")]
    [InlineData(0x2160, "I")]
    [InlineData(0x2164, "V")]
    [InlineData(0x2165, "VI")]
    [InlineData(0x338f, "kg")]
    [InlineData(0x3391, "kHz")]
    [InlineData(0x339c, "mm")]
    [InlineData(0x33b3, "ms")]
    [InlineData(0x33b8, "kV")]
    [InlineData(0x33be, "kW")]
    [InlineData(0xfb00, "ff")]
    [InlineData(0xfb01, "fi")]
    [InlineData(0xfb02, "fl")]
    [InlineData(0xfb03, "ffi")]
    [InlineData(0xfb04, "ffl")]
    public void CompatibilityCharacter_FoldsAsUnicodeSays(int printed, string folded)
    {
        FoldedText text = FoldedText.Of($"a{(char)printed}z");

        text.Slice(0, text.Length).ToString().Should().Be($"a{folded}z");
        text.SourceStart(1).Should().Be(1);
        text.SourceEnd(text.Length - 1).Should().Be(3);
    }

    /// <summary>NFKC makes plain digits of these; a label's footnote marks must not become a part of its values.</summary>
    [Theory]
    [InlineData("C1: 20V⎓3\u00B9A")]
    [InlineData("C1: 2\u2460V⎓3A")]
    [InlineData("C1: 5\u00BDV⎓3A")]
    public void RaisedAndCircledDigits_NeverBecomeAPartOfAValue(string text)
    {
        Label label = LabelReader.Read(text);

        label.Unread.Should().ContainSingle();
        label.Outputs.SelectMany(static output => output.Fixed)
            .Should().NotContain(static mode => mode.Voltage.Millivolts != 20_000 || mode.Current.Milliamperes != 3000);
    }

    [Theory]
    [InlineData("C1: 20V⎓3A\u00B2")]
    [InlineData("C1\u00B9: 20V⎓3A")]
    [InlineData("C1: 20V⎓3A\u2460")]
    [InlineData("C1: 20V⎓3A \u203B1")]
    [InlineData("C1: 20V⎓3A\u2020")]
    [InlineData("C1: 20V⎓3A (1)")]
    public void MarkBehindAValueOrAPort_IsThatOfANote(string text)
    {
        Label label = LabelReader.Read(text);

        label.Unread.Should().BeEmpty();
        label.Outputs.Should().ContainSingle().Which.Port.Should().Be("C1");
        label.Outputs[0].Fixed.Should().ContainSingle().Which.Current.Milliamperes.Should().Be(3000);
    }

    [Theory]
    [InlineData('\u2393')]
    [InlineData('\u23AF')]
    [InlineData('\u2550')]
    public void DirectCurrentSign_IsOneSign(char printed) => Folding.Fold(printed).Should().Be('\u2393');

    /// <summary>Volt and ampere in Cyrillic (GOST 8.417) are units.</summary>
    [Theory]
    [InlineData("C1: 5\u0412⎓3A")]
    [InlineData("C1: 5V⎓3\u0410")]
    public void CyrillicUnit_IsRead(string text) => LabelReader.Read(text).Outputs[0].Fixed.Should().ContainSingle()
        .Which.Should().Match<PrintedFixed>(static mode => mode.Voltage.Millivolts == 5000 && mode.Current.Milliamperes == 3000);

    /// <summary>Letters and digits that only look like others are none (Greek alpha, Arabic five).</summary>
    [Theory]
    [InlineData("C1: 5V⎓3\u0391")]
    [InlineData("C1: \u0665V⎓3A")]
    public void LookAlike_IsUnread(string text) => LabelReader.Read(text).Unread.Should().ContainSingle().Which.Text.Should().Be(text);
}
