using System.Text;

namespace Portwitness.Labels.Tests;

/// <summary>A label has at most 64 KiB, and a line of it 2,000 tokens.</summary>
public sealed class LabelLimitsTests
{
    [Theory]
    [InlineData("a")]
    [InlineData("\u23D3\n")]
    public void LongestText_IsRead_AndOneByteMoreIsNot(string part)
    {
        string longest = string.Concat(Enumerable.Repeat(part, LabelLimits.MaxBytes / Encoding.UTF8.GetByteCount(part)));
        Encoding.UTF8.GetByteCount(longest).Should().Be(65_536);

        LabelLimits.Excess(longest).Should().BeNull();
        LabelReader.Read(longest).Text.Should().BeSameAs(longest);
        LabelLimits.Excess(longest + "5").Should().Be(
            "the label has 65537 bytes, the limit is 65536 (64 KiB); leave out what is not printed on the product");
        ((Action)(() => LabelReader.Read(longest + "5"))).Should().Throw<ArgumentException>().WithMessage("*65537 bytes*leave out*");
    }

    [Theory]
    [InlineData("+", 1)]
    [InlineData("5V ", 1)]
    [InlineData("what ", 1)]
    [InlineData("\u2474", 3)]
    public void FullLine_IsRead_AndOneTokenMoreIsNot(string part, int tokens)
    {
        string full = string.Concat(Enumerable.Repeat(part, LabelLimits.MaxTokensInLine / tokens));
        string text = $"USB-C: 5V⎓3A\n{full}\n{full}";

        LabelLimits.Excess(text).Should().BeNull();
        LabelReader.Read(text).Outputs.Should().ContainSingle();
        LabelLimits.Excess(text + part + part).Should().Be(
            "line 3 of the label has more than 2000 words, numbers and signs, which is the limit; begin a new line where the label does");
        ((Action)(() => LabelReader.Read(text + part + part))).Should().Throw<ArgumentException>().WithMessage("line 3 *begin a new line*");
    }

    [Fact]
    public void Correction_CountsWithWhatItIsReadAs()
    {
        const string Text = "USB-C: 5V⎓3A what";

        LabelLimits.Excess(Text, [new LabelCorrection(1, "what", new string('a', LabelLimits.MaxBytes))]).Should().Contain("bytes");
        LabelLimits.Excess(Text, [new LabelCorrection(1, "what", string.Concat(Enumerable.Repeat("+ ", 2000)))]).Should().StartWith("line 1 ");
        LabelLimits.Excess(Text, [new LabelCorrection(1, "what", "9V⎓3A")]).Should().BeNull();
        ((Action)(() => LabelReader.Read(null!))).Should().Throw<ArgumentNullException>();
    }
}
