using System.Text.Json;
using Portwitness.Cli.Shell;

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

    [Fact]
    public async Task Filters_ChooseFromTheList()
    {
        CliRun run = await CliRun.Async(
            "rules", "--severity", "mismatch", "--severity", "caution", "--category", "label", "--category", "capabilities", "--format", "json");

        JsonElement[] rules = [.. JsonDocument.Parse(run.Output).RootElement.GetProperty("rules").EnumerateArray()];
        rules.Select(rule => rule.GetProperty("severity").GetString()).Distinct().Should().BeEquivalentTo("mismatch", "caution");
        rules.Select(rule => rule.GetProperty("category").GetString()).Distinct().Should().BeEquivalentTo("label", "capabilities");
        rules.Select(rule => rule.GetProperty("name").GetString()).Should().NotContain("voltage-offered-twice", "that is a violation");

        (await CliRun.Async("rules", "--edition", "R3.1")).OutputLines.Should().HaveCountLessThan((await CliRun.Async("rules")).OutputLines.Length);
    }

    [Fact]
    public async Task FilterThatFitsNothing_IsRefused()
    {
        CliRun category = await CliRun.Async("rules", "--category", "weather");
        category.ExitCode.Should().Be(ExitCode.Unusable);
        category.Error.Should().Contain("not a category; expected messages, capabilities");

        CliRun both = await CliRun.Async("rules", "voltage-offered-twice", "--severity", "note");
        both.ExitCode.Should().Be(ExitCode.Unusable);
    }

    [Fact]
    public async Task OnlyAndWithout_AreAppliedAndShown()
    {
        string product = Portwitness.Tests.Repository.PathOf("captures", "broken-tp20");

        CliRun only = await CliRun.Async("check", product, "--only", "first-object-not-vsafe5v", "--format", "json");
        JsonElement report = JsonDocument.Parse(only.Output).RootElement;
        report.GetProperty("findings").EnumerateArray().Select(finding => finding.GetProperty("rule").GetString())
            .Distinct().Should().Equal("first-object-not-vsafe5v");
        report.GetProperty("rules").GetProperty("only")[0].GetString().Should().Be("first-object-not-vsafe5v");

        CliRun without = await CliRun.Async("check", product, "--without", "first-object-not-vsafe5v");
        without.Output.Should().Contain("These rules were left out: first-object-not-vsafe5v")
            .And.NotContain("violation first-object-not-vsafe5v");

        CliRun unknown = await CliRun.Async("decode", "--words", "0x0801912C", "--without", "no-such-rule");
        unknown.ExitCode.Should().Be(ExitCode.Unusable);
        unknown.Error.Should().Contain("no rule is named 'no-such-rule'");
    }
}
