using System.IO.Compression;
using System.Text;
using Portwitness.Captures.PowerLogs;

namespace Portwitness.Captures.Tests.PowerLogs;

/// <summary>Logs of power: headings, units, decimals, bad rows, hostile text. Expected rows are worked by hand.</summary>
public class PowerLogReaderTests
{
    private static readonly PowerLogRow Known = new(2, 1_500_000, 5_021_000, 1_998_000);

    [Theory]
    [InlineData("time (s),volts,amps\n1.5,5.021,1.998")]
    [InlineData("Time (ms), Voltage (mV), Current (mA)\r\n1500, 5021, 1998\r\n")]
    [InlineData("\uFEFFtime_us\tV (V)\tI (A)\n1500000\t5.021\t1.998")]
    [InlineData("time (s);volts;amps\n1,5;5,021;1,998")]
    [InlineData("time (s),volts,amps\n\"1,5\",\"5,021\",\"1,998\"")]
    [InlineData("amps,comment,time [s],volts\n1.998,warm,1.5e0,5.021")]
    [InlineData("time (s),volts,amps\n1.5,5.021,1.998,\n# the end")]
    public void Row_IsReadWhateverItsForm(string text)
    {
        Log log = Read(text);

        log.Rows.Should().Equal(Known);
        log.Faults.Should().BeEmpty();
    }

    [Fact]
    public void Comments_AreNotRows() =>
        Read("# bench 3\ntime (s),volts,amps\n// load on\n1.5,5.021,1.998").Rows.Should().Equal(Known with { Line = 4 });

    [Fact]
    public void StatedColumns_NeedNoHeadings()
    {
        TableMapping columns = TableMapping.ParseMeasurements("time=1:ms,volts=3:mV,amps=2:mA", out _);

        Read("1500;1998;5021", columns).Rows.Should().Equal(Known with { Line = 1 });
    }

    // A log that runs over midnight: the second row is 20 s after the first.
    [Fact]
    public void TimeOfDay_GoesOnBehindMidnight() =>
        Read("time,volts,amps\n23:59:50,5,2\n00:00:10,5,2").Rows.Select(row => row.TimeUs).Should().Equal(0, 20_000_000);

    [Fact]
    public void Date_CountsFromTheFirst() =>
        Read("time,volts,amps\n2026-03-02 09:00:00,5,2\n2026-03-02T10:00:00Z,5,2").Rows.Select(row => row.TimeUs).Should().Equal(0, 3_600_000_000);

    [Fact]
    public void StepBack_IsKept() =>
        Read("time (s),volts,amps\n10,5,2\n4,5,2").Rows.Select(row => row.TimeUs).Should().Equal(10_000_000, 4_000_000);

    [Theory]
    [InlineData("1.5,abc,2", 5, "table-row-invalid", "abc")]
    [InlineData("1.5,,2", 5, "table-row-invalid", "volts")]
    [InlineData("1.5,5", 6, "table-row-invalid", "amps")]
    [InlineData("1.5,5,1001", 7, "table-row-invalid", "-1000 to 1000")]
    [InlineData("1.5,5,-1e9", 7, "table-row-invalid", "-1000 to 1000")]
    [InlineData("soon,5,2", 1, "time-invalid", "soon")]
    [InlineData("1e40,5,2", 1, "time-invalid", "1e40")]
    [InlineData("NaN,5,2", 1, "time-invalid", "NaN")]
    [InlineData("1.5,5,021,1,998", 11, "table-row-invalid", "semicolons")]
    [InlineData("1.5,\"5,2", 6, "table-row-invalid", "quote")]
    public void BadRow_IsAFaultAndReadingGoesOn(string row, int column, string code, string says)
    {
        Log log = Read($"time (s),volts,amps\n0,5,2\n{row}\n3,5,2");

        log.Rows.Select(kept => kept.Line).Should().Equal(2, 4);
        CaptureFault fault = log.Faults.Should().ContainSingle().Subject;
        (fault.Line, fault.Column, fault.Code).Should().Be((3, column, code));
        fault.Detail.Should().Contain(says);
    }

    // Of a heading "time" nobody knows whether it is seconds or milliseconds.
    [Fact]
    public void TimeWithoutUnit_IsSaid()
    {
        Log log = Read("time,volts,amps\n0,5,2\n1,5,2");

        log.Reader.UnitsAssumed.Should().BeTrue();
        log.Faults.Should().ContainSingle().Which.Code.Should().Be("table-assumed");
    }

    [Theory]
    [InlineData("", "input-empty")]
    [InlineData("# nothing\n\n", "input-empty")]
    [InlineData("time (s),volts,amps\n", "input-empty")]
    [InlineData("time (s),volts\n0,5", "table-columns")]
    [InlineData("volts,amps\n5,2", "table-columns")]
    [InlineData("{\"capture\":1}\n", "table-columns")]
    [InlineData("\0\0\0\0", "text-not-utf8")]
    public void NoLog_IsOneFault(string text, string code)
    {
        Log log = Read(text);

        log.Rows.Should().BeEmpty();
        log.Faults.Should().ContainSingle().Which.Code.Should().Be(code);
    }

    [Fact]
    public void Utf16_IsRefused()
    {
        Log log = Read([0xFF, 0xFE, .. Encoding.Unicode.GetBytes("time (s),volts,amps\n0,5,2")], 7);

        log.Faults.Should().ContainSingle().Which.Code.Should().Be("text-not-utf8");
    }

    [Fact]
    public void PackedLog_IsTheSame()
    {
        using MemoryStream packed = new();
        using (GZipStream gzip = new(packed, CompressionMode.Compress))
        {
            gzip.Write(Encoding.UTF8.GetBytes("\uFEFFtime (s),volts,amps\n1.5,5.021,1.998\n"));
        }

        Log log = Read(packed.ToArray(), 5);

        log.Faults.Should().BeEmpty();
        log.Rows.Should().Equal(Known);
    }

    // Whatever pieces it comes in.
    [Fact]
    public void Pieces_DoNotMatter()
    {
        byte[] text = Encoding.UTF8.GetBytes("\uFEFFtime (s);volts;amps\r\n1,5;5,021;1,998\r\nx;y;z\r\n2;5;2");
        string whole = Read(text, text.Length).Summary();
        for (int piece = 1; piece < text.Length; piece++)
        {
            Read(text, piece).Summary().Should().Be(whole);
        }
    }

    [Fact]
    public void LongLine_IsAFaultAndReadingGoesOn()
    {
        Log log = Read($"time (s),volts,amps\n0,5,2\n{new string('9', 200_000)}\n1,5,2");

        log.Rows.Should().HaveCount(2);
        log.Faults.Should().ContainSingle().Which.Code.Should().Be("line-too-long");
    }

    [Fact]
    public void Faults_AreBounded()
    {
        Log log = Read("time (s),volts,amps\n" + string.Concat(Enumerable.Repeat("x,x,x\n", 5_000)) + "0,5,2");

        log.Faults.Should().HaveCount(1_001).And.Contain(fault => fault.Code == "faults-omitted");
        log.Rows.Should().ContainSingle();
    }

    [Fact]
    public void Garbage_NeverThrows()
    {
        byte[] seed = Encoding.UTF8.GetBytes("time (s);volts,amps|\t\"\n1,5;5.021e-3;1,998\r\n12:00:59;2026-01-01 1:2:3;-\n");
        for (int round = 0; round < 2_000; round++)
        {
            Random random = new(round);
            byte[] text = [.. Enumerable.Range(0, random.Next(1, 300)).Select(_ => random.Next(6) == 0 ? (byte)random.Next(256) : seed[random.Next(seed.Length)])];
            Log log = Read(text, random.Next(1, 50));
            log.Faults.Should().OnlyContain(fault => fault.Detail.Length > 10);
        }
    }

    private static Log Read(string text, TableMapping? columns = null) => Read(Encoding.UTF8.GetBytes(text), 1 << 20, columns);

    private static Log Read(byte[] text, int piece, TableMapping? columns = null)
    {
        Log log = new();
        using PowerLogReader reader = new(log, columns);
        foreach (byte[] part in text.Chunk(piece))
        {
            reader.Write(part);
        }

        reader.Complete();
        log.Reader = reader;
        return log;
    }

    private sealed class Log : IPowerLogSink
    {
        public List<PowerLogRow> Rows { get; } = [];

        public List<CaptureFault> Faults { get; } = [];

        public PowerLogReader Reader { get; set; } = null!;

        public void OnRow(in PowerLogRow row) => Rows.Add(row);

        public void OnFault(CaptureFault fault) => Faults.Add(fault);

        public string Summary() => string.Join('\n', Rows) + string.Join('\n', Faults);
    }
}
