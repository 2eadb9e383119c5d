using System.Text.RegularExpressions;
using Portwitness.Captures;
using Portwitness.Captures.Measurements;
using Portwitness.Captures.Tables;
using Portwitness.Tests;

namespace Portwitness.Product.Tests;

public partial class TableProfileTests
{
    [Fact]
    public void ProfileOfThePage_IsReadAsItSays()
    {
        string page = File.ReadAllText(Repository.PathOf("captures", "FORMAT.md"));
        string text = Block().Match(page).Groups[1].Value;

        TableProfile.Read(text, ofMeasurements: false, out string? problem).Columns.Should().Equal(
            new TableColumn("time", "2", "ms"), new TableColumn("sop", "Kind", null), new TableColumn("hex", "5", null));
        problem.Should().BeNull();
        TableProfile.Read(text, ofMeasurements: true, out problem).Columns.Should().Equal(
            new TableColumn("time", "Time", "s"), new TableColumn("volts", "2", "mV"));
        problem.Should().BeNull();
    }

    [Theory]
    [InlineData("time: {column: 1, unit: V}", "'V' is no unit of time")]
    [InlineData("tine: 1", "line 1, column 1: \"tine\" is no member of columns. Did you mean \"time\"?")]
    [InlineData("time: {column: 1, units: ms}", "line 1, column 19: \"units\" is no member of a column. Did you mean \"unit\"?")]
    [InlineData("hex: 1\nhex: 2", "line 2, column 1: \"hex\" is given twice")]
    [InlineData("time: []", "'time' names no column")]
    [InlineData("[1, 2]", "columns were expected")]
    [InlineData("", "columns were expected")]
    [InlineData("time: [", "line ")]
    public void ProfileThatIsWrong_SaysWhy(string text, string why)
    {
        TableProfile.Read(text, ofMeasurements: false, out string? problem);

        problem.Should().Contain(why);
    }

    [Fact]
    public void ProductFile_NamesColumnsAndMeasurements()
    {
        ProductFile product = ProductFileReader.Read(
            """
            captures:
              - file: a.csv
                columns: {time: {column: 1, unit: ms}, hex: 2}
                measurements: {file: m.csv, offset: -1.5s, columns: "time=1:s,volts=2:V"}
              - {file: b.csv, measurements: {file: ../m.csv}}
              - {file: c.csv, measurements: {file: m.csv, offset: 3}}
              - file: d.csv
                measurements: {file: m.csv, measured_at: sink, accuracy: {volts: 0.1%+5mV, amps: 2mA}}
              - {file: e.csv, measurements: {file: m.csv, measured_at: here, accuracy: 0.1%}}
              - {file: f.bin, levels: "100,150", samples: u8.gz@25MS/s}
              - {file: g.csv, levels: "0.4,0.7", units: "us,mV"}
              - {file: h.csv, levels: "0.7,0.4", units: "us"}
            """);

        ProductCapture first = product.Captures[0];
        first.Reading.Table!.Find("time").Should().Be(new TableColumn("time", "1", "ms"));
        first.MeasurementsFile.Should().Be("m.csv");
        first.Reading.Measurements!.OffsetUs.Should().Be(-1_500_000);
        product.Captures[1].MeasurementsFile.Should().BeNull();
        MeasurementOptions stated = product.Captures[3].Reading.Measurements!;
        stated.MeasuredAt.Should().Be(MeasuringPoint.Sink);
        stated.Accuracy.Should().Be(new MeasuringAccuracy(5, 1000, 2, null));
        Captures.Waveforms.WaveformOptions samples = product.Captures[5].Reading.Waveform;
        (samples.Samples, samples.SamplesPacked, samples.Levels).Should().Be((Captures.Waveforms.SampleKind.U8, true, (100, 150)));
        Captures.Waveforms.WaveformOptions voltages = product.Captures[6].Reading.Waveform;
        (voltages.Levels, voltages.Units).Should().Be(((400_000, 700_000), (6, 3)));
        product.Faults.Select(fault => (fault.Line, fault.Code)).Should().Equal(
            (5, ProductFaultCodes.PathLeavesFolder), (6, ProductFaultCodes.ValueWrong),
            (9, ProductFaultCodes.ValueWrong), (9, ProductFaultCodes.ValueWrong),
            (12, ProductFaultCodes.ValueWrong), (12, ProductFaultCodes.ValueWrong));
    }

    [GeneratedRegex("^```yaml\n(.*?)^```", RegexOptions.Multiline | RegexOptions.Singleline)]
    private static partial Regex Block();
}
