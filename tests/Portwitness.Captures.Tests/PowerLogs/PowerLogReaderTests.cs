using System.IO.Compression;
using System.Text;
using Portwitness.Captures.PowerLogs;
using Portwitness.Captures.Tables;

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

    // 0:30 is half an hour or half a minute: a factor of 60 in what was measured.
    [Theory]
    [InlineData("time")]
    [InlineData("Time (ms)")]
    [InlineData("time (UTC)")]
    public void TimeOfTwoParts_IsAskedAbout(string heading)
    {
        Log log = Read($"{heading},volts,amps\n0:00,5,2\n0:30,5,2\n1:00,5,2");

        log.Rows.Should().BeEmpty();
        CaptureFault fault = log.Faults.Should().ContainSingle().Subject;
        (fault.Line, fault.Column, fault.Code).Should().Be((2, 1, "time-invalid"));
        fault.Detail.Should().Contain("hours and minutes, or minutes and seconds").And.Contain("time (hh:mm)").And.Contain("time=1:hh:mm");
    }

    // Seconds of the rows 0:30 and 1:00.
    [Theory]
    [InlineData("time (hh:mm),volts,amps\n0:00,5,2\n0:30,5,2\n1:00,5,2", 1_800, 3_600)]
    [InlineData("Time [H:MM],volts,amps\n0:00,5,2\n0:30,5,2\n1:00,5,2", 1_800, 3_600)]
    [InlineData("time (h),volts,amps\n0:00,5,2\n0:30,5,2\n1:00,5,2", 1_800, 3_600)]
    [InlineData("time (mm:ss),volts,amps\n0:00,5,2\n0:30,5,2\n1:00,5,2", 30, 60)]
    [InlineData("time (min),volts,amps\n0:00,5,2\n0:30,5,2\n1:00,5,2", 30, 60)]
    [InlineData("time (hh:mm:ss),volts,amps\n0:00,5,2\n0:30,5,2\n1:00,5,2", 30, 60)]
    // A later row has a fraction, or three parts.
    [InlineData("time,volts,amps\n0:00,5,2\n0:30,5,2\n1:00,5,2\n1:00.5,5,2", 30, 60)]
    [InlineData("time,volts,amps\n0:00,5,2\n0:30,5,2\n1:00,5,2\n1:00:00,5,2", 30, 60)]
    // 2 A for an hour are 2000 mAh, at 5 V 10 Wh; for a minute 33 mAh.
    [InlineData("time,volts,amps,Capacity (mAh)\n0:00,5,2,0\n0:30,5,2,995\n1:00,5,2,1990", 1_800, 3_600)]
    [InlineData("time,volts,amps,Capacity (mAh)\n0:00,5,2,100\n0:30,5,2,116\n1:00,5,2,133", 30, 60)]
    [InlineData("time,volts,amps,E/Wh\n0:00,5,-2,0\n0:30,5,-2,-5\n1:00,5,-2,-10.1", 1_800, 3_600)]
    public void TimeOfTwoParts_IsReadAsSomethingTells(string text, int second, int third)
    {
        Log log = Read(text);

        log.Faults.Should().BeEmpty();
        log.Rows.Take(3).Select(row => row.TimeUs).Should().Equal(0, second * 1_000_000L, third * 1_000_000L);
        Read(Encoding.UTF8.GetBytes(text), 3).Rows.Should().Equal(log.Rows);
    }

    [Fact]
    public void TimeOfTwoParts_PassesMidnightAsHours() =>
        Read("time,volts,amps\n23:58,5,2\n23:59,5,2\n0:00,5,2\n0:01,5,2").Rows.Select(row => row.TimeUs)
            .Should().Equal(0, 60_000_000, 120_000_000, 180_000_000);

    [Fact]
    public void TimeOfTwoParts_IsStatedWithTheColumn()
    {
        TableMapping columns = TableMapping.ParseMeasurements("time=1:hh:mm,volts=2:V,amps=3:A", out string? problem);

        problem.Should().BeNull();
        Read("0:00,5,2\n0:30,5,2", columns).Rows.Select(row => row.TimeUs).Should().Equal(0, 1_800_000_000);
    }

    // A count that neither reading comes near tells nothing.
    [Fact]
    public void TimeOfTwoParts_IsAskedAboutWhereTheCountFitsNeither() =>
        Read("time,volts,amps,Capacity (mAh)\n0:00,5,2,0\n0:30,5,2,100\n1:00,5,2,300").Faults.Should().ContainSingle().Which.Code.Should().Be("time-invalid");

    [Fact]
    public void TimesOfTwoParts_AreHeldUpToALimit()
    {
        string rows = string.Concat(Enumerable.Range(0, 400_000).Select(minute => $"{minute / 60}:{minute % 60:00},5,2\n"));
        Log log = Read("time,volts,amps\n" + rows);

        log.Rows.Should().BeEmpty();
        log.Faults.Should().ContainSingle().Which.Code.Should().Be("time-invalid");
    }

    // Worked by hand: 1.5 h are 5400 s, 2.5 min 150 s.
    [Theory]
    [InlineData("time (h)", "1.5", 5_400_000_000)]
    [InlineData("Time [hours]", "1,5", 5_400_000_000)]
    [InlineData("t/h", "1.5", 5_400_000_000)]
    [InlineData("elapsed_h", "1.5", 5_400_000_000)]
    [InlineData("time_min", "2.5", 150_000_000)]
    [InlineData("Timestamp (min)", "0.0000001", 6)]
    public void HoursAndMinutes_AreUnits(string heading, string cell, long microseconds)
    {
        TableMapping? columns = heading.StartsWith("elapsed", StringComparison.Ordinal)
            ? TableMapping.ParseMeasurements("time=elapsed_h", out _) : null;

        Log log = Read($"{heading};volts;amps\n{cell};5;2", columns);

        log.Faults.Should().BeEmpty();
        log.Rows.Should().ContainSingle().Which.TimeUs.Should().Be(microseconds);
    }

    // A heading's unit goes before its words, and exact names go before words.
    [Theory]
    [InlineData("time (s),VBUS Current (A),VBUS Voltage (V)\n1.5,1.998,5.021")]
    [InlineData("time (s),VBUS Current 2 (A),VBUS (V)\n1.5,1.998,5.021")]
    [InlineData("time (s),Voltage Limit (V),Current Limit (A),Voltage (V),Current (A)\n1.5,20,3,5.021,1.998")]
    [InlineData("Time Delta (s),time (s),Volt Sense (V),Voltage (V),I (A)\n0.1,1.5,9,5.021,1.998")]
    [InlineData("Time,Time (s),Voltage Port 2 (mV),VBUS voltage (mV),VBUS current (mA)\n12:00:00,1.5,9000,5021,1998")]
    [InlineData("time (s),(mV) VBUS,(mA) IBUS\n1.5,5021,1998")]
    [InlineData("time (s),U/mV,I/mA\n1.5,5021,1998")]
    public void Heading_IsReadByUnitAndWholeName(string text)
    {
        Log log = Read(text);

        log.Faults.Should().BeEmpty();
        log.Rows.Should().Equal(Known);
    }

    // A stated column's unit is that of its own heading, whatever its words say.
    [Fact]
    public void StatedColumn_HasTheUnitOfItsHeading() =>
        Read("when (ms),sense (mV),shunt (mA)\n1500,5021,1998", TableMapping.ParseMeasurements("time=1,volts=2,amps=shunt (mA)", out _)).Rows
            .Should().Equal(Known);

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
