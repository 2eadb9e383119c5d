using Portwitness.Service.Telemetry;

namespace Portwitness.Service.Tests.Telemetry;

public class LogTextTests
{
    [Theory]
    [InlineData("options.file: 4097 characters long", "options.file: 4097 characters long")]
    [InlineData("a\r\nb\t\u001b[2J", "a\\u000D\\u000Ab\\u0009\\u001B[2J")]
    [InlineData("\u202egnp.exe\u200b\u2028", "\\u202Egnp.exe\\u200B\\u2028")]
    [InlineData("5V⎓3A grün", "5V⎓3A grün")]
    public void ControlAndInvisibleCharacters_AreShown(string text, string expected) => LogText.Of(text).Should().Be(expected);

    [Fact]
    public void LoneSurrogate_IsShown() => LogText.Of("a\ud83d").Should().Be("a\\uD83D");

    [Theory]
    [InlineData('x', 200, 200)]
    [InlineData('x', 201, 201)]
    [InlineData('\0', 100_000, 199)]
    public void LongText_IsCutAt200(char character, int count, int expected)
    {
        string text = LogText.Of(new string(character, count));

        text.Should().HaveLength(expected);
        text.EndsWith('…').Should().Be(count > 200);
    }
}
