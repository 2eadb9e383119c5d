using Portwitness.Cli.Shell;

namespace Portwitness.Cli.Tests;

public sealed class HelpTests
{
    private static readonly string[] Names =
    [
        "decode", "check", "new", "batch", "label", "negotiate", "compare", "history", "convert", "rules", "synthesize",
        "watch", "plan", "errata", "proof", "submit", "submissions", "serve", "tokens", "completion",
    ];

    public static TheoryData<string> Commands => [.. Names];

    [Theory]
    [MemberData(nameof(Commands))]
    public async Task Help_HasExamplesAndExitCodes(string command)
    {
        CliRun run = await CliRun.Async(command, "--help");

        run.ExitCode.Should().Be(ExitCode.Clean);
        run.Error.Should().BeEmpty();
        run.Output.Should().Contain("Examples:\n  ").And.Contain("Exit codes:\n  0  ").And.Contain("\n  3  ");
    }

    [Fact]
    public async Task HelpOfTheProgram_NamesEveryCommand()
    {
        CliRun run = await CliRun.Async("--help");

        run.ExitCode.Should().Be(ExitCode.Clean);
        run.Output.Should().ContainAll(Names.Select(name => $"\n  {name} "));
    }
}
