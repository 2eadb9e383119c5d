using System.Globalization;
using System.Text;
using CsCheck;
using Portwitness.Reports.Text;

namespace Portwitness.Reports.Tests;

public sealed class VisibleTextTests
{
    [Theory]
    [InlineData("USB-C1: 5V⎓3A", "USB-C1: 5V⎓3A")]
    [InlineData("\u001b[2J", "\\u001b[2J")]
    [InlineData("a\tb", "a b")]
    [InlineData("a\r\nb", "a\\u000d\\u000ab")]
    [InlineData("\u009b31m", "\\u009b31m")]
    [InlineData("abc\u202edef", "abc\\u202edef")]
    [InlineData("\u2028", "\\u2028")]
    [InlineData("输出 5V", "输出 5V")]
    public void Text_IsSafeToPrint(string text, string visible) => VisibleText.Of(text).Should().Be(visible);

    // As data of a theory it would not survive the attribute.
    [Fact]
    public void HalfOfACharacter_IsSpelledOut() => VisibleText.Of("a\ud83d").Should().Be("a\\ud83d");

    [Fact]
    public void AnyText_LosesEverythingThatATerminalObeys() => Gen.String.Sample(text =>
        VisibleText.Of(text).EnumerateRunes().Should().NotContain(rune =>
            Rune.GetUnicodeCategory(rune) == UnicodeCategory.Control || rune == Rune.ReplacementChar && !text.Contains('\ufffd')));

    [Theory]
    [InlineData("5V⎓3A", 5)]
    [InlineData("输出", 4)]
    [InlineData("e\u0301", 1)]
    public void Columns_AreThoseOfATerminal(string text, int columns) => VisibleText.Columns(text).Should().Be(columns);
}
