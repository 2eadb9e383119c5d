using System.Text;
using Portwitness.Cli.Shell;

namespace Portwitness.Cli.Tests;

public sealed class SynthesizeCommandTests : IDisposable
{
    private const string Script =
        """
        port: C1
        in_use: [C1]
        product: Tarnholt TH-65 wall charger
        edition: R3.2
        cable: 5A detachable
        source: [5V 3A unconstrained, 9V 3A, 15V 3A, 20V 3.25A]
        steps:
          - attach
          - discover-cable
          - advertise
          - contract 4 at 3.25A
          - measure 19.94V 3.21A every 500ms for 1s
        """;

    private readonly TemporaryFolder _folder = new();

    public void Dispose() => _folder.Dispose();

    [Fact]
    public async Task SmallScript_IsWrittenWordForWord()
    {
        CliRun run = await CliRun.WithInputAsync(Script, "synthesize", "-");

        (run.ExitCode, run.Error).Should().Be((ExitCode.Clean, ""));
        Golden.Check(Encoding.UTF8.GetString(run.OutputBytes), "synthesize-small.capture.jsonl");
    }

    [Fact]
    public async Task Output_IsTheSameAsOnStandardOutput()
    {
        string script = _folder.Write("c1.synthesis.yaml", Script);
        string capture = _folder.PathOf("c1.capture.jsonl");

        CliRun run = await CliRun.Async("synthesize", script, "--output", capture);

        run.Should().Be(new CliRun(ExitCode.Clean, "", ""));
        (await File.ReadAllTextAsync(capture)).Should().Be(Encoding.UTF8.GetString((await CliRun.Async("synthesize", script)).OutputBytes));

        // The script's list has no SPR AVS, which a source of 65 W owes since R3.2 (Table 10.3).
        (await CliRun.Async("decode", capture, "--without", "spr-avs-missing")).ExitCode.Should().Be(ExitCode.Clean);
    }

    [Fact]
    public async Task ScriptWithFaults_IsExplainedAndWritesNothing()
    {
        string script = _folder.Write("c1.synthesis.yaml", "steps:\n  - attach\n  - fly\n  - request 1\n");
        string capture = _folder.Write("c1.capture.jsonl", "the old capture");

        CliRun run = await CliRun.Async("synthesize", script, "--output", capture);

        (run.ExitCode, run.Output).Should().Be((ExitCode.Unusable, ""));
        string[] errors = run.Error.Split('\n', StringSplitOptions.RemoveEmptyEntries);
        errors.Should().HaveCount(2);
        errors[0].Should().StartWith($"portwitness: {script}: line 3, column 5: \"fly\" is no step. ").And.EndWith("(script-step-unknown)");
        errors[1].Should().Be(
            $"portwitness: {script}: line 4, column 5: \"at\" was expected after the position in \"request 1\" (script-value-wrong)");
        (await File.ReadAllTextAsync(capture)).Should().Be("the old capture");
        Directory.GetFiles(_folder.Path).Should().HaveCount(2);
    }

    [Theory]
    [InlineData("c1.vcd", "vcd", "2 measurements")]
    [InlineData("c1.pcapng", "pcapng", "")]
    [InlineData("c1.capture.jsonl.gz", "capture", "")]
    public async Task Name_TellsTheFormat(string name, string format, string leftOut)
    {
        string capture = _folder.PathOf(name);

        CliRun run = await CliRun.WithInputAsync(Script, "synthesize", "-", "--output", capture);

        run.ExitCode.Should().Be(ExitCode.Clean);
        run.Error.Contains("measurements", StringComparison.Ordinal).Should().Be(leftOut.Length > 0);
        run.Error.Contains(leftOut, StringComparison.Ordinal).Should().BeTrue();
        CliRun read = await CliRun.Async("decode", capture);
        read.Output.Should().Contain($"format {format}").And.Contain("20 V");
    }

    [Theory]
    [InlineData("synthesize")]
    [InlineData("synthesize", "no/such.synthesis.yaml")]
    [InlineData("synthesize", "--format", "json", "-")]
    public async Task CommandThatCannotBeUsed_ExitsWith2(params string[] args) =>
        (await CliRun.Async(args)).ExitCode.Should().Be(ExitCode.Unusable);

    [Fact]
    public async Task PlaceThatCannotBeWritten_IsExplained()
    {
        CliRun run = await CliRun.WithInputAsync(Script, "synthesize", "-", "--output", _folder.PathOf("missing/c1.capture.jsonl"));

        run.ExitCode.Should().Be(ExitCode.Unusable);
        run.Error.Should().Contain("create it first");
    }
}
