using Portwitness.PowerDelivery.Framing;

namespace Portwitness.Captures.Tests;

/// <summary>Words: check vectors of the Linux kernel's own macros. Header bits: R3.2v1.1, Tables 6.1 and 6.3.</summary>
public class WordsReaderTests
{
    [Theory]
    [InlineData("0x0801912C 0x0002D12C")]
    [InlineData("0801912C,0002d12c")]
    [InlineData("0X0801912c ,\t0x0002D12C,\n")]
    [InlineData("# a list\r\n0x0801912C # 5 V\r\n\r\n0x0002D12C#9 V")]
    public void UpToSevenWords_AreOneSourceCapabilitiesOfUnknownSender(string text)
    {
        Recording read = Recording.Of(text);

        read.Faults.Should().BeEmpty();
        read.Header.Format.Should().Be("words");
        KeptMessage message = read.Messages.Single();
        message.Sop.Should().Be(SopKind.Sop);
        message.TimeUs.Should().Be(0);

        // Type 1, two objects; of the header, bits 15 to 12 and 4 to 0 are known.
        message.Hex.Should().Be("0120" + "2C910108" + "2CD10200");
        message.Known.Should().Be("1FF0" + "FFFFFFFF" + "FFFFFFFF");
    }

    [Fact]
    public void ObjectOfEprAtPosition8_MakesAnEprListInOnePiece()
    {
        // A 140 W source, R3.2v1.1 bit tables: two positions of padding, 28 V, EPR AVS.
        Recording read = Recording.Of(
            "0x0881912C 0x0002D12C 0x0004B12C 0x000641F4 0xE004B1F4 0x00000000 0x00000000 0x0008C1F4 0xD230968C");

        KeptMessage message = read.Messages.Single();
        message.Hex.Should().Be(
            "1180" + "2400" + "2C918108" + "2CD10200" + "2CB10400" + "F4410600" + "F4B104E0" + "00000000" + "00000000"
            + "F4C10800" + "8C9630D2");
        message.Known.Should().StartWith("1F80" + "FF01" + "FFFFFFFF").And.HaveLength(message.Hex.Length);
    }

    // R3.2v1.1 6.4.1: a header cannot state eight objects, so the count is unknown and none is lost.
    [Fact]
    public void EightWordsOfSpr_StayOneListWithAnUnknownCount()
    {
        Recording read = Recording.Of(string.Join(' ', Enumerable.Repeat("0x0002D12C", 8)));

        KeptMessage message = read.Messages.Single();
        message.Hex.Should().Be("0170" + string.Concat(Enumerable.Repeat("2CD10200", 8)));
        message.Known.Should().StartWith("1F80" + "FFFFFFFF");
    }

    [Theory]
    [InlineData("0x0002D12", 12)]
    [InlineData("0x0002D12C0", 12)]
    [InlineData("0x0002D12G", 12)]
    [InlineData("-0002D12C", 12)]
    [InlineData("9V", 12)]
    public void WordThatCannotBeRead_KeepsItsPlaceWithItsBitsUnknown(string word, int column)
    {
        Recording read = Recording.Of($"0x0801912C {word} 0x00064145");

        read.Faults.Select(f => (f.Line, f.Column, f.Code)).Should().Equal((1, column, "word-invalid"));
        read.Messages.Single().Hex.Should().Be("0130" + "2C910108" + "00000000" + "45410600");
        read.Messages.Single().Known.Should().Be("1FF0" + "FFFFFFFF" + "00000000" + "FFFFFFFF");
    }

    [Fact]
    public void NoWordThatCanBeRead_IsNoMessage()
    {
        Recording read = Recording.Of("0x1 0x2");

        read.FaultCodes.Should().Equal("word-invalid", "word-invalid");
        read.Messages.Should().BeEmpty();
    }

    [Fact]
    public void OnlyComments_AreEmpty() => Recording.Of("# nothing yet\n").FaultCodes.Should().Equal("input-empty");

    [Fact]
    public void WordsBeyondTheLongestBlock_AreReportedOnce()
    {
        Recording read = Recording.Of(string.Join('\n', Enumerable.Repeat("0x0801912C", 100)));

        read.Faults.Select(f => (f.Line, f.Column, f.Code)).Should().Equal((66, 1, "words-unplaced"));
        read.Messages.Single().Hex.Should().HaveLength(2 * (2 + 260));
    }

    [Fact]
    public void WordsAfterASkippedLine_AreNotGivenAPosition()
    {
        Recording read = Recording.Of("0x0801912C\n" + new string('0', 70_000) + "\n0x0002D12C\n0x0004B12C");

        read.FaultCodes.Should().Equal("line-too-long", "words-unplaced");
        read.Messages.Single().Hex.Should().Be("01102C910108");
    }
}
