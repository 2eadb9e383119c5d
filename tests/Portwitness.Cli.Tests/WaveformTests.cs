using Portwitness.Cli.Shell;

namespace Portwitness.Cli.Tests;

public sealed class WaveformTests : IDisposable
{
    private static readonly string Dump = Repository.PathOf("captures", "line", "c1.vcd");

    private readonly TemporaryFolder _folder = new();

    public void Dispose() => _folder.Dispose();

    [Fact]
    public async Task RecordedLine_IsDecoded()
    {
        CliRun run = await CliRun.Async("decode", Dump, "--signal", "cc1");

        run.ExitCode.Should().Be(ExitCode.Clean, run.Error);
        run.Output.Should().Contain("20 V").And.Contain("3.25 A");
    }

    [Fact]
    public async Task SignalThatWasChosen_IsSaid()
    {
        CliRun run = await CliRun.Async("decode", Dump);

        run.ExitCode.Should().Be(ExitCode.Clean);
        string.Join(' ', run.Output.Split((char[]?)null, StringSplitOptions.RemoveEmptyEntries)).Should().Contain("signal-chosen").And.Contain("has frames, and was read");
    }

    [Theory]
    [InlineData("--samples", "u9@25MS/s", "expected for example u8@25MS/s")]
    [InlineData("--levels", "0.7,0.4", "expected low and high")]
    [InlineData("--units", "mV,us", "expected one of time and one of voltage")]
    public async Task OptionsThatCannotBe_AreSaid(string option, string value, string says)
    {
        CliRun run = await CliRun.Async("decode", Dump, option, value);

        run.ExitCode.Should().Be(ExitCode.Unusable);
        run.Error.Should().Contain(says);
    }

    [Fact]
    public async Task CaptureAsADump_IsReadAgain()
    {
        string dump = Path.Combine(_folder.Path, "c1.vcd");
        CliRun there = await CliRun.Async("convert", Dump, dump, "--signal", "cc1");
        there.ExitCode.Should().Be(ExitCode.Clean, there.Error);
        there.Output.Should().Contain("8 messages");

        CliRun again = await CliRun.Async("decode", dump);
        again.ExitCode.Should().Be(ExitCode.Clean, again.Error);
        again.Output.Should().Contain("20 V");
    }
}
