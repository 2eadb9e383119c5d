using System.Diagnostics;
using Portwitness.Cli.Shell;

namespace Portwitness.Cli.Tests;

public sealed class CompletionTests
{
    [Theory]
    [InlineData("deco", "decode")]
    [InlineData("decode --form", "--format")]
    [InlineData("decode --format j", "json")]
    [InlineData("rules --no", "--no-color")]
    public async Task Suggestions_FollowWhatIsTyped(string typed, string expected)
    {
        CliRun run = await CliRun.Async($"[suggest:{typed.Length}]", typed);

        run.OutputLines.Should().Contain(expected);
    }

    [Theory]
    [InlineData("portwitness dec", "decode")]
    [InlineData("portwitness check a --fail-on viol", "violation")]
    [InlineData("portwitness completion b", "bash")]
    public async Task BashScript_CompletesInBash(string line, string expected)
    {
        CliRun script = await CliRun.Async("completion", "bash");
        // What bash sets before it calls a completion function (bash manual, Programmable Completion).
        string program = script.Output + $$"""

            portwitness() { dotnet "{{typeof(CommandLine).Assembly.Location}}" "$@"; }
            COMP_LINE="{{line}}"; COMP_POINT=${#COMP_LINE}
            COMP_WORDS=($COMP_LINE); COMP_CWORD=$((${#COMP_WORDS[@]} - 1))
            _portwitness_complete
            printf '%s\n' "${COMPREPLY[@]}"
            """;

        using Process bash = Process.Start(new ProcessStartInfo("bash")
        {
            RedirectStandardInput = true,
            RedirectStandardOutput = true,
        })!;
        await bash.StandardInput.WriteAsync(program);
        bash.StandardInput.Close();
        string output = await bash.StandardOutput.ReadToEndAsync();
        await bash.WaitForExitAsync();

        output.Split('\n', StringSplitOptions.RemoveEmptyEntries).Should().Equal(expected);
    }

    [Theory]
    [InlineData("zsh", "compdef _portwitness portwitness")]
    [InlineData("fish", "complete -c portwitness")]
    public async Task OtherShells_HaveTheirOwnScript(string shell, string line)
    {
        CliRun run = await CliRun.Async("completion", shell);

        run.ExitCode.Should().Be(ExitCode.Clean);
        run.Output.Should().Contain(line);
    }
}
