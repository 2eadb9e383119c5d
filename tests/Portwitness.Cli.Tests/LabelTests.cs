using System.Text.Json;
using Portwitness.Cli.Shell;

namespace Portwitness.Cli.Tests;

public sealed class LabelTests
{
    private const string Text = "USB-C1: 5V⎓3A 20V⎓3.25A (65W Max)";

    [Fact]
    public async Task TextFileAndStandardInput_AreReadAlike()
    {
        using TemporaryFolder folder = new();
        string file = folder.Write("label.txt", Text);

        CliRun byText = await CliRun.Async("label", Text, "--format", "json");

        byText.ExitCode.Should().Be(ExitCode.Clean);
        JsonDocument.Parse(byText.Output).RootElement.GetProperty("outputs")[0].GetProperty("fixed")[1]
            .GetProperty("currentMa").GetInt32().Should().Be(3250);
        (await CliRun.Async("label", file, "--format", "json")).Should().Be(byText);
        (await CliRun.Async("label", "@" + file, "--format", "json")).Should().Be(byText);
        (await CliRun.WithInputAsync(Text, "label", "-", "--format", "json")).Should().Be(byText);
    }

    [Fact]
    public async Task LabelAsText_ShowsWhatWasRead()
    {
        CliRun run = await CliRun.Async("label", Text);

        run.ExitCode.Should().Be(ExitCode.Clean);
        run.Output.Should().Contain("20 V").And.Contain("3.25 A").And.Contain("65 W").And.Contain("column 9 ");
    }

    [Theory]
    [InlineData("USB-C1: 5V⎓3A what", "mismatch", ExitCode.Findings)]
    [InlineData("USB-C1: 5V⎓3A what", "violation", ExitCode.Clean)]
    [InlineData("USB-C1: 5V⎓3A what", "never", ExitCode.Clean)]
    [InlineData("USB-C1: 9V⎓2A/20W", "mismatch", ExitCode.Findings)]
    [InlineData("USB-C1: 9V⎓2A/20W", "never", ExitCode.Clean)]
    [InlineData("USB-C1: 5V⎓3A 20V⎓3A (30W Max)", "mismatch", ExitCode.Clean)]
    [InlineData("USB-C1: 5V⎓3A 20V⎓3A (30W Max)", "caution", ExitCode.Findings)]
    public async Task UnreadOrWrongLabel_FailsAsAsked(string label, string failOn, int exitCode) =>
        (await CliRun.Async("label", label, "--fail-on", failOn)).ExitCode.Should().Be(exitCode);

    [Fact]
    public async Task HostileLabel_HasABoundedReport()
    {
        using TemporaryFolder folder = new();
        string file = folder.Write("label.txt", string.Concat(Enumerable.Repeat("C: 9V⎓2A/99W; what 2OV⎓3A\n", 2000)));

        CliRun run = await CliRun.Async("label", file);

        run.ExitCode.Should().Be(ExitCode.Findings);
        run.Output.Should().Contain("Words not read: 2000, of which the first 500 are marked").And.Contain("  and 1500 more\n")
            .And.Contain("1950 more findings are not listed.");
    }

    [Theory]
    [InlineData("labels/mistyped.txt", "there is no such file")]
    [InlineData("@mistyped", "there is no such file")]
    [InlineData("", "the label is empty")]
    [InlineData(" \n ", "the label is empty")]
    public async Task NothingToRead_IsExplained(string label, string reason)
    {
        CliRun run = await CliRun.Async("label", label);

        run.ExitCode.Should().Be(ExitCode.Unusable);
        run.Error.Should().Contain(reason);
    }
}
