namespace Portwitness.Labels.Tests;

public sealed class HostileTextTests
{
    // For each character of a text.
    private const int MostLooks = 200;

    /// <summary>
    /// Texts that make a careless reader look at the same part again and again. Twice the text may cost twice as much: counted are the
    /// characters that are looked at, and the bytes that are allocated. Nothing is timed.
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
    [InlineData("123 ")]
    [InlineData("1'234'")]
    [InlineData("u-")]
    [InlineData("U5B-")]
    [InlineData("(;")]
    [InlineData("C1: 5V⎓3A (;")]
    [InlineData("C1: 5V⎓3A (a ")]
    [InlineData("5V一3A")]
    [InlineData("1-")]
    [InlineData("2x")]
    [InlineData("+")]
    [InlineData("what ")]
    [InlineData("What ")]
    [InlineData("\n")]
    [InlineData("C1  C2\n---\n")]
    [InlineData("Total C1+C2 ")]
    [InlineData("C1+C2 (C1 5W, ")]
    public void TwiceTheText_CostsTwiceAsMuch(string part)
    {
        const int Characters = 16_384;

        // The first reading also pays for what is made once in a process.
        _ = Cost(part, Characters);
        (long looks, long bytes) = Cost(part, Characters);
        (long looksOfTwice, long bytesOfTwice) = Cost(part, 2 * Characters);

        looksOfTwice.Should().BeLessThan(looks * 22 / 10);
        bytesOfTwice.Should().BeLessThan(bytes * 24 / 10);
        looksOfTwice.Should().BeLessThan(MostLooks * 2 * Characters);
    }

    private static (long Looks, long Bytes) Cost(string part, int characters)
    {
        string text = string.Concat(Enumerable.Repeat(part, characters / part.Length));
        long before = GC.GetAllocatedBytesForCurrentThread();
        FoldedText folded = FoldedText.Of(text);
        Label label = LabelReader.Read(folded, Tokenizer.Read(folded));
        long bytes = GC.GetAllocatedBytesForCurrentThread() - before;
        label.Text.Should().BeSameAs(text);
        return (folded.Looks, bytes);
    }

    /// <summary>What is not read, and what is read differently, is listed to a limit; the rest is counted.</summary>
    [Fact]
    public void ManyPlaces_AreCountedBeyondTheLimit()
    {
        const int Lines = 3000;

        Label unread = LabelReader.Read(string.Concat(Enumerable.Repeat("C1: 5V⎓3A what\n", Lines)));
        Label repaired = LabelReader.Read(string.Concat(Enumerable.Repeat("C1: 5V⎓2,4A\n", Lines)));
        Label doubtful = LabelReader.Read(string.Concat(Enumerable.Repeat("C1: 2OV⎓3A\n", Lines)));

        (unread.Unread.Length + unread.UnlistedUnread).Should().Be(Lines);
        unread.Unread.Should().HaveCount(Label.MaxListed);
        unread.Unread[^1].At.Line.Should().Be(Label.MaxListed);
        (repaired.Repairs.Length + repaired.UnlistedRepairs).Should().Be(Lines);
        repaired.Repairs.Should().HaveCount(Label.MaxListed);
        doubtful.IsDoubtful(Lines).Should().BeTrue("a repair counts where it is not listed");
    }
}
