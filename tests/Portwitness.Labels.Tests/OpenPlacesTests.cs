namespace Portwitness.Labels.Tests;

/// <summary>What is left to settle is offered in words that are read. The cases are invented after the forms of the trade (common practice).</summary>
public sealed class OpenPlacesTests
{
    private const string Ports = "C1: 65W\nC2: 20W\nA: 12W\n";

    [Theory]
    [InlineData(Ports + "C1+C2+A: 45W+15W", 4, """{line: 4, printed: "45W+15W", read_as: "C1 45W, C2+A share 15W"}""", "together C1+C2+A = C1 45 W pool C2+A 15 W")]
    [InlineData(Ports + "C1+C2+A: 45W+15W", 4, """{line: 4, printed: "45W+15W", read_as: "A 15W, C1+C2 share 45W"}""", "together C1+C2+A = A 15 W pool C1+C2 45 W")]
    [InlineData("C2+A: 5V⎓3A", 1, """{line: 1, printed: "5V⎓3A", read_as: "5V⎓3A shared"}""", "together C2+A pool 5 V 3 A 15 W")]
    [InlineData("C2+A: 5V⎓3A", 1, """{line: 1, printed: "5V⎓3A", read_as: "C2 5V⎓3A, A 5V⎓3A"}""", "together C2+A = C2 5 V 3 A, A 5 V 3 A")]
    [InlineData("Charging:\nUSB-C: 5V⎓3A", 1, """{line: 1, printed: "Charging", read_as: "Input"}""", "2 input C 5 V 3 A")]
    [InlineData("Charging:\nUSB-C: 5V⎓3A", 1, """{line: 1, printed: "Charging", read_as: "Output"}""", "2 C 5 V 3 A")]
    [InlineData("Blorp:\nUSB-C: 5V⎓3A", 1, """{line: 1, no_rating: true}""", "2 C 5 V 3 A")]
    [InlineData("USB-C: 5V⎓3A, QX 9V⎓2A", 1, """{line: 1, printed: ", QX 9V⎓2A", read_as: " QX 9V⎓2A"}""", "1 C QX 9 V 2 A")]
    [InlineData("C1: 5V⎓3A 20V⎓5A, C2: 5V⎓3A 9V⎓3A, max. 65 W", 1, """{line: 1, printed: "max. 65 W", read_as: "; C1: 65 W max"}""", "1 C1 max 65 W")]
    [InlineData("C1: 5V⎓3A 20V⎓5A, C2: 5V⎓3A 9V⎓3A, max. 65 W", 1, """{line: 1, printed: "max. 65 W", read_as: "; Total: 65 W"}""", "1 total 65 W")]
    [InlineData("USB-C: 5V=3A/9V=3A/2OV=3.25A", 1, """{line: 1, printed: "2OV=3.25A", read_as: "20V=3.25A"}""", "1 C 20 V 3.25 A")]
    [InlineData("C1: 65W\nUSB-A (Zorvikladen): 5V⎓3A 9V⎓2A", 2, """{line: 2, printed: "USB-A (Zorvikladen)", read_as: "USB-A"}""", "2 A 5 V 3 A")]
    public void Place_HasAReadingThatIsRead(string text, int line, string offered, string statement)
    {
        OpenPlace place = OpenPlaces.Of(LabelReader.Read(text)).First(place => place.At.Line == line);

        LabelCorrection reading = place.Readings.Should().ContainSingle(one => one.ToYaml() == offered).Subject;
        Label settled = LabelReader.Read(text, [reading], out IReadOnlyList<LabelCorrection> unused);

        unused.Should().BeEmpty();
        settled.Unread.Should().NotContain(span => span.At.Line == line);
        settled.DoubtfulLines.Should().BeEmpty();
        LineReading.Statements(settled).Should().ContainMatch($"*{statement}");
        settled.Text.Should().Be(text);
    }

    // A port with words about it is that port, and no other.
    [Fact]
    public void PortWithWordsAboutIt_IsOfferedAsNoOtherPort() => OpenPlaces.Of(LabelReader.Read("C1: 65W\nUSB-A (Zorvikladen): 5V⎓3A 9V⎓2A")).Single()
        .Readings.Should().OnlyContain(static reading => reading.RatesNothing || reading.ReadAs == "USB-A");

    // Each reading that is offered settles its place, and reads no other line less.
    [Fact]
    public void Reading_SettlesItsPlaceAndHidesNoOther()
    {
        int offered = 0;
        foreach (string text in LabelCase.All.Select(static one => one.Text).Concat(BlindCount.Texts()))
        {
            Label label = LabelReader.Read(text);
            foreach (LabelCorrection reading in OpenPlaces.Of(label).SelectMany(static place => place.Readings))
            {
                Label settled = LabelReader.Read(text, [reading], out IReadOnlyList<LabelCorrection> unused);
                unused.Should().BeEmpty("{0} in «{1}»", reading.ToYaml(), text);
                LineReading.UnreadLines(settled).Count.Should().BeLessThanOrEqualTo(LineReading.UnreadLines(label).Count, "{0} in «{1}»", reading.ToYaml(), text);
                offered++;
            }
        }

        offered.Should().BeGreaterThan(100);
    }

    [Fact]
    public void LineWithoutRating_IsARemarkAndOthersAreReadAsBefore()
    {
        const string Text = "65W blorp 5V\nC1: 5V⎓3A\nzork C2: 9V⎓2A";
        LabelReader.Read(Text).MayRateMore.Should().BeTrue();

        Label settled = LabelReader.Read(Text, [LabelCorrection.NoRating(1), LabelCorrection.NoRating(3)], out IReadOnlyList<LabelCorrection> unused);

        unused.Should().BeEmpty();
        settled.MayRateMore.Should().BeFalse();
        settled.Remarks.Select(static remark => remark.Text).Should().Equal("65W blorp 5V", "zork C2: 9V⎓2A");
        LineReading.Statements(settled).Should().Equal("2 C1 5 V 3 A");
    }

    [Fact]
    public void LineThatIsNotThere_IsUnused()
    {
        LabelCorrection[] corrections = [LabelCorrection.NoRating(2), LabelCorrection.NoRating(9), LabelCorrection.NoRating(0)];

        LabelReader.Read("C1: 65W\n \nC2: 20W", corrections, out IReadOnlyList<LabelCorrection> unused);

        unused.Should().Equal(corrections);
    }

    [Theory]
    [InlineData("C1: 65W\nzork flimmer:", false)]
    [InlineData("C1: 65W\nzork 5V", true)]
    [InlineData("C1: 65W\nzork USB-C2 here:", true)]
    public void UnreadLine_MayRateWhereItHasAUnitOrAPort(string text, bool mayRate) =>
        LabelReader.Read(text).MayRateMore.Should().Be(mayRate);

    [Fact]
    public void HostileLabel_HasFewPlacesAndAnEnd()
    {
        Label label = LabelReader.Read(string.Concat(Enumerable.Repeat("C1+C2+A: 45W+15W zork 2OV\n", 2400)));

        OpenPlaces.Of(label).Should().HaveCount(OpenPlaces.MaxListed);
    }
}
