namespace Portwitness.Labels.Tests;

public sealed class HostileTextTests
{
    /// <summary>
    /// Texts that make a careless grammar read the same part again and again. Each takes about a second at most; read in
    /// quadratic time it would take hours, so a regression shows as a run that does not end.
    /// </summary>
    [Theory]
    [InlineData("C+")]
    [InlineData("C1+")]
    [InlineData("C1/")]
    [InlineData("(")]
    [InlineData("7")]
    [InlineData("5V")]
    [InlineData("5V⎓")]
    [InlineData("5V⎓3A ")]
    [InlineData("5V⎓3A(")]
    [InlineData("⎓ ")]
    [InlineData("9,")]
    [InlineData("- ")]
    [InlineData("PD ")]
    [InlineData("Total ")]
    [InlineData("Battery ")]
    [InlineData("5mAh,")]
    [InlineData("Model: a ")]
    [InlineData("C1+C2: C1 5V⎓3A, ")]
    [InlineData("C1: 5V⎓3A\n")]
    [InlineData("e\u0301")]
    [InlineData("\u0301")]
    [InlineData("\uD83D")]
    [InlineData("一")]
    [InlineData("5V一")]
    [InlineData("输出")]
    [InlineData("O0l")]
    [InlineData("USB-Cl ")]
    [InlineData("C1  C2\n")]
    [InlineData("C1  C2\n5V  3A  2A\n")]
    [InlineData("X  5V  9V\nC1  3A  2A\n")]
    [InlineData("| ")]
    [InlineData("5V\n⎓3A ")]
    [InlineData("(65W\n")]
    [InlineData("C1+(C2+A)/")]
    [InlineData("Wireless: 5W/")]
    [InlineData("20 000 ")]
    public void RepeatedText_IsReadInBoundedTime(string part)
    {
        string text = string.Concat(Enumerable.Repeat(part, LabelReader.MaximumLength / 4 / part.Length));

        Label label = LabelReader.Read(text);

        label.Text.Should().BeSameAs(text);
    }

    /// <summary>What is not read, and what is read differently, is listed to a limit; the rest is counted.</summary>
    [Fact]
    public void ManyPlaces_AreCountedBeyondTheLimit()
    {
        const int Lines = 40_000;

        Label unread = LabelReader.Read(string.Concat(Enumerable.Repeat("C1: 5V⎓3A what\n", Lines)));
        Label repaired = LabelReader.Read(string.Concat(Enumerable.Repeat("C1: 5V⎓2,4A\n", Lines)));
        Label doubtful = LabelReader.Read(string.Concat(Enumerable.Repeat("C1: 2OV⎓3A\n", Lines)));

        (unread.Unread.Length + unread.UnlistedUnread).Should().Be(Lines);
        unread.Unread.Should().HaveCount(Label.MostListed);
        unread.Unread[^1].At.Line.Should().Be(Label.MostListed);
        (repaired.Repairs.Length + repaired.UnlistedRepairs).Should().Be(Lines);
        repaired.Repairs.Should().HaveCount(Label.MostListed);
        doubtful.IsDoubtful(Lines).Should().BeTrue("a repair counts where it is not listed");
    }
}
