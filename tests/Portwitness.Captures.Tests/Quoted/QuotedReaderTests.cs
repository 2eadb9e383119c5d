using Portwitness.Captures.Formats;
using Portwitness.Captures.Quoted;

namespace Portwitness.Captures.Tests.Quoted;

/// <summary>
/// Lists out of texts that quote them. Words: check vectors of the Linux kernel's own macros; kernel lines: its tcpm_log_source_caps
/// (facts of kernel generations, captures/FORMAT.md). Every list is perhaps incomplete, so that no header states a count.
/// </summary>
public class QuotedReaderTests
{
    private const string FiveNine = "2C910108" + "2CD10200";
    private const string Header = "0120";

    [Theory]
    [InlineData("The charger says obj0=0x0801912C obj1=0x0002D12C, which is odd.")]
    [InlineData("obj0 = 0x801912c\nobj1 = 0x2d12c\nand so on")] // without zeros in front
    [InlineData("[0] 0801912C\n[1] 0002D12C\n")]
    [InlineData("PDO1: 0x0801912c\nPDO2: 0x0002d12c")]
    [InlineData("  PDO #1 -> 0x0801912C (5 V 3 A)\n  PDO #2 -> 0x0002D12C (9 V 3 A)")]
    [InlineData("{ 0x0801912C, 0x0002D12C }")]
    [InlineData("{\n  0x0801912C, // 5 V 3 A\n  0x0002D12C, // 9 V 3 A\n}")]
    [InlineData("static const uint32_t src_pdo[] = { 0x0801912C, 0x0002D12Cu };", 1)]
    [InlineData("static const uint32_t src_pdo[] = { 0x0801912C, 0x0002D12C };")]
    [InlineData("pdo[0] = 0x0801912C;\npdo[1] = 0x0002D12C;\nrdo[0] = 0x1304B12C;\nstatus = 0x00000001;")]
    [InlineData("> On Monday somebody wrote:\n> > obj0=0x0801912C\n> > obj1=0x0002D12C\nThanks!")]
    [InlineData("obj0=\n0x0801912C\u00A0obj1=\n0x0002D12C")]
    [InlineData("# What I see\n\n* object 1: `0x0801912C`\n* object 2: `0x0002D12C`\n")]
    [InlineData("1) 0x0801912C\n2) 0x0002D12C")]
    [InlineData("I read 0x0801912C and 0x0002D12C from it.")]
    [InlineData("Content-Transfer-Encoding: quoted-printable\n\nobj0=3D0x0801912C\nobj1=3D0x0002D12C=20\n")] // RFC 2045, 6.7
    [InlineData("> obj0=3D0801912C=20\n> obj1=3D0002D12C=20\n")]
    [InlineData("The charger says obj0=3D0x0801=\n912C and obj1=3D0x0002D12C, which=C2=A0is odd=\n.")]
    [InlineData("obj0=0801912C\nobj1=0002D12C\nThat is what it says.=20\n")] // "=08" and "=00" are no escapes here
    public void WordsOfAnyText_AreAListOfWhichTheEndIsNotKnown(string text, int read = 2)
    {
        Recording found = Recording.Of(text);

        found.Format.Should().Be("quoted");
        found.Header.ListsMayBeCut.Should().BeTrue();
        KeptMessage message = found.Messages.Single();
        message.Hex.Should().Be(read == 2 ? Header + FiveNine : "0110" + "2C910108");
        message.Known.Should().StartWith("1F80").And.MatchRegex("^1F80F*$", "the count is not known, and each word is");
    }

    [Theory]
    [InlineData(" PDO 0: type 0, 5000 mV, 3000 mA [E]\n PDO 1: type 0, 9000 mV, 3000 mA []\n")]
    [InlineData("> PDO 0: type 0, 5000 mV, 3000 mA [E]\n> PDO 1: type 0, 9000 mV, 3000 mA []\n")]
    [InlineData("PDO 0: type 0, 5000 mV,\n3000 mA [E] PDO 1:\ntype 0, 9000 mV, 3000\nmA []")]
    [InlineData("> > PDO 0: type 0, 5000 mV,\n> > 3000 mA [E]\n> > PDO 1: type 0,   9000 mV, 3000 mA []\n> I think that is fine.")]
    [InlineData("PDO 0:\u00A0type 0, 5000\u00A0mV, 3000\u00A0mA [E]<br>PDO 1: type 0, 9000mV,3000mA []")]
    [InlineData("[    1.886512]  PDO 0: type 0, 5000 mV, 3000 mA [E]\n[    1.886520]  PDO 1: type 0, 9000 mV, 3000 mA []\n")]
    [InlineData("PDO 0: type 0, 5000 mV, =\n3000 mA [E]=20\nPDO 1: type 0,=C2=A09000 mV, 3000 mA []=20\n")]
    public void LinesOfTheKernelWithoutTheirMessage_AreAListOfWhichTheEndIsNotKnown(string text)
    {
        Recording found = Recording.Of(text);

        found.Format.Should().Be("quoted");
        found.Faults.Should().BeEmpty();
        found.Messages.Single().Hex.Should().Be(Header + FiveNine);

        // Flags that no kernel prints stay unknown; the second object's are known to be clear.
        found.Messages.Single().Known.Should().Be("1F80" + "FFFF0FFE" + "FFFF0FFE");
    }

    [Fact]
    public void SevenKernelLines_KeepTheirKindsAndPlaces()
    {
        Recording found = Recording.Of(
            "PDO 0: type 0, 5000 mV, 3000 mA [E]\nPDO 1: type 0, 9000 mV, 3000 mA []\nPDO 3: type 0, 20000 mV, 3250 mA []\n"
            + "PDO 4: type 3, 3300-11000 mV, 3000 mA\nPDO 5: type 3, SPR AVS 9-15 V: 3000 mA 15-20 V: 3250 mA peak_current: 0");

        found.Messages.Single().Hex[4..].Should().HaveLength(6 * 8);
        found.Messages.Single().Hex.Substring(4 + (2 * 8), 8).Should().Be("00000000", "the third is not quoted");
        found.Messages.Single().Known.Substring(4 + (2 * 8), 8).Should().Be("00000000");
    }

    [Fact]
    public void LineThatIsCut_KeepsItsPlaceAndIsNamed()
    {
        Recording found = Recording.Of("PDO 0: type 0, 5000 mV, 3000 mA [E]\nPDO 1: type 0, 90\nPDO 2: type 0, 15000 mV, 3000 mA []");

        found.Faults.Select(static fault => (fault.Line, fault.Code)).Should().Equal((2, "quoted-unread"));
        found.Messages.Single().Known.Should().Be("1F80" + "FFFF0FFE" + "00000000" + "FFFF0FFE");
    }

    [Fact]
    public void WordThatTheEndCutsOff_IsNotAShorterWord()
    {
        Recording found = Recording.Of("obj0=0x801912c obj1=0x2d1");

        found.Messages.Single().Known.Should().Be("1F80" + "FFFFFFFF" + "00000000");
        found.FaultCodes.Should().Equal("quoted-unread");
    }

    // The first object of a list, and no other, is 5 V (R3.2v1.1, 6.4.1.2.1).
    [Theory]
    [InlineData("The first: 0x0801912C 0x0002D12C and the second: 0x0801912C 0x0004B12C")]
    [InlineData("obj0=0x0801912C obj1=0x0002D12C\nLater:\nobj0=0x0801912C obj1=0x0004B12C")]
    [InlineData("uint32_t a[] = { 0x0801912C, 0x0002D12C }; uint32_t b[] = { 0x0801912C, 0x0004B12C };")]
    public void SeveralListsInOneText_AreSeveralLists(string text) => Recording.Of(text).Messages.Select(static message => message.Hex)
        .Should().Equal(Header + FiveNine, Header + "2C910108" + "2CB10400");

    [Fact]
    public void FirstObjectThatIsNotQuoted_KeepsAPlace()
    {
        Recording found = Recording.Of("pdo 2: 0x0002D12C, pdo 3: 0x0004B12C; obj = 0x0801912C");

        found.Messages[0].Known.Should().Be("1F80" + "00000000" + "FFFFFFFF" + "FFFFFFFF");
    }

    [Fact]
    public void BytesAreRead_WhenSomebodySaysSo()
    {
        CaptureReadOptions options = new() { Quoted = QuotedForm.Bytes };

        foreach (string text in new[]
        {
            "read back: 2C 91 01 08 2C D1 02 00", "0x2C, 0x91, 0x01, 0x08, 0x2C, 0xD1, 0x02, 0x00", "2C910108 2CD10200", "PDO1: 2C 91 01 08\nPDO2: 2C D1 02 00",
        })
        {
            Recording.Of(System.Text.Encoding.UTF8.GetBytes(text), options: options).Messages.Single().Hex.Should().Be(Header + FiveNine, text);
        }

        Recording cut = Recording.Of("2C 91 01 08 2C D1"u8, options: options);
        cut.Messages.Single().Known.Should().Be("1F80" + "FFFFFFFF" + "00000000");
        cut.FaultCodes.Should().Equal("quoted-unread");
    }

    [Fact]
    public void WordsThatMayBeAnything_AreReadOnlyWhenSomebodySaysSo()
    {
        byte[] text = System.Text.Encoding.UTF8.GetBytes("it shows 0x0002D12C 0x0004B12C there");

        Recording.Of(text).FaultCodes.Should().Equal("format-unknown");
        Recording.Of(text, options: new() { Quoted = QuotedForm.Words }).Messages.Single().Known.Should().Be("1F80" + "00000000" + "FFFFFFFF" + "FFFFFFFF");
    }

    [Fact]
    public void ListOfASink_IsNamedAndNotTakenForASources()
    {
        Recording found = Recording.Of("Source:\nobj0=0x0801912C obj1=0x0002D12C\nSink:\nobj0=0x26019032 obj1=0x0002D12C");

        found.Messages.Single().Hex.Should().Be(Header + FiveNine);
        found.Faults.Select(static fault => (fault.Line, fault.Code)).Should().Equal((4, "quoted-unread"));
    }

    // An EPR list has 28 V and EPR AVS from position 8 on (R3.2v1.1, 6.5.15.1); what stands between was not quoted.
    [Fact]
    public void ObjectsOfEpr_MakeAnEprList()
    {
        Recording found = Recording.Of("PDO1: 0x0881912C PDO2: 0x0002D12C PDO8: 0x0008C1F4 PDO9: 0xD230968C");

        found.Messages.Single().Hex.Should().StartWith("1180").And.EndWith("F4C10800" + "8C9630D2");
        found.Messages.Single().Known.Substring(8 + (2 * 8), 5 * 8).Should().Be(new string('0', 40));
    }

    [Theory]
    [InlineData("commit 0801912c by somebody\nindex 3f2a91b..0002d12c 100644")]
    [InlineData("The router is at 10.0.0.1, since 20260302. Call 08019123 at 9.")]
    [InlineData("Fault at address 0x40021000, code 0x00000001, flags: 0x0000FFFF")]
    [InlineData("Dear all, my charger offers nothing at 5 V and 3 A.\nRegards")]
    [InlineData("[0] hello\n[1] world")]
    [InlineData("{ \"x\": \"0x0801912C\" ")]
    public void OtherTexts_AreNoneOfIt(string text) => Recording.Of(text).Format.Should().NotBe("quoted");

    [Theory]
    [InlineData("bench.capture.jsonl")]
    [InlineData("kernel-log-02.log")]
    [InlineData("kernel-log-05.log")]
    [InlineData("kernel-log-08.log")]
    [InlineData("sysfs-pd1.txt")]
    public void OtherFormats_KeepTheirNames(string file) => Recording.OfFile(file).Format.Should().NotBe("quoted");

    [Fact]
    public void AnyCut_GivesTheSame()
    {
        byte[] text = System.Text.Encoding.UTF8.GetBytes("> PDO 0: type 0, 5000 mV,\n> 3000 mA [E]\n> obj0=0x0801912C \u00A0obj1=0x0002D12C\n");
        Recording whole = Recording.Of(text);
        for (int at = 0; at <= text.Length; at++)
        {
            Recording.OfSplit(text, at).Calls.Should().Equal(whole.Calls);
        }
    }

    [Fact]
    public void EndlessText_IsBounded()
    {
        string text = string.Concat(Enumerable.Repeat("obj0=0x0801912C obj1=0x0002D12C\n", 40_000));

        Recording found = Recording.Of(text);

        found.Messages.Should().HaveCount(64);
        found.FaultCodes.Should().Equal("quoted-unread", "quoted-unread");
    }
}
