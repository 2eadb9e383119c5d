namespace Portwitness.Labels.Tests;

public sealed class LabelReaderTests
{
    [Theory]
    [MemberData(nameof(LabelCase.Remarks), MemberType = typeof(LabelCase))]
    public void PrintedLabel_IsReadAsExpected(string remark)
    {
        LabelCase labelCase = LabelCase.All.Single(one => one.Remark == remark);

        LabelCase.Describe(LabelReader.Read(labelCase.Text)).Should().Be(labelCase.Expected);
    }

    [Theory]
    [InlineData("\r\n")]
    [InlineData("\r")]
    [InlineData("\n")]
    public void LineEnding_IsOneLine(string lineEnding)
    {
        Label label = LabelReader.Read($"C1: 5V⎓3A{lineEnding}9V⎓2A what{lineEnding}{lineEnding}C2: 12W");

        label.Outputs[0].Fixed.Should().HaveCount(2);
        label.Outputs[1].At.Should().Be(new Place(4, 1));
        label.Unread.Should().Equal(new UnreadSpan(new Place(2, 7), "what", MayRate: true));
    }

    [Fact]
    public void Columns_CountCharactersAsAPersonDoes()
    {
        // One flag of two code points (four UTF-16 units) and one letter with a combining accent: two characters. (Unicode UAX 29.)
        Label label = LabelReader.Read("C1: 12W | 🇩🇪e\u0301 ☂️ z\nC2: 5V⎓3A ☂");

        label.Unread.Should().Equal(
            new UnreadSpan(new Place(1, 11), "🇩🇪e\u0301 ☂️ z", MayRate: true),
            new UnreadSpan(new Place(2, 11), "☂", MayRate: true));
    }

    // Common practice, no source.
    [Fact]
    public void LettersThatStandApart_AreRead()
    {
        Label label = LabelReader.Read("U S B - C 1 : 6 5 W\nU S B - A :  5 V / 2 . 4 A");

        LineReading.Statements(label).Should().Equal("1 C1 max 65 W", "2 A 5 V 2.4 A");
        label.Unread.Should().BeEmpty();
        label.Outputs[0].Maximum!.Text.Should().Be("6 5 W");
    }

    [Theory]
    [InlineData("")]
    [InlineData(" \t\r\n \u00A0\u3000\uFEFF\u200B\n")]
    public void NothingPrinted_IsAnEmptyReading(string text)
    {
        Label label = LabelReader.Read(text);

        LabelCase.Describe(label).Should().BeEmpty();
        label.Text.Should().Be(text);
    }

    [Fact]
    public void PrintedWords_AreKeptVerbatim()
    {
        Label label = LabelReader.Read("Input: 100-240V~ 50/60Hz 1.5A Max\nC1: ５V ＝ 3A  ( Max 65W )\nC1+A :  45W + 12W");

        label.Inputs[0].Text.Should().Be("100-240V~ 50/60Hz 1.5A Max");
        label.Outputs[0].Fixed[0].Text.Should().Be("５V ＝ 3A");
        label.Outputs[0].Maximum!.Text.Should().Be("Max 65W");
        label.Combinations[0].Text.Should().Be("C1+A :  45W + 12W");
    }
}
