namespace Portwitness.Captures.Tests;

/// <summary>
/// Offers as people type them off a display. Words: check vectors of the Linux kernel's own macros and the bit tables of R3.2v1.1; how people
/// write is common practice, no source. What a display does not show is unknown.
/// </summary>
public class OffersReaderTests
{
    private const string FixedKnown = "FFFF0FC0";

    [Theory]
    [InlineData("5V 3A", "0001912C")]
    [InlineData("5.0V/3.0A", "0001912C")]
    [InlineData("5V⎓3A", "0001912C")]
    [InlineData("5.00 V, 3.00 A", null)] // a comma ends an offer
    [InlineData("5V=3A", "0001912C")]
    [InlineData("5Vx3A", "0001912C")]
    [InlineData("5V3A", "0001912C")]
    [InlineData("5V@3A (15W)", "0001912C")]
    [InlineData("５Ｖ⎓３Ａ", "0001912C")]
    [InlineData("1: 5V 3A", "0001912C")]
    [InlineData("[1] 5V 3A", "0001912C")]
    [InlineData("PDO1: 5V 3A 15W", "0001912C")]
    [InlineData("PDO 1 - fixed 5V 3A", "0001912C")]
    [InlineData("1) Fixed: 5.00V - 3.00A", "0001912C")]
    [InlineData("5000mV 3000mA", "0001912C")]
    public void FixedOffer_IsReadHoweverItIsWritten(string text, string? word)
    {
        Recording read = Recording.Of(text);
        if (word is null)
        {
            read.Faults.Should().NotBeEmpty();
            return;
        }

        read.Faults.Should().BeEmpty();
        read.Header.Format.Should().Be("offers");
        KeptMessage message = read.Messages.Single();
        message.Hex.Should().Be("0110" + Bytes(word));

        // Type, voltage and current: bits 31 and 30, 19 to 0.
        message.Known.Should().Be("1FF0" + FixedKnown);
    }

    [Theory]
    [InlineData("PPS 3.3-11V 5A", "C0DC2164")]
    [InlineData("PPS1: 3.3~11V 5A", "C0DC2164")]
    [InlineData("APDO 3.3V–11V/5A", "C0DC2164")]
    [InlineData("PPS 3.3 to 11 V 5 A", "C0DC2164")]
    [InlineData("PPS：3.3～11V⎓5A", "C0DC2164")]
    [InlineData("3.3-11V 5A", "C0DC2164")]
    [InlineData("6) PPS 3.30V..11.00V 5.00A", "C0DC2164")]
    [InlineData("PPS 3300-11000mV 5000mA", "C0DC2164")]
    [InlineData("SPR AVS 3A/5A", "E004B1F4")]
    [InlineData("AVS 9-15V 3A 15-20V 5A", "E004B1F4")]
    [InlineData("AVS 9.0-20.0V 3.00A", "E004B12C")]
    [InlineData("SPR AVS 9-15V 2.67A", "E0042C00")]
    [InlineData("variable 4.75-5.5V 3A", "86E17D2C")]
    [InlineData("battery 3.3-21V 60W", "5A4108F0")]
    public void RangedOffer_IsReadHoweverItIsWritten(string text, string word) =>
        Recording.Of($"5V 3A, {text}").Messages.Single().Hex.Should().Be("0120" + Bytes("0001912C") + Bytes(word));

    // A whole list of a display, in the ways in which such lists are typed; 20 V 3.35 A is from the bit table.
    [Theory]
    [InlineData("5V 3A, 9V 3A, 15V 3A, 20V 3.35A, PPS 3.3-11V 5A, PPS 3.3-21V 3A")]
    [InlineData("5V3A 9V3A 15V3A 20V3.35A PPS 3.3-11V 5A PPS 3.3-21V 3A")]
    [InlineData("# read on 2026-03-02\n5V 3A\n9V 3A\n15V 3A\n20V 3.35A\nPPS1 3.3-11V 5A\nPPS2 3.3-21V 3A\n")]
    [InlineData("1. 5V/3A; 2. 9V/3A; 3. 15V/3A; 4. 20V/3,35A; 5. 3.3-11V/5A; 6. 3.3-21V/3A")]
    [InlineData("5V⎓3A，9V⎓3A，15V⎓3A，20V⎓3.35A、PPS：3.3–11V⎓5A；PPS：3.3–21V⎓3A")]
    [InlineData("PPS 3.3-21V 3A, 20V 3.35A, 15V 3A, 9V 3A, 5V 3A, PPS 3.3-11V 5A")]
    public void ListOfADisplay_IsOneList(string text)
    {
        Recording read = Recording.Of(text);

        read.Faults.Should().BeEmpty();
        KeptMessage message = read.Messages.Single();
        message.Hex.Should().Be(
            "0160" + string.Concat(new[] { "0001912C", "0002D12C", "0004B12C", "0006414F", "C0DC2164", "C1A4213C" }.Select(Bytes)));

        // PPS: type and subtype, bits 24 to 17, 15 to 8 and 6 to 0; not Power Limited.
        message.Known.Should().Be("1FF0" + string.Concat(Enumerable.Repeat(FixedKnown, 4)) + string.Concat(Enumerable.Repeat("7FFFFEF1", 2)));
        read.Header.CurrentRoundingMilliamperes.Should().BeNull("a display that shows 3.35 A shows hundredths");
    }

    [Theory]
    [InlineData("5V 3A, 9V 2.2A", 100)]
    [InlineData("5V 3A, 9V 3A", 100)]
    [InlineData("5V 3A, 9V 2.22A", null)]
    [InlineData("5V 3000mA, 9V 2200mA", null)]
    public void TenthsOfAnAmpere_MayBeRounded(string text, int? rounding) =>
        Recording.Of(text).Header.CurrentRoundingMilliamperes.Should().Be(rounding);

    [Fact]
    public void ObjectsOfEpr_StandFromPosition8On()
    {
        KeptMessage message = Recording.Of("5V 3A, 9V 3A, 15V 3A, 20V 5A, AVS 9-15V 3A 15-20V 5A, 28V 5A, AVS 15-28V 140W").Messages.Single();

        message.Hex.Should().Be("1180" + "2400" + string.Concat(new[]
        {
            "0001912C", "0002D12C", "0004B12C", "000641F4", "E004B1F4", "00000000", "00000000", "0008C1F4", "D230968C",
        }.Select(Bytes)));
        message.Known.Should().Be("1F80" + "FF01" + string.Concat(Enumerable.Repeat(FixedKnown, 4)) + "FFFF0FF0"
            + "FFFFFFFF" + "FFFFFFFF" + FixedKnown + "FFFFFEF3");
    }

    // Every list has 5 V (R3.2v1.1, 6.4.1.4): one without it was not typed whole, and how many objects there are is not known.
    [Fact]
    public void ListWithout5V_HasAFirstObjectThatIsNotKnown()
    {
        KeptMessage message = Recording.Of("9V 3A, 20V 3.25A").Messages.Single();

        message.Hex.Should().Be("0130" + "00000000" + Bytes("0002D12C") + Bytes("00064145"));
        message.Known.Should().Be("1F80" + "00000000" + FixedKnown + FixedKnown);
    }

    // What was not read may have been the 5 V.
    [Fact]
    public void UnreadOfferWithout5V_LeavesTheFirstObjectOpen()
    {
        KeptMessage message = Recording.Of("offers: USB-C: 5V 3A, 9V 3A").Messages.Single();

        message.Hex.Should().Be("0130" + "00000000" + Bytes("0002D12C") + "00000000");
        message.Known.Should().Be("1F80" + "00000000" + FixedKnown + "00000000");
    }

    [Theory]
    [InlineData("offers: 5V 3A")]
    [InlineData("offers:\n5V 3A")]
    public void HeadingInFront_MakesItAListOfOffers(string text) => Recording.Of(text).Messages.Single().Hex.Should().Be("0110" + Bytes("0001912C"));

    [Fact]
    public void HeadingWithoutAnOffer_IsAFault() => Recording.Of("offers: nothing here").Faults.Should().HaveCount(2);

    [Fact]
    public void FlagsThatAreWritten_AreKnown()
    {
        KeptMessage message = Recording.Of("5V 3A unconstrained epr, 9V 3A peak 1, PPS 3.3-11V 3A limited").Messages.Single();

        message.Hex.Should().Be("0130" + Bytes("0881912C") + Bytes("0012D12C") + Bytes("C8DC213C"));
        message.Known.Should().Be("1FF0" + "FFFF8FC8" + "FFFF3FC0" + "7FFFFEF9");
    }

    [Theory]
    [InlineData("5V 3A, 9V 3B", 8, "\"3\" stands where a current such as 3.25A was expected, in \"9V 3B\".")]
    [InlineData("5V 3A, 9V", 8, "\"9V\" ends where a current such as 3.25A was expected.")]
    [InlineData("5V 3A, PPS 5V 3A", 8, "\"5V\" stands where a range such as 5-21V was expected, in \"PPS 5V 3A\".")]
    [InlineData("5V 3A, 9.03V 3A", 8, "\"9.03V 3A\" cannot be coded: Voltage is coded in steps of 50 from 0.")]
    [InlineData("5V 3A, 9V 3A 30W", 8, "\"9V 3A 30W\" says 30W, but 27 W is the product of volts and amperes.")]
    [InlineData("5V 3A, 9-12V 3A", 8, "\"9-12V 3A\" has a range; say in front of it whether it is PPS, SPR AVS, EPR AVS, variable or battery.")]
    [InlineData("5V 3A, 9V 3A shiny", 8, "\"shiny\" was not understood; \"9V 3A shiny\" should end before it.")]
    [InlineData("5V 3A\n\n  9V 3.1234A", 3, "\"3.1234A\" in \"9V 3.1234A\" is finer than a thousandth, or too large.")]
    public void OfferThatCannotBeRead_IsNamedWordForWord(string text, int column, string expected)
    {
        Recording read = Recording.Of(text);

        CaptureFault fault = read.Faults.Single();
        fault.Code.Should().Be("offer-invalid");
        fault.Column.Should().Be(column);
        fault.Detail.Should().StartWith(expected[..^1]);
        read.Messages.Single().Hex.Should().Be("0120" + Bytes("0001912C") + "00000000", "it keeps a place");
        read.Messages.Single().Known.Should().Be("1F80" + FixedKnown + "00000000");
    }

    [Fact]
    public void ListWithoutEnd_IsBounded()
    {
        Recording read = Recording.Of("5V 3A" + string.Concat(Enumerable.Repeat(",9V 3A", 10_000)));

        read.Faults.Should().ContainSingle().Which.Code.Should().Be("offers-too-many");
        read.Messages.Should().ContainSingle().Which.Known.Should().EndWith("00000000", "what was not read keeps a place");
    }

    private static string Bytes(string word) =>
        string.Concat(Enumerable.Range(0, 4).Select(index => word.Substring(6 - (2 * index), 2)));
}
