using System.Text.Json;

namespace Portwitness.Cli.Tests;

public sealed class RulesTests
{
    [Fact]
    public async Task Catalogue_IsListedAndEachRuleExplained()
    {
        CliRun json = await CliRun.Async("rules", "--format", "json");
        string[] names =
        [
            .. JsonDocument.Parse(json.Output).RootElement.GetProperty("rules").EnumerateArray()
                .Select(rule => rule.GetProperty("name").GetString()!),
        ];

        CliRun list = await CliRun.Async("rules");
        list.OutputLines.Skip(1).Select(line => line.Split(' ')[0]).Should().Equal(names);

        CliRun one = await CliRun.Async("rules", names[0]);
        one.ExitCode.Should().Be(ExitCode.Clean);
        one.Output.Should().StartWith(names[0]).And.Contain("\n  why ").And.Contain("\n  by ").And.Contain("\n  example ");
    }

    [Fact]
    public async Task RuleThatDoesNotExist_PointsToTheList()
    {
        CliRun run = await CliRun.Async("rules", "no-such-rule");

        run.Should().Be(new CliRun(
            ExitCode.Unusable, "", "portwitness: no rule is named 'no-such-rule'; 'portwitness rules' lists them all.\n"));
    }
}
