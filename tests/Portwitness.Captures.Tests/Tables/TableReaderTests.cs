using System.Text;
using CsCheck;
using Portwitness.Captures.Formats;
using Portwitness.Captures.Tables;
using Portwitness.PowerDelivery.Framing;

namespace Portwitness.Captures.Tests.Tables;

public class TableReaderTests
{
    // 5 V 3 A and 9 V 3 A: header 0x21A1 says two objects (R3.2v1.1, Tables 6.1 and 6.9).
    private const string List = "A1212C9101082CD10200";

    [Theory]
    [InlineData("time_us,sop,hex\n5,SOP,{0}\n")]
    [InlineData("Time (us);Dir;SOP;Data\n5;TX;SOP;{0}\n")]
    [InlineData("t[us]\tSOP Type\tHex\n5\tsop\t{0}\n")]
    [InlineData("# exported\n\n  // second comment\ntimestamp (s)|sop|payload\n0.000005|SOP|{0}\n")]
    [InlineData("\"Time (ms)\",\"SOP\",\"Raw Data\"\n\"0,005\",\"SOP\",\"{0}\"\n")]
    [InlineData("Time (ms);SOP;Raw\r\n0,005;SOP;{0}\r\n")]
    [InlineData("No.,Time (ns),SOP,Bytes\n1,5.0E+03,SOP,{0}\n")]
    public void PlainHeadings_AreFoundWhateverTheOrderAndTheDelimiter(string table)
    {
        Recording read = Recording.Of(string.Format(table, List));

        read.Format.Should().Be("table");
        read.Faults.Should().BeEmpty();
        read.Header.OriginName.Should().Be("table");
        read.Messages.Select(m => (m.TimeUs, m.Sop, m.Hex)).Should().Equal((5, SopKind.Sop, List));
    }

    // What a column is called exactly goes before what it begins with.
    [Theory]
    [InlineData("Time (us),SOP Kind,Data Length,Data\n5,SOP,10,{0}\n")]
    [InlineData("Time Delta (us),Time (us),SOP,Data Role,Header Type,Payload\n1,5,SOP,DFP,2,{0}\n")]
    [InlineData("Start Time (us),Frame Number,SOP,Data Objects (hex),Raw Data\n5,7,SOP,2,{0}\n")]
    public void ExactNames_GoBeforeWords(string table)
    {
        Recording read = Recording.Of(string.Format(table, List));

        read.Faults.Should().BeEmpty();
        read.Messages.Select(m => (m.TimeUs, m.Hex)).Should().Equal((5, List));
    }

    [Fact]
    public void LengthAlone_IsNoData() =>
        Read("Time (us),SOP,Data Length\n5,SOP,10\n", "").FaultCodes.Should().Equal("table-columns");

    // The second message is 0.2 s behind the first.
    [Fact]
    public void ClockPastMidnight_GoesOn() =>
        Recording.Of("time;sop;hex\n23:59:59.9;SOP;A303\n0:00:00.1;SOP;A303").Messages.Select(m => m.TimeUs).Should().Equal(0, 200_000);

    // m:ss is told by a fraction before it; otherwise it may be h:mm.
    [Fact]
    public void TimeOfTwoParts_IsAskedAbout()
    {
        Recording open = Recording.Of("time;sop;hex\n0:01;SOP;A303\n0:02;SOP;A303");

        open.Messages.Select(m => m.TimeUs).Should().Equal(0, 0);
        CaptureFault fault = open.Faults.Should().ContainSingle().Subject;
        (fault.Line, fault.Column, fault.Code).Should().Be((2, 1, "time-invalid"));
        fault.Detail.Should().Contain("--columns time=1:mm:ss");
        Recording.Of("time;sop;hex\n0:01.0;SOP;A303\n0:02;SOP;A303").Messages.Select(m => m.TimeUs).Should().Equal(0, 1_000_000);
    }

    [Theory]
    [InlineData("A1 21 2C 91 01 08 2C D1 02 00")]
    [InlineData("a1-21-2c-91-01-08-2c-d1-02-00")]
    [InlineData("0xA1 0x21 0x2C 0x91 0x01 0x08 0x2C 0xD1 0x02 0x00")]
    [InlineData("0xA1212C9101082CD10200")]
    [InlineData("A1h 21h 2Ch 91h 01h 08h 2Ch D1h 02h 00h")]
    [InlineData("0x21A1 0x0801912C 0x0002D12C")]
    [InlineData("21A1 0801912C 0002D12C")]
    [InlineData("21A1: [0801912C | 0002D12C]")]
    public void MessageInAnyForm_IsTheSameBytes(string cell) => Messages("time (us);sop;hex\n1;SOP;" + cell.Replace("|", "_"))
        .Should().Equal(List);

    // A GoodCRC of a source of R3.x is 0x01A1 (Table 6.1): on the wire A1 01. Its own count tells which it is.
    [Theory]
    [InlineData("A101")]
    [InlineData("0xA101")]
    [InlineData("01A1")]
    [InlineData("0x01A1")]
    public void HeaderAlone_IsReadByItsOwnCount(string cell) => Messages("time (us);sop;hex\n1;SOP;" + cell).Should().Equal("A101");

    // Both orders of 0x0101 and of its like have no objects: what the table used before counts.
    [Fact]
    public void HeaderAloneThatFitsBothOrders_IsReadAsTheOthersAre()
    {
        Messages("time (us);sop;hex\n1;SOP;0x21A1 0x0801912C 0x0002D12C\n2;SOP;0x0102").Should().Equal(List, "0201");
        Messages("time (us);sop;hex\n1;SOP;A1 21 2C 91 01 08 2C D1 02 00\n2;SOP;0102").Should().Equal(List, "0102");
    }

    [Fact]
    public void HeaderInAColumnOfItsOwn_IsPutInFront()
    {
        Messages("time (us);header;words\n1;0x21A1;0x0801912C 0x0002D12C\n2;01A1;").Should().Equal(List, "A101");
        Messages("time (us);header;data\n1;0x21A1;2C9101082CD10200").Should().Equal(List);
        Messages("time (us);header;data\n1;0x21A1;A1212C9101082CD10200").Should().Equal(List);
    }

    // CRC of Accept, A303: 6FACFA5D on the wire (zlib's CRC-32).
    [Fact]
    public void CrcBehindTheMessage_IsTakenOff()
    {
        KeptMessage message = Recording.Of("time (us);sop;hex\n1;SOP;A3036FACFA5D").Messages.Single();

        message.Hex.Should().Be("A303");
        message.Crc.Should().Be(0x5DFAAC6F);
    }

    [Theory]
    [InlineData("ok", true)]
    [InlineData("Bad", false)]
    [InlineData("0", false)]
    public void StatedCrc_IsKept(string cell, bool right) => Recording.Of($"time (us);sop;hex;crc\n1;SOP;A303;{cell}")
        .Messages.Single().CrcOk.Should().Be(right);

    [Fact]
    public void CrcBytes_AreKeptAndNonsenseCountsAsWrong()
    {
        Recording read = Recording.Of("time (us);sop;hex;crc\n1;SOP;A303;6FACFA5D\n2;SOP;A303;perhaps");

        read.Messages.Select(m => (m.Crc, m.CrcOk)).Should().Equal((0x5DFAAC6F, null), (null, false));
        read.Faults.Select(f => (f.Line, f.Column, f.Code)).Should().Equal((3, 12, "table-row-invalid"));
    }

    [Theory]
    [InlineData("SOP'", SopKind.SopPrime)]
    [InlineData("SOP\u2032", SopKind.SopPrime)]
    [InlineData("sop prime", SopKind.SopPrime)]
    [InlineData("SOP\"", SopKind.SopDoublePrime)]
    [InlineData("SOP_DOUBLE_PRIME", SopKind.SopDoublePrime)]
    [InlineData("SOP'_Debug", SopKind.SopPrimeDebug)]
    [InlineData("SOP'' Debug", SopKind.SopDoublePrimeDebug)]
    public void KindOfMessage_IsReadAsTablesPrintIt(string cell, SopKind kind) =>
        Recording.Of($"time (us);hex;sop\n1;A303;{cell}").Messages.Single().Sop.Should().Be(kind);

    [Fact]
    public void Resets_BecomeSignals() => Recording.Of("time (us);sop;hex\n1;Hard Reset;\n2;cable-reset;\n").Signals
        .Select(s => (s.TimeUs, s.Kind)).Should().Equal((1, SignalKind.HardReset), (2, SignalKind.CableReset));

    [Fact]
    public void Direction_IsKeptAsAMember() => Recording.Of("time (us);direction;sop;hex\n1;\"TX \"\"a\"\"\";SOP;A303").Messages.Single().Extra
        .Should().Be("{\"direction\":\"TX \\\"a\\\"\"}");

    [Fact]
    public void StatedColumns_GoByNumberOrName()
    {
        const string Table = "1,x,SOP,0.5,,,A303\n";

        Recording numbers = Read(Table + "2,x,SOP',1.5,,,A605\n", "time=4:ms,sop=3,hex=7");
        Recording names = Read("n,x,kind,when,a,b,what\n" + Table, "time=when:ms,sop=KIND,hex=what");

        numbers.Messages.Select(m => (m.TimeUs, m.Sop, m.Hex)).Should().Equal((500, SopKind.Sop, "A303"), (1500, SopKind.SopPrime, "A605"));
        names.Messages.Select(m => m.TimeUs).Should().Equal(500);
        numbers.Faults.Concat(names.Faults).Should().BeEmpty();
    }

    [Fact]
    public void WhatNothingStates_IsSaid()
    {
        Recording read = Recording.Of("time,hex\n1.5,A303\n");

        read.Messages.Single().TimeUs.Should().Be(1_500_000);
        read.Faults.Should().Equal(
            new CaptureFault(1, 0, "table-assumed", "No column says whom messages are between (SOP, SOP', SOP''); all were read as SOP. If "
                + "the table says it, name the column, for example --columns sop=3."),
            new CaptureFault(1, 1, "table-assumed", "Nothing says in which unit time is; seconds were taken. State it in the heading, for "
                + "example \"time (s)\", or with --time-unit."));
    }

    [Theory]
    [InlineData("-3;-1;2", 0, 2, 5)]
    [InlineData("9:14:07.25;9:14:07.5;10:00:00", 0, 250_000_000, 2_752_750_000_000)]
    [InlineData("2026-03-02 09:14:07.25;2026-03-02T09:14:08Z;2026-03-03 00:00:00", 0, 750_000_000, 53_152_750_000_000)]
    [InlineData("59.5:1;1:00.5;1:02", 0, 0, 0)]
    public void TimesOfAClock_CountFromTheFirst(string times, long first, long second, long third)
    {
        string[] cells = times.Split(';');
        if (cells[0] == "59.5:1")
        {
            Recording.Of($"time (s);sop;hex\n{cells[0]};SOP;A303").FaultCodes.Should().Equal("time-invalid");
            return;
        }

        Recording.Of("time (ns);sop;hex\n" + string.Concat(cells.Select(cell => $"{(cell.Contains(':') ? cell : cell + "000")};SOP;A303\n")))
            .Messages.Select(m => m.TimeUs).Should().Equal(first, second / (cells[0] == "-3" ? 1 : 1000), third / (cells[0] == "-3" ? 1 : 1000));
    }

    [Fact]
    public void LinesThatCannotBeRead_AreReportedWithTheirPlace()
    {
        Recording read = Recording.Of(
            "time (us);sop;hex\n1;SOP;A303\nx;SOP;A303\n3;SOP;xyz\n4;SOQ;A303\n5;SOP;A3\n2;SOP;A303\n0,1,2;SOP;A303\n6;SOP\n7;\"SOP;A303\n"
            + "8;SOP;A3031;\n9;SOP;2C91 0108\n");

        read.Faults.Select(f => (f.Line, f.Column, f.Code)).Should().Equal(
            (3, 1, "time-invalid"), (4, 7, "hex-invalid"), (5, 3, "table-row-invalid"), (6, 7, "hex-length"), (7, 1, "time-backwards"), (8, 1, "time-invalid"),
            (10, 4, "table-row-invalid"), (11, 7, "hex-invalid"), (12, 7, "hex-invalid"), (9, 0, "table-rows-empty"));
        read.Messages.Select(m => m.TimeUs).Should().Equal(1, 1, 5, 5);
    }

    [Theory]
    [InlineData("a,b\n1,A303\n", "time=1,hex=9")]
    [InlineData("a,b\n1,A303\n", "time=1,hex=c")]
    [InlineData("a,b\n1,A303\n", "time=1")]
    public void ColumnThatIsNotThere_NamesThoseThatAre(string table, string columns)
    {
        Recording read = Read(table, columns);

        read.Messages.Should().BeEmpty();
        read.Faults.Single().Should().Match<CaptureFault>(fault => fault.Code == "table-columns" && fault.Detail.Contains("'a, b'"));
    }

    [Theory]
    [InlineData("time", "names no column")]
    [InlineData("tine=1", "is no column")]
    [InlineData("time=0", "counted from 1")]
    [InlineData("time=1,time=2", "mapped twice")]
    [InlineData("time=1001", "counted from 1")]
    public void MappingThatIsWrong_SaysWhy(string columns, string why)
    {
        TableMapping.Parse(columns, out string? problem);

        problem.Should().Contain(why);
    }

    [Fact]
    public void RandomTables_NeverThrow() => Gen.OneOf(new[] { "1", "SOP", ";", ",", "\t", "\"", "\n", "0x21A1", "A3 03", "Hard Reset", "-", "e9", "9:14:07",
            "2026-03-02 ", "\u00e9", "\\", "99999999999999999999", "." }.Select(Gen.Const).ToArray()).Array[0, 60].Sample(
        parts => Read("time (us);sop;hex\n" + string.Concat(parts), "time=1:us").Headers.Should().ContainSingle(),
        seed: "0000000000001",
        iter: 3000);

    private static IEnumerable<string> Messages(string table) => Recording.Of(table).Messages.Select(m => m.Hex);

    private static Recording Read(string table, string columns)
    {
        TableMapping mapping = TableMapping.Parse(columns, out string? problem);
        problem.Should().BeNull();
        return Recording.Of(Encoding.UTF8.GetBytes(table), options: new CaptureReadOptions { Table = mapping });
    }
}
