using System.Diagnostics;
using System.Text;
using Portwitness.Cli.Shell;

namespace Portwitness.Cli.Tests;

public sealed class ConvertCommandTests : IDisposable
{
    private const string Table = "No;Time;Kind;Bytes\n1;0,25;SOP;A1412C9101082CD102002CB1040045410600\n2;1,5;SOP;8100\n";

    private static readonly string Bench = Repository.PathOf("captures", "clean-th65", "c1.capture.jsonl");

    private readonly TemporaryFolder _folder = new();

    public void Dispose() => _folder.Dispose();

    [Theory]
    [InlineData("c1.pcapng")]
    [InlineData("c1.pcapng.gz")]
    [InlineData("c1.jsonl.gz")]
    public async Task ThereAndBack_IsTheSameToTheByte(string name)
    {
        CliRun there = await CliRun.Async("convert", Bench, In(name), "--quiet");
        CliRun back = await CliRun.Async("convert", In(name), In("back.jsonl"), "--quiet");

        (there.ExitCode, back.ExitCode).Should().Be((0, 0), there.Error + back.Error);
        (there.Output + there.Error + back.Output + back.Error).Should().BeEmpty();
        File.ReadAllText(In("back.jsonl")).Should().Be(File.ReadAllText(Bench));
        Directory.GetFiles(_folder.Path).Should().HaveCount(2);
    }

    [Fact]
    public async Task WhatWasWritten_IsSaid()
    {
        await File.WriteAllTextAsync(In("a.csv"), Table);

        CliRun run = await CliRun.Async("convert", In("a.csv"), In("a.pcapng"), "--columns", "time=2:ms,sop=3,hex=4");

        run.ExitCode.Should().Be(0, run.Error);
        run.Output.Should().Be($"{In("a.pcapng")}: pcapng, from table; 2 messages\n");
    }

    [Fact]
    public async Task AskedForJson_TheCountsComeAsJson()
    {
        CliRun run = await CliRun.Async("convert", Bench, In("a.pcapng"), "--format", "json");

        run.Output.Should().StartWith("{ \"from\": \"capture\", \"to\": \"pcapng\"").And.Contain("{ \"kind\": \"signals\", \"count\": \"0\" }");
    }

    [Fact]
    public async Task StandardInputAndOutput_AreAPipe()
    {
        CliRun packed = await CliRun.WithInputAsync(await File.ReadAllBytesAsync(Bench), "convert", "-", "-", "--to", "pcapng.gz", "--quiet");
        CliRun decoded = await CliRun.WithInputAsync(packed.OutputBytes, "decode", "-");

        decoded.ExitCode.Should().Be(0, decoded.Error);
        decoded.Output.Should().Be((await CliRun.Async("decode", Bench)).Output
            .Replace(Bench, "standard input").Replace("format capture", "format pcapng"));
    }

    [Fact]
    public async Task MeasurementsOfAnotherInstrument_AreJoined()
    {
        await File.WriteAllTextAsync(In("a.csv"), Table);
        await File.WriteAllTextAsync(In("m.csv"), "t/ms,U/V,I/mA\n0,5.0,100\n1,9.01,-3\n");

        CliRun run = await CliRun.Async(
            "convert", In("a.csv"), "-", "--to", "jsonl", "--columns", "time=2,sop=3,hex=4", "--time-unit", "ms",
            "--measurements", In("m.csv"), "--offset", "0.5ms", "--measured-at", "source", "--accuracy", "volts=0.1%+5mV", "--quiet");

        run.ExitCode.Should().Be(0, run.Error);
        Encoding.UTF8.GetString(run.OutputBytes).Should().Be(
            "{\"capture\":1,\"converted_from\":\"table\",\"measured_at\":\"source\",\"accuracy\":{\"vbus_mv\":5,\"vbus_ppm\":1000}}\n"
            + "{\"t\":250,\"sop\":\"SOP\",\"hex\":\"A1412C9101082CD102002CB1040045410600\"}\n"
            + "{\"t\":500,\"vbus_mv\":5000,\"ibus_ma\":100}\n"
            + "{\"t\":1500,\"sop\":\"SOP\",\"hex\":\"8100\"}\n"
            + "{\"t\":1500,\"vbus_mv\":9010,\"ibus_ma\":-3}\n");
    }

    [Fact]
    public async Task ColumnsFromAProfile_AreThoseOfTheCommandLine()
    {
        await File.WriteAllTextAsync(In("a.csv"), Table);
        await File.WriteAllTextAsync(In("m.csv"), "a,b\n1,5000\n");
        await File.WriteAllTextAsync(In("p.yaml"), """
            time: {column: 2, unit: ms}
            sop: Kind
            hex: 4
            measurements: "time=1:s,volts=2:mV"
            """);

        CliRun profile = await CliRun.Async(
            "convert", In("a.csv"), "-", "--to", "jsonl", "--columns-from", In("p.yaml"), "--measurements", In("m.csv"), "--quiet");

        profile.ExitCode.Should().Be(0, profile.Error);
        Encoding.UTF8.GetString(profile.OutputBytes).Should().Contain("{\"t\":250,").And.EndWith("{\"t\":1000000,\"vbus_mv\":5000}\n");
    }

    [Theory]
    [InlineData("c1.capture", null, "--to: tells no format that can be written; expected jsonl (.jsonl, "
        + ".ndjson) or pcapng (.pcapng, .ntar) or vcd (.vcd), each also with .gz.")]
    [InlineData("-", null, "--to says which format standard output gets.")]
    [InlineData("a.jsonl", "--columns=tine=1", "'tine' is no column that is known here; expected time, sop, direction, hex, header, crc, each "
        + "with = and a column.")]
    [InlineData("a.jsonl", "--offset=1s", "--offset, --measurement-columns, --measured-at and --accuracy go with --measurements.")]
    public async Task WrongUse_IsExplainedAndLeavesNothing(string output, string? option, string why)
    {
        string[] args = ["convert", Bench, output == "-" ? output : In(output), .. option is null ? Array.Empty<string>() : [option]];

        CliRun run = await CliRun.Async(args);

        run.ExitCode.Should().Be(2);
        run.Error.Should().Contain(why);
        Directory.GetFiles(_folder.Path).Should().BeEmpty();
    }

    [Fact]
    public async Task InputThatIsNoCapture_LeavesNothing()
    {
        await File.WriteAllTextAsync(In("a.txt"), "hello\n");

        CliRun run = await CliRun.Async("convert", In("a.txt"), In("b.pcapng.gz"), "--quiet");

        run.ExitCode.Should().Be(2);
        run.Error.Should().Contain("(format-unknown)");
        Directory.GetFiles(_folder.Path).Should().ContainSingle();
    }

    // Bytes come until the file is half written; then the keyboard stops it.
    [Fact]
    public async Task StoppedFromTheKeyboard_NothingIsLeft()
    {
        // A shell that started the tests in its background made them, and what they start, deaf to the keyboard; env undoes that.
        using Process process = Process.Start(new ProcessStartInfo("env")
        {
            ArgumentList = { "--default-signal=INT", "dotnet", typeof(CommandLine).Assembly.Location, "convert", "-", In("a.pcapng") },
            RedirectStandardInput = true,
            RedirectStandardError = true,
        })!;
        string lines = string.Concat(Enumerable.Repeat("{\"t\":1,\"sop\":\"SOP\",\"hex\":\"8100\"}\n", 1000));
        await process.StandardInput.WriteAsync("{\"capture\":1}\n");
        while (Directory.GetFiles(_folder.Path).Length == 0)
        {
            await process.StandardInput.WriteAsync(lines);
        }

        Directory.GetFiles(_folder.Path).Should().ContainSingle().Which.Should().EndWith(".part");
        using Process kill = Process.Start("kill", ["-INT", $"{process.Id}"]);
        await process.WaitForExitAsync().WaitAsync(TimeSpan.FromSeconds(60));

        process.ExitCode.Should().Be(ExitCode.Interrupted);
        Directory.GetFiles(_folder.Path).Should().BeEmpty();
    }

    [Fact]
    public async Task MissingMeasurements_AreNamed()
    {
        CliRun run = await CliRun.Async("convert", Bench, In("a.pcapng"), "--measurements", In("m.csv"));

        run.ExitCode.Should().Be(2);
        run.Error.Should().Contain("m.csv: there is no such file");
        Directory.GetFiles(_folder.Path).Should().BeEmpty();
    }

    [Fact]
    public async Task CheckOfATable_JudgesItAsACapture()
    {
        await File.WriteAllTextAsync(In("a.csv"), Table);
        await File.WriteAllTextAsync(In("m.csv"), "time (s),volts\n1,5\n");

        CliRun run = await CliRun.Async(
            "check", In("a.csv"), "--columns", "time=2:ms,sop=3,hex=4", "--measurements", In("m.csv"), "--label",
            "USB-C: 5V\u23933A 9V\u23933A 15V\u23933A 20V\u23933.25A (65W Max)");

        run.ExitCode.Should().BeLessThan(2, run.Error);
        run.Output.Should().Contain("9 V");
    }

    [Fact]
    public async Task ProductWithMeasurements_IsChecked()
    {
        File.Copy(Bench, In("c1.capture.jsonl"));
        await File.WriteAllTextAsync(In("m.csv"), "1,5000\n");
        const string Captures = "product: P\nlabel: \"USB-C1: 5V 3A\"\ncaptures:\n  - {file: c1.capture.jsonl, port: C1, measurements: {file: NAME, "
            + "offset: 1ms, columns: \"time=1:s,volts=2:mV\"}}\n";
        await File.WriteAllTextAsync(In("product.yaml"), Captures.Replace("NAME", "m.csv"));

        CliRun there = await CliRun.Async("check", _folder.Path);
        await File.WriteAllTextAsync(In("product.yaml"), Captures.Replace("NAME", "n.csv"));
        CliRun missing = await CliRun.Async("check", _folder.Path);

        there.ExitCode.Should().BeLessThan(2, there.Error);
        there.Output.Should().NotContain("file-missing").And.NotContain("measurements-faulty");
        string.Join(' ', missing.Output.Split((char[]?)null, StringSplitOptions.RemoveEmptyEntries)).Should().Contain("\"n.csv\" could not be read: there is no such file. Did you mean m.csv? (file-missing)");
    }

    private string In(string name) => Path.Combine(_folder.Path, name);
}
