using Portwitness.Labels.Photos;

namespace Portwitness.Labels.Tests;

/// <summary>
/// Tables of words as a program for character recognition writes them: twelve columns apart by tabs, level 1 a page, 5 a word, text unquoted
/// (its manual, and what the Debian package wrote here).
/// </summary>
public class RecognisedTextTests
{
    private const string Heading = "level\tpage_num\tblock_num\tpar_num\tline_num\tword_num\tleft\ttop\twidth\theight\tconf\ttext\n";

    [Fact]
    public void Words_StandInTheirLines_WithBoxAndConfidence()
    {
        RecognisedText photo = RecognisedText.TryRead(Table("1 1 20 30 90 12 96.5 USB-C:", "1 1 120 30 40 12 41.2 5V/3A", "1 2 20 60 60 12 88 \"20W\""))!;

        photo.Text.Should().Be("USB-C: 5V/3A\n\"20W\"");
        (photo.Width, photo.Height).Should().Be((800, 240));
        photo.Words.Should().Equal(
            new RecognisedWord(1, "USB-C:", 96, 20, 30, 90, 12), new RecognisedWord(1, "5V/3A", 41, 120, 30, 40, 12), new RecognisedWord(2, "\"20W\"", 88, 20, 60, 60, 12));
        photo.Words.Where(static word => word.IsDoubtful).Select(static word => word.Text).Should().Equal("5V/3A");
    }

    // Columns of a table stay apart.
    [Theory]
    [InlineData(104, " ")]
    [InlineData(106, "   ")]
    public void WideGap_IsSeveralBlanks(int left, string between) =>
        RecognisedText.TryRead(Table("1 1 20 30 60 12 90 C1", $"1 1 {left} 30 40 12 90 65W"))!.Text.Should().Be($"C1{between}65W");

    [Theory]
    [InlineData("USB-C: 5V⎓3A")]
    [InlineData("")]
    [InlineData("level page_num")]
    public void OtherText_IsNoTable(string text) => RecognisedText.TryRead(text).Should().BeNull();

    [Theory]
    [InlineData("5\t1\t1\t1\t1\t1\t20\t30\t60")]
    [InlineData("5\t1\t1\t1\t1\t1\t-5\tx\t99999999999\t12\tnan\tword")]
    [InlineData("4\t1\t1\t1\t1\t0\t20\t30\t60\t12\t-1\t")]
    [InlineData("5\t1\t1\t1\t1\t1\t20\t30\t60\t12\t95\t   ")]
    [InlineData("\t\t\t")]
    public void DamagedRow_IsPassedOverOrReadAsDoubtful(string row)
    {
        RecognisedText photo = RecognisedText.TryRead(Heading + row + "\n")!;

        photo.Words.Should().NotContain(static word => !word.IsDoubtful || word.Left < 0 || word.Width < 0);
    }

    // The label is read as if its text had been typed, and says where it is from.
    [Fact]
    public void Label_IsReadFromTheWords()
    {
        Label label = LabelReader.Read(Table("1 1 20 30 90 12 96.5 USB-C:", "1 1 120 30 40 12 71.2 20V3.25A"));

        label.Outputs.Single().Fixed.Select(static mode => (mode.Voltage.Millivolts, mode.Current.Milliamperes)).Should().Equal((20_000, 3250));
        label.Text.Should().Be("USB-C: 20V3.25A");
        (label.Photo!.Words.Length, label.IsUnchecked).Should().Be((2, true));
    }

    private static string Table(params string[] words) => Heading + "1\t1\t0\t0\t0\t0\t0\t0\t800\t240\t-1\t\n" + string.Concat(words.Select(static word =>
    {
        // paragraph, line, left, top, width, height, confidence, text
        string[] parts = word.Split(' ', 8);
        return $"5\t1\t1\t{parts[0]}\t{parts[1]}\t1\t{string.Join('\t', parts[2..])}\n";
    }));
}
