using System.Globalization;
using System.Runtime.CompilerServices;

namespace Portwitness.Labels.Tests;

/// <summary>
/// Folding against all compatibility and canonical foldings (NFKC) of single characters in the Unicode character database 14.0:
/// shared/characters/compatibility.txt has those of the basic plane and of the mathematical letters.
/// </summary>
public sealed class CompatibilityTests
{
    private const string Accent = "an accent without its letter";
    private const string Joins = "it would join the number or name beside it: 1½A is not 11/2 A, 3A² not 3A2, C² not C2";
    private const string Owner = "a mark of ownership rates nothing: USB-C™ is not a port CTM";
    private const string Sign = "a sign that no rating has";
    private const string Script = "a script or an abbreviation of no language that is read, or no character of the basic plane";
    private const string Tilde = "labels use it for AC and for ranges, as a tilde";

    // First and last code point, and why they are not folded: they stay what they are, mostly unread.
    private static readonly (int First, int Last, string Why)[] LeftOut =
    [
        (0x00A8, 0x00A8, Accent), (0x00AF, 0x00AF, Accent), (0x00B4, 0x00B4, Accent), (0x00B8, 0x00B8, Accent),
        (0x02D8, 0x02DB, Accent), (0x02DD, 0x02DD, Accent), (0x2017, 0x2017, Accent), (0x203E, 0x203E, Accent), (0xFE49, 0xFE4C, Accent),
        (0x00AA, 0x00AA, Joins), (0x00B2, 0x00B3, Joins), (0x00B9, 0x00BA, Joins), (0x00BC, 0x00BE, Joins),
        (0x02B0, 0x02B8, Joins), (0x02E0, 0x02E4, Joins), (0x2070, 0x2079, Joins), (0x207F, 0x2089, Joins), (0x2090, 0x209C, Joins),
        (0x2150, 0x215F, Joins), (0x2189, 0x2189, Joins),
        (0x02DC, 0x02DC, Tilde), (0x2120, 0x2120, Owner), (0x2122, 0x2122, Owner),
        (0x00B5, 0x00B5, Sign), (0x2033, 0x2037, Sign), (0x203C, 0x203C, Sign), (0x2047, 0x2049, Sign), (0x2057, 0x2057, Sign),
        (0x20A8, 0x20A8, Sign), (0x222C, 0x2230, Sign), (0x2A0C, 0x2A0C, Sign), (0x2A74, 0x2A76, Sign), (0x2ADC, 0x2ADC, Sign),
        (0x2329, 0x232A, Sign), (0xFE17, 0xFE18, Sign), (0xFE37, 0xFE38, Sign), (0xFE3D, 0xFE44, Sign), (0xFE5B, 0xFE5C, Sign),
        (0xFF5F, 0xFF60, Sign), (0xFFE0, 0xFFEE, Sign),
        (0x0149, 0x0149, Script), (0x01C4, 0x01F3, Script), (0x0340, 0x0F79, Script), (0x0F81, 0x10FC, Script), (0x1D2C, 0x1FFE, Script),
        (0x2135, 0x2138, Script), (0x2C7C, 0x2D6F, Script), (0x3036, 0x318E, Script), (0x3192, 0x3370, Script),
        (0x337B, 0x337F, Script), (0x33E0, 0x33FE, Script), (0xA69C, 0xAB69, Script), (0xFA6C, 0xFA6C, Script),
        (0xFACF, 0xFAD1, Script), (0xFAD5, 0xFAD7, Script), (0xFB13, 0xFDFC, Script), (0xFE70, 0xFEFC, Script),
        (0xFF62, 0xFF63, Sign), (0xFF66, 0xFFDC, Script), (0x1D6A4, 0x1D7CB, Script),
    ];

    private static readonly (int Printed, string Folded)[] Database = [.. Read()];

    [Fact]
    public void EachCharacter_FoldsAsUnicodeSaysOrIsLeftOut()
    {
        IEnumerable<string> wrong =
            from entry in Database
            let isLeftOut = Array.Exists(LeftOut, one => entry.Printed >= one.First && entry.Printed <= one.Last)
            where (Fold(entry.Printed) == Signs(entry.Folded)) == isLeftOut
            select $"U+{entry.Printed:X4} {entry.Folded} {(isLeftOut ? "is not left out" : $"is {Fold(entry.Printed)}")}";

        string.Join("; ", wrong).Should().BeEmpty();
    }

    [Fact]
    public void EachRangeLeftOut_HasAReasonAndACharacter() =>
        LeftOut.Should().OnlyContain(one => one.Why.Length > 0 && Array.Exists(Database, entry => entry.Printed >= one.First && entry.Printed <= one.Last));

    /// <summary>An enclosed number is a name's or a list's, never a digit of the number beside it.</summary>
    [Theory]
    [InlineData("USB-C①: 5V⎓3A", "C1")]
    [InlineData("USB-C ②：5V⎓3A", "C2")]
    [InlineData("USB-C™: 5V⎓3A", "C")]
    [InlineData("①5V⎓3A", null)]
    [InlineData("⒈5V⎓3A", null)]
    [InlineData("①000mAh 37Wh", null)]
    [InlineData("USB-C²: 5V⎓3A", null)]
    [InlineData("USB-C² 5V⎓3A", null)]
    [InlineData("USB-C₂ 5V⎓3A", null)]
    public void EnclosedOrRaisedNumber_IsNoDigitOfItsNeighbour(string text, string? port)
    {
        Label label = LabelReader.Read(text);

        label.Outputs.Select(static output => output.Port).Should().Equal(port is null ? [] : [port]);
        (label.Battery?.CapacityMilliampereHours ?? 0).Should().Be(0);
        label.Unread.IsEmpty.Should().Be(port is not null);
    }

    /// <summary>Places count what is printed, however many characters it is folded to.</summary>
    [Fact]
    public void FoldedCharacters_KeepTheirPlaces()
    {
        Label label = LabelReader.Read("𝐔𝐒𝐁-𝐂𝟏: 𝟓V⎓5000㎃ 9Ⅴ⎓2000㎃ ﬁx\n接⼝ ﬂ");

        label.Outputs[0].Port.Should().Be("C1");
        label.Outputs[0].Fixed.Select(static mode => (mode.Voltage.Millivolts, mode.Current.Milliamperes, mode.At, mode.Text)).Should().Equal(
            (5000, 5000, new Place(1, 9), "𝟓V⎓5000㎃"), (9000, 2000, new Place(1, 18), "9Ⅴ⎓2000㎃"));
        label.Unread.Should().Equal(new UnreadSpan(new Place(1, 27), "ﬁx", MayRate: true));
        label.Remarks.Should().Equal(new PrintedRemark(new Place(2, 1), "接⼝ ﬂ"));
    }

    // White space keeps an enclosed number apart; signs that mean the same are one sign.
    private static string Fold(int printed)
    {
        FoldedText text = FoldedText.Of(char.ConvertFromUtf32(printed));
        return text.Slice(0, text.Length).ToString().Replace("\u000B", "", StringComparison.Ordinal);
    }

    private static string Signs(string folded)
    {
        FoldedText text = FoldedText.Of(folded);
        return text.Slice(0, text.Length).ToString();
    }

    private static IEnumerable<(int, string)> Read([CallerFilePath] string file = "") =>
        File.ReadLines(Path.Combine(Path.GetDirectoryName(file)!, "..", "..", "shared", "characters", "compatibility.txt"))
            .Select(static line => line.Split(';')).Select(static parts => (
                int.Parse(parts[0], NumberStyles.HexNumber, CultureInfo.InvariantCulture),
                string.Concat(parts[1].Split(' ').Select(static code => char.ConvertFromUtf32(int.Parse(code, NumberStyles.HexNumber, CultureInfo.InvariantCulture))))));
}
