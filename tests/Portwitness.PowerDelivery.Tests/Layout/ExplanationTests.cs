using System.Collections.Immutable;
using System.Globalization;
using System.Text.RegularExpressions;
using CsCheck;
using Portwitness.PowerDelivery.Explanations;
using Portwitness.PowerDelivery.ExtendedBlocks;
using Portwitness.PowerDelivery.Framing;
using Portwitness.PowerDelivery.Messages;
using Portwitness.PowerDelivery.PowerData;
using Portwitness.PowerDelivery.Tests.Support;

namespace Portwitness.PowerDelivery.Tests.Layout;

/// <summary>Meanings: the tables of R3.2v1.1 that each line's clause names; words of shared/vectors.</summary>
public sealed partial class ExplanationTests
{
    // F9 of shared/vectors: fixed 20 V 3.25 A.
    [Fact]
    public void SourceCapabilities_AreExplainedBitByBit() => Text("A111" + "45410600").Should().Be("""
        header bit 15 | Extended | 0x0 | no | R3.2v1.1 Table 6.1
        header bits 14..12 | Number of Data Objects | 0x1 | 1 | R3.2v1.1 Table 6.1
        header bits 11..9 | MessageID | 0x0 | 0 | R3.2v1.1 Table 6.1
        header bit 8 | Port Power Role | 0x1 | source | R3.2v1.1 Table 6.1
        header bits 7..6 | Specification Revision | 0x2 | R3.x | R3.2v1.1 Table 6.1
        header bit 5 | Port Data Role | 0x1 | DFP | R3.2v1.1 Table 6.1
        header bits 4..0 | Message Type | 0x01 | Source_Capabilities | R3.2v1.1 Table 6.1
        object 1 bits 31..30 | Type | 0x0 | fixed | R3.2v1.1 Table 6.9
        object 1 bit 29 | Dual-Role Power | 0x0 | no | R3.2v1.1 Table 6.9
        object 1 bit 28 | USB Suspend Supported | 0x0 | no | R3.2v1.1 Table 6.9
        object 1 bit 27 | Unconstrained Power | 0x0 | no | R3.2v1.1 Table 6.9
        object 1 bit 26 | USB Communications Capable | 0x0 | no | R3.2v1.1 Table 6.9
        object 1 bit 25 | Dual-Role Data | 0x0 | no | R3.2v1.1 Table 6.9
        object 1 bit 24 | Unchunked Extended Messages Supported | 0x0 | no | R3.2v1.1 Table 6.9
        object 1 bit 23 | EPR Capable | 0x0 | no | R3.2v1.1 Table 6.9
        object 1 bit 22 | Reserved | 0x0 | reserved | R3.2v1.1 Table 6.9
        object 1 bits 21..20 | Peak Current | 0x0 | the operating current, or as Source_Capabilities_Extended says | R3.2v1.1 Table 6.9
        object 1 bits 19..10 | Voltage | 0x190 | 20 V (400 x 50 mV) | R3.2v1.1 Table 6.9
        object 1 bits 9..0 | Maximum Current | 0x145 | 3.25 A (325 x 10 mA) | R3.2v1.1 Table 6.9
        """);

    // R5 of shared/vectors: PPS request, 9.00 V 3 A. The word does not say its own shape.
    [Fact]
    public void Request_IsExplainedByTheObjectThatItSelects()
    {
        ImmutableArray<ExplainedField> lines = Explain("8210" + "3C840363", selected: new SourcePowerObject(0xC0DC323C));
        Meaning(lines, "Output Voltage").Should().Be("9 V (450 x 20 mV)");
        Meaning(lines, "Operating Current").Should().Be("3 A (60 x 50 mA)");
        Meaning(lines, "No USB Suspend").Should().Be("yes");
        Explain("8210" + "3C840363").Should().Contain(line => line.Name == "Unknown" && line.Range == "object 1 bits 21..0");
    }

    // R2.0: bit 31 is reserved, and GiveBack makes the low field a minimum.
    [Fact]
    public void RequestOfRevision2_HasTheOlderLayout() =>
        Explain("4210" + "32B00428", selected: new SourcePowerObject(0x0002D12C))
            .Where(line => line.Range.StartsWith("object", StringComparison.Ordinal))
            .Select(line => line.Name).Should().StartWith("Reserved").And.EndWith("Minimum Operating Current");

    // A header whose revision was not shown does not say R1.0.
    [Fact]
    public void RequestWithoutItsRevision_HasTheLaterLayout() =>
        Explain("0210" + "32B00428", known: Convert.FromHexString("3FFF" + "FFFFFFFF"), selected: new SourcePowerObject(0x0002D12C))
            [^1].Name.Should().Be("Maximum Operating Current");

    [Fact]
    public void EprRequest_IsExplainedByItsCopy()
    {
        ImmutableArray<ExplainedField> lines = Explain("892A" + "F4D14780" + "F4C10800");
        Meaning(lines, "Operating Current").Should().Be("5 A (500 x 10 mA)");
        lines.Single(line => line.Range == "object 2 bits 19..10").Meaning.Should().Be("28 V (560 x 50 mV)");
    }

    // Table 6.50: the data of Enter is watts, that of Enter Failed a reason.
    [Theory]
    [InlineData("8A12" + "00008C01", "EPR Sink Operational PDP 140 W")]
    [InlineData("8A12" + "00000104", "the cable is not EPR capable")]
    [InlineData("8A12" + "00000005", "0")]
    public void FieldThatDependsOnAnother_IsExplainedByIt(string hex, string meaning) =>
        Meaning(Explain(hex), "Data").Should().Be(meaning);

    [Fact]
    public void ChunkedList_WithItsBlock_IsExplainedToTheNinthObject()
    {
        BlockVector list = BlockVector.Of("epr-140w");
        ImmutableArray<ExplainedField> lines = Explain(
            "B1B9" + "2488" + "0000F4C108008C9630D2", block: DataBlock.Of(list.Bytes));
        lines.Where(line => line.Range == "object 7 bits 31..0").Single().Meaning.Should().Be("no object");
        lines.Single(line => line.Range == "object 8 bits 19..10").Meaning.Should().Be("28 V (560 x 50 mV)");
        lines.Single(line => line is { Name: "PDP" }).Meaning.Should().Be("140 W");
        lines.Single(line => line.Range == "extended header bits 14..11").Meaning.Should().Be("1");
    }

    [Fact]
    public void ChunksWithoutTheirBlock_ShowTheirOwnBytes()
    {
        ExplainedField second = Explain("B1B9" + "2488" + "0000F4C108008C9630D2")[^1];
        (second.Range, second.Raw).Should().Be(("bytes 26..35", "0x0000F4C108008C9630D2"));
        ExplainedField first = Explain("B1F7" + "2480" + string.Concat(Enumerable.Repeat("2C", 26)))[^1];
        (first.Range, first.Name, first.IsKnown).Should().Be(("bytes 26..35", "Rest of the data block", false));
    }

    [Fact]
    public void DataBlock_IsExplainedByteByByte()
    {
        ImmutableArray<ExplainedField> lines = Explain("A2B1" + "0780" + "2D061010022209" + "000000");
        Meaning(lines, "Internal Temp").Should().Be("45 °C");
        Meaning(lines, "Temperature status").Should().Be("normal");
        lines.Single(line => line.Name == "Internal Temp").Range.Should().Be("byte 0");
        lines.Single(line => line.Name == "Temperature status").Range.Should().Be("byte 4 bits 2..1");
        lines[^1].Should().Be(new ExplainedField(
            "message bytes 11..13", "Padding", "0x000000", "fills up the last word", false, true, "R3.2v1.1 6.2.1.2"));
    }

    [Fact]
    public void BytesThatNoLayoutKnows_AreShown()
    {
        Explain("A291" + "0380" + "2D0610" + "00")[^2].Range.Should().Be("byte 2 bits 3..0");
        ImmutableArray<ExplainedField> later = Explain("ACA1" + "0580" + "C2013C0A77" + "00");
        later.Single(line => line.Name == "Remainder").Should().Match<ExplainedField>(
            line => line.Range == "byte 4" && line.Raw == "0x77");
        Explain("BE91" + "0280" + "0102")[^1].Should().Match<ExplainedField>(line => line.Name == "Incomplete field");
        Explain("8110" + "AABB")[^1].Should().Match<ExplainedField>(
            line => line.Name == "Trailing bytes" && line.Range == "message bytes 2..3");
        Explain("AD11" + "01020304").Last().Name.Should().Be("Unknown");
    }

    [Fact]
    public void TextsAndCountries_AreReadable()
    {
        Meaning(Explain("A7B1" + "0A80" + "2B1A020154482D363500"), "Text").Should().Be("\"TH-65\"");
        Explain("AEA1" + "0680" + "020053454E4F")
            .Where(line => line.Name == "Country Code").Select(line => line.Meaning).Should().Equal("SE", "NO");
    }

    // SOP' selects other fields: R3.2v1.1, Tables 6.1, 6.33 and 6.41.
    [Fact]
    public void CablesAnswer_IsExplainedAsACables()
    {
        ImmutableArray<ExplainedField> lines = Explain(
            "8F51" + "41A000FF" + "2B1A0018" + "00000000" + "10030201" + "43260A11", SopKind.SopPrime);
        Meaning(lines, "Cable Plug").Should().Be("from a cable plug or VPD");
        Meaning(lines, "Command").Should().Be("Discover Identity");
        Meaning(lines, "SOP' Product Type (Cable Plug/VPD)").Should().Be("passive cable");
        Meaning(lines, "Maximum VBUS Voltage").Should().Be("50 V");
        Meaning(lines, "VBUS Current Handling Capability").Should().Be("5 A");
        Meaning(lines, "Cable Latency").Should().Be("below 10 ns (about 1 m)");
    }

    [Fact]
    public void BitsNotShown_AreNotGivenAMeaning()
    {
        byte[] known = Convert.FromHexString("FFFF" + "0FFFFFFF");
        ImmutableArray<ExplainedField> lines = Explain("A111" + "45410600", known: known);
        lines.Single(line => line.Name == "Maximum Current").Should().Match<ExplainedField>(
            line => !line.IsKnown && line.Meaning == "not shown" && line.Raw == "0b01????0101");
        Meaning(lines, "Voltage").Should().Be("20 V (400 x 50 mV)");

        // A fixed supply whose flags, bits 29 and 28, were not shown is a fixed supply.
        Meaning(Explain("A111" + "45410600", known: Convert.FromHexString("FFFF" + "FFFFFFCF")), "Voltage")
            .Should().Be("20 V (400 x 50 mV)");

        // Without the subtype an augmented supply has no layout.
        Explain("A111" + "3C32DCC0", known: Convert.FromHexString("FFFF" + "FFFFFFCF")).Should().HaveCount(8);

        // Without the type bits nobody knows what kind of object it is.
        Explain("A111" + "45410600", known: Convert.FromHexString("FFFF" + "FFFFFF3F"))
            .Should().Contain(line => line.Range == "object 1 bits 31..0" && !line.IsKnown);

        // Header type bits without the Extended bit do not name a message.
        Meaning(Explain("A100", known: Convert.FromHexString("FF7F")), "Message Type").Should().Be("1");
    }

    // The words that no message of the standard has.
    [Fact]
    public void ReservedMessage_IsLaidOutAsUnknown()
    {
        MessageView.TryRead(Convert.FromHexString("AD11" + "01020304"), out MessageView view).Should().BeTrue();
        DataObjectLayouts.For(view, 0, SopKind.Sop).Should().BeSameAs(DataObjectLayouts.UnknownLayout);
    }

    [Fact]
    public void MaskOfAnotherLength_IsABadCall() =>
        ((Action)(() => Explain("8100", known: [0xFF]))).Should().Throw<ArgumentException>();

    [Fact]
    public void AnyMessage_EachBitIsInOneLine() =>
        Gen.Select(Gen.Byte.Array[2, 60], Gen.Byte.Array[60], Gen.Bool, Gen.Enum<SopKind>()).Sample((bytes, mask, masked, sop) =>
        {
            MessageView.TryRead(bytes, out MessageView view);
            ImmutableArray<ExplainedField> lines =
                Explanation.Of(view, sop, masked ? mask.AsSpan(0, bytes.Length) : default);
            int bits = lines.Where(line => line.Name != "Rest of the data block").Sum(line => BitsOf(line.Range));
            return bits == bytes.Length * 8 && lines.All(line => line.Meaning.Length > 0 && line.Clause.StartsWith('R'));
        });

    // Every layout of this library, whatever the word: no field is without words.
    [Fact]
    public void AnyWord_EachFieldHasAMeaning() =>
        Gen.UInt.Sample(word => BitLayouts.All.All(layout => layout.Fields.All(field => field.Describe(word).Length > 0)));

    private static int BitsOf(string range)
    {
        Match match = Ranges().Matches(range)[^1];
        int high = int.Parse(match.Groups["high"].Value, CultureInfo.InvariantCulture);
        int low = match.Groups["low"].Success ? int.Parse(match.Groups["low"].Value, CultureInfo.InvariantCulture) : high;
        return match.Groups["unit"].Value == "bit" ? high - low + 1 : (low - high + 1) * 8;
    }

    [GeneratedRegex(@"(?<unit>bit|byte)s? (?<high>\d+)(\.\.(?<low>\d+))?")]
    private static partial Regex Ranges();

    private static string Meaning(ImmutableArray<ExplainedField> lines, string name) =>
        lines.First(line => line.Name == name).Meaning;

    private static string Text(string hex) => string.Join('\n', Explain(hex)
        .Select(line => $"{line.Range} | {line.Name} | {line.Raw} | {line.Meaning} | {line.Clause}"));

    private static ImmutableArray<ExplainedField> Explain(
        string hex, SopKind sop = SopKind.Sop, byte[]? known = null, DataBlock? block = null, SourcePowerObject? selected = null)
    {
        MessageView.TryRead(Convert.FromHexString(hex), out MessageView view).Should().BeTrue();
        return Explanation.Of(view, sop, known, block, selected);
    }
}
