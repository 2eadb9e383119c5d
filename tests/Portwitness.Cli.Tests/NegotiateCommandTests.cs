using System.Text.Json;
using Portwitness.Cli.Shell;

namespace Portwitness.Cli.Tests;

/// <summary>negotiate, word for word and as scripts see it.</summary>
public sealed class NegotiateCommandTests
{
    // 27 W: 5 V 3 A, 9 V 3 A, PPS 5 V to 11 V 3 A with PPS Power Limited (R3.2v1.1, Tables 6.9 and 6.13).
    private const string Words = "0x0801912C 0x0002D12C 0xC8DC323C";

    [Fact]
    public async Task WordsAsText_AreWordForWord()
    {
        CliRun run = await CliRun.Async("negotiate", "--words", Words, "--sink", "phone-pps-3a", "--sink", "laptop-65w");

        run.Error.Should().BeEmpty();
        Golden.Check(run.Output, "negotiate-words.txt");
    }

    [Fact]
    public async Task WordsAsJson_AreExactlyAsScriptsRelyOn()
    {
        CliRun run = await CliRun.Async("negotiate", "--words", Words, "--sink", "phone-pps-3a", "--format", "json");

        run.ExitCode.Should().Be(ExitCode.Clean);
        Golden.Check(run.Output, "negotiate-words.json");
    }

    [Fact]
    public async Task EprLabelAsText_IsWordForWord()
    {
        CliRun run = await CliRun.Async(
            "negotiate", "--label", "USB-C1: 5V⎓3A 9V⎓3A 15V⎓3A 20V⎓5A 28V⎓5A (140W Max) AVS 15-28V⎓5A",
            "--sink", "laptop-140w", "--sink", "laptop-100w", "--policy", "adjustable-first");

        run.ExitCode.Should().Be(ExitCode.Clean);
        Golden.Check(run.Output, "negotiate-epr-label.txt");
    }

    [Fact]
    public async Task List_ShowsDevicesAndPolicies()
    {
        CliRun run = await CliRun.Async("negotiate", "--list");

        run.ExitCode.Should().Be(ExitCode.Clean);
        Golden.Check(run.Output, "negotiate-list.txt");
        JsonElement json = JsonDocument.Parse((await CliRun.Async("negotiate", "--list", "--format", "json")).Output).RootElement;
        json.GetProperty("sinks").GetArrayLength().Should().Be(9);
        json.GetProperty("policies")[0].GetProperty("name").GetString().Should().Be("most-power");
    }

    [Fact]
    public async Task FileStandardInputAndWords_AreTheSameDevice()
    {
        const string Yaml = "fixed: [5V, 9V 2A]\npps: 3.3-11V 3A\nwish: 25W\n";
        using TemporaryFolder folder = new();
        string file = folder.Write("phone.yaml", Yaml);

        CliRun byWords = await CliRun.Async("negotiate", "--words", Words, "--sink", "fixed 5V, 9V 2A; pps 3.3-11V 3A; wish 25W");

        byWords.ExitCode.Should().Be(ExitCode.Clean);
        byWords.Output.Should().Contain("at best   object 3, PPS 8.32 V 3 A, 24.96 W (Request 0x3003403C)");
        (await CliRun.Async("negotiate", "--words", Words, "--sink", file)).Output.Should().Be(byWords.Output);
        (await CliRun.Async("negotiate", "--words", Words, "--sink", "@" + file)).Output.Should().Be(byWords.Output);
        (await CliRun.WithInputAsync(Yaml, "negotiate", "--words", Words, "--sink", "-")).Output.Should().Be(byWords.Output);
    }

    [Theory]
    // 27 W of a label that hides nothing: the minimum of 30 W is missed, the wish of 30 W too.
    [InlineData("fixed 5V,9V; wish 60W; minimum 30W", "mismatch", ExitCode.Findings)]
    [InlineData("fixed 5V,9V; wish 60W; minimum 30W", "violation", ExitCode.Clean)]
    [InlineData("fixed 5V,9V; wish 60W; minimum 30W", "never", ExitCode.Clean)]
    [InlineData("fixed 5V,9V; wish 30W; minimum 10W", "mismatch", ExitCode.Clean)]
    [InlineData("fixed 5V,9V; wish 30W; minimum 10W", "caution", ExitCode.Findings)]
    [InlineData("fixed 5V,9V; wish 27W; minimum 10W", "caution", ExitCode.Clean)]
    public async Task TooLittlePower_FailsAsAsked(string sink, string failOn, int exitCode) =>
        (await CliRun.Async("negotiate", "--label", "USB-C: 5V⎓3A 9V⎓3A (27W Max)", "--sink", sink, "--fail-on", failOn)).ExitCode.Should().Be(exitCode);

    [Theory]
    [InlineData("Device without a source", "negotiate needs one source", "--sink", "phone-20w")]
    [InlineData("Source without a device", "negotiate needs a device", "--words", Words)]
    [InlineData("Two sources", "negotiate needs one source", "--words", Words, "--label", "5V⎓3A", "--sink", "phone-20w")]
    [InlineData("List and device", "--list goes alone", "--list", "--sink", "phone-20w")]
    [InlineData("Columns of a label", "a label has no columns", "--label", "5V⎓3A", "--columns", "hex=1", "--sink", "phone-20w")]
    [InlineData("Input twice", "standard input (-) can be read once only", "-", "--sink", "-")]
    [InlineData("Unknown policy", "--policy: no policy; expected most-power, high-voltage", "--words", Words, "--sink", "phone-20w", "--policy", "greedy")]
    [InlineData("Unknown device", "no device is shipped under that name; basic-5v, phone-20w", "--words", Words, "--sink", "fridge")]
    [InlineData("File that is not there", "there is no such file", "--words", Words, "--sink", "mistyped.yaml")]
    [InlineData("Nothing offered", "nothing can be asked for (nothing-offered)", "--label", "USB-C: 230W", "--sink", "phone-20w")]
    public async Task WrongUse_IsExplained(string what, string reason, params string[] arguments)
    {
        CliRun run = await CliRun.Async(["negotiate", .. arguments]);

        run.ExitCode.Should().Be(ExitCode.Unusable, what);
        run.Output.Should().BeEmpty();
        run.Error.Should().Contain(reason);
    }

    [Theory]
    [InlineData("fixed: [5V]\nwish: 25W\ncolour: red\n", "line 3, column 1: \"colour\" is no member of a device")]
    [InlineData("fixed: [5V, 900V]\nwish: 25W\n", "line 1, column 13: voltages from 3 V to 50 V")]
    [InlineData("fixed: {a: 5V}\nwish: 25W\n", "line 1, column 8: not readable as YAML: text, or a list of text, was expected")]
    [InlineData("- fixed: 5V\n  wish: 5W\n- 7\n", "line 3, column 3")]
    [InlineData("a: &a [*a, *a]\n", "line 1")]
    [InlineData("\u001b[31mred\n", "line 1")]
    [InlineData("", "line 1, column 1: the file is empty")]
    public async Task HostileDescription_IsAFaultWithLineAndRemedy(string yaml, string place)
    {
        using TemporaryFolder folder = new();
        string file = folder.Write("sink.yaml", yaml);

        CliRun run = await CliRun.Async("negotiate", "--words", Words, "--sink", file);

        run.ExitCode.Should().Be(ExitCode.Unusable);
        run.Output.Should().BeEmpty();
        run.Error.Should().Contain($"sink.yaml: {place}").And.NotContain("\u001b");
    }

    [Fact]
    public async Task HugeDescription_IsRefused()
    {
        using TemporaryFolder folder = new();
        string file = folder.Write("sink.yaml", string.Concat(Enumerable.Repeat("- {fixed: 5V, wish: 5W}\n", 20_000)));

        CliRun run = await CliRun.Async("negotiate", "--words", Words, "--sink", file);

        run.ExitCode.Should().Be(ExitCode.Unusable);
        run.Error.Should().Contain("a description has at most 65536 characters");
    }

    [Fact]
    public async Task UnusableInput_StillHasJson()
    {
        CliRun run = await CliRun.Async("negotiate", "--words", "what", "--sink", "phone-20w", "--format", "json");

        run.ExitCode.Should().Be(ExitCode.Unusable);
        JsonElement json = JsonDocument.Parse(run.Output).RootElement;
        json.GetProperty("unusable").GetBoolean().Should().BeTrue();
        json.GetProperty("faults").GetArrayLength().Should().BePositive();
    }

    [Fact]
    public async Task DescriptionOfTheReadme_IsRead()
    {
        string readme = File.ReadAllText(Repository.PathOf("README.md"));
        string yaml = readme[readme.IndexOf("name: bench-phone", StringComparison.Ordinal)..];
        yaml = yaml[..yaml.IndexOf("```", StringComparison.Ordinal)];

        CliRun run = await CliRun.WithInputAsync(yaml, "negotiate", "--words", Words, "--sink", "-");

        run.ExitCode.Should().Be(ExitCode.Clean);
        run.Output.Should().Contain("  bench-phone: a phone of the bench\n"
            + "    fixed 5V 3A, 9V 2A; pps 3.3-11V 3A; wish 25W; minimum 10W; cable 3A; edition R3.0\n");
    }
}
