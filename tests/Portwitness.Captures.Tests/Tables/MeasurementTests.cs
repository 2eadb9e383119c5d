using System.Text;
using CsCheck;
using Portwitness.Captures.Formats;
using Portwitness.Captures.Measurements;
using Portwitness.Captures.Tables;

namespace Portwitness.Captures.Tests.Tables;

/// <summary>Measurements of another instrument, joined into a capture.</summary>
public class MeasurementTests
{
    private const string Capture =
        "{\"capture\":1}\n{\"t\":10,\"rp\":\"3A\"}\n{\"t\":20,\"sop\":\"SOP'\",\"hex\":\"A303\",\"known\":\"FF0F\",\"crc_ok\":false,\"mine\":1}\n"
        + "{\"t\":20,\"vbus_mv\":1}\n{\"t\":30,\"signal\":\"hard-reset\"}\n";

    [Fact]
    public void Joined_StandInTheOrderOfTime()
    {
        Recording read = Join(Capture, "Time (us),Voltage (V),Current (mA)\n5,5.0004,100\n10,5.1,-2.5\n20,,7\n25,9,\n40,1,1\n", "", 0);

        read.Faults.Should().BeEmpty();
        read.Calls.Skip(1).Select(Kind).Should().Equal("M5", "E10", "M10", "P20", "M20", "M20", "M25", "S30", "M40");
        read.Measurements.Select(m => (m.VbusMillivolts, m.IbusMilliamperes)).Should().Equal(
            (5000, 100), (5100, -3), (1, null), (null, 7), (9000, null), (1000, 1));
        read.Messages.Single().Should().BeEquivalentTo(Recording.Of(Capture).Messages.Single());
    }

    [Fact]
    public void ClockPastMidnight_GoesOn() =>
        Join(Capture, "time,volts (V)\n23:59:59.9,5\n0:00:00.1,6\n", "", 0).Measurements.Select(m => (m.TimeUs, m.VbusMillivolts))
            .Should().Equal((0, 5_000), (20, 1), (200_000, 6_000));

    [Fact]
    public void ByteOrderMark_IsPassedOver() =>
        Join(Capture, "\uFEFFTime (us),Voltage (V)\n5,5\n", "", 0).Measurements.Select(m => m.TimeUs).Should().Equal(5, 20);

    [Theory]
    [InlineData(1)]
    [InlineData(7)]
    [InlineData(1 << 20)]
    public void CompressedMeasurements_AreTheSame(int piece)
    {
        const string Table = "\uFEFFTime (us),Voltage (V)\n5,5\n25,9\n";
        Recording recording = new();
        CaptureInput input = new(recording, new CaptureReadOptions { Measurements = new MeasurementOptions() });
        input.Write(Encoding.UTF8.GetBytes(Capture));
        input.EndCapture();
        foreach (byte[] part in ArchiveTests.Gzip(Encoding.UTF8.GetBytes(Table)).Chunk(piece))
        {
            input.WriteMeasurements(part);
        }

        input.Complete();
        recording.Calls.Should().Equal(Join(Capture, Table, "", 0).Calls);
    }

    [Fact]
    public void OtherEncoding_IsRefused()
    {
        Recording recording = new();
        CaptureInput input = new(recording, new CaptureReadOptions { Measurements = new MeasurementOptions() });
        input.Write(Encoding.UTF8.GetBytes(Capture));
        input.WriteMeasurements([0xFF, 0xFE, .. Encoding.Unicode.GetBytes("Time (us),Voltage (V)\n5,5\n")]);
        input.Complete();

        recording.Faults.Should().ContainSingle().Which.Detail.Should().Contain("text-not-utf8");
    }

    // Two parts may be hours and minutes: 30 minutes, or 30 seconds.
    [Theory]
    [InlineData("time", 20, true)]
    [InlineData("time (hh:mm)", 1_800_000_000, false)]
    [InlineData("time (mm:ss)", 30_000_000, false)]
    public void TimeOfTwoParts_IsAskedAbout(string heading, long microseconds, bool asked)
    {
        Recording read = Join(Capture, $"{heading},volts (V)\n9:00,5\n9:30,6\n", "", 0);

        read.Measurements[^1].TimeUs.Should().Be(microseconds);
        read.Faults.Count(fault => fault.Detail.Contains("hours and minutes, or minutes and seconds") && fault.Detail.Contains("--measurement-columns"))
            .Should().Be(asked ? 1 : 0);
        read.Faults.Should().HaveCount(asked ? 1 : 0);
    }

    [Fact]
    public void Offset_MovesThem()
    {
        Recording read = Join(Capture, "0;1\n0,001;2\n", "time=1:s,volts=2:mV", -985);

        read.Measurements.Select(m => (m.TimeUs, m.VbusMillivolts)).Should().Equal((15, 2), (20, 1));
        read.Faults.Single().Should().Be(new CaptureFault(0, 0, "measurements-faulty",
            "Measurements: 1 lines, the first of them line 1, are before the start of the capture and were left out. Give an --offset that moves them behind it. (time-invalid)"));
    }

    [Theory]
    [InlineData("1.25s", 1_250_000)]
    [InlineData("-40 ms", -40_000)]
    [InlineData("1,5us", 2)]
    [InlineData("0s", 0)]
    [InlineData("1.5min", 90_000_000)]
    public void OffsetWithItsUnit_IsRead(string text, long microseconds)
    {
        MeasurementOptions.TryParseOffset(text, out long read).Should().BeTrue();
        read.Should().Be(microseconds);
    }

    [Theory]
    [InlineData("")]
    [InlineData("1.25")]
    [InlineData("s")]
    [InlineData("1.25m")]
    [InlineData("1hh:mm")]
    [InlineData("99999999999s")]
    public void OffsetThatIsNone_IsRefused(string text) => MeasurementOptions.TryParseOffset(text, out _).Should().BeFalse();

    [Fact]
    public void FaultsOfTheTable_SayThatTheyAreOfTheMeasurements()
    {
        Recording read = Join(Capture, "time,volts,amps\n1,2000,x\n1,1,1\n0.5,1,1\n", "", 0);

        read.Faults.Should().OnlyContain(fault => fault.Code == "measurements-faulty");
        read.Faults.Select(fault => fault.Detail.Split(':')[0]).Should().Equal(
            "Measurements line 1", "Measurements line 2", "Measurements line 2", "Measurements line 4");
        read.Measurements.Select(m => m.TimeUs).Should().Equal(20, 1_000_000, 1_000_000);
    }

    [Fact]
    public void WithoutACapture_NothingIsJoined()
    {
        Recording read = Join("", "time (s),volts (V)\n1,2\n", "", 0);

        read.Headers.Should().BeEmpty();
        read.Measurements.Should().BeEmpty();
    }

    // However the two inputs are cut and whichever comes first, the records are the same.
    [Fact]
    public void AnyOrderOfPieces_GivesTheSame()
    {
        const string Table = "Time (us),Voltage (V)\n5,5\n10,5.1\n20,9\n25,9\n";
        List<string> expected = Join(Capture, Table, "", 0).Calls;
        Gen.Select(Gen.Int[1, 40], Gen.Int[1, 40], Gen.Bool.Array[30]).Sample(
            (captureStep, tableStep, captureFirst) =>
            {
                Recording recording = new();
                CaptureInput input = new(recording, Options("", 0));
                Queue<byte[]> capture = new(Encoding.UTF8.GetBytes(Capture).Chunk(captureStep));
                Queue<byte[]> table = new(Encoding.UTF8.GetBytes(Table).Chunk(tableStep));
                for (int turn = 0; capture.Count + table.Count > 0; turn++)
                {
                    if (table.Count == 0 || (capture.Count > 0 && captureFirst[turn % captureFirst.Length]))
                    {
                        input.Write(capture.Dequeue());
                    }
                    else
                    {
                        input.WriteMeasurements(table.Dequeue());
                    }
                }

                input.Complete();
                recording.Calls.Should().Equal(expected);
            },
            seed: "0000000000001",
            iter: 500);
    }

    [Fact]
    public void WhatIsWantedNext_KeepsBothInputsTogether()
    {
        CountingSink counter = new();
        CaptureInput input = new(counter, Options("time=1:us,volts=2:mV", 0));
        input.Write("{\"capture\":1}\n"u8);
        long time = 0;
        long measured = 0;
        while (input.Wanted != NeededInput.None && time < 3_000_000)
        {
            bool capture = input.Wanted == NeededInput.Capture;
            StringBuilder text = new();
            for (int line = 0; line < 1000; line++)
            {
                text.Append(capture ? $"{{\"t\":{time++},\"sop\":\"SOP\",\"hex\":\"A303\"}}\n" : $"{measured++},5000\n");
            }

            byte[] piece = Encoding.UTF8.GetBytes(text.ToString());
            if (capture)
            {
                input.Write(piece);
            }
            else
            {
                input.WriteMeasurements(piece);
            }
        }

        input.Complete();

        counter.Messages.Should().Be(3_000_000);
        counter.Others.Should().BeGreaterThan(2_990_000);
        Math.Abs(time - measured).Should().BeLessThanOrEqualTo(1000);
    }

    private static string Kind(string call) => call.Split(' ')[0] switch
    {
        "MeasurementRecord" => "M" + Time(call),
        "EventRecord" => "E" + Time(call),
        "SignalRecord" => "S" + Time(call),
        _ => "P" + Time(call),
    };

    private static string Time(string call) => call.Split("TimeUs = ")[1].Split(',')[0];

    private static Recording Join(string capture, string table, string columns, long offset)
    {
        Recording recording = new();
        CaptureInput input = new(recording, Options(columns, offset));
        input.Write(Encoding.UTF8.GetBytes(capture));
        input.WriteMeasurements(Encoding.UTF8.GetBytes(table));
        input.Complete();
        return recording;
    }

    private static CaptureReadOptions Options(string columns, long offset)
    {
        TableMapping mapping = TableMapping.ParseMeasurements(columns, out string? problem);
        problem.Should().BeNull();
        return new CaptureReadOptions { Measurements = new MeasurementOptions { Columns = mapping, OffsetUs = offset } };
    }
}
