using System.Text.Json;
using Portwitness.Cli.Shell;

namespace Portwitness.Cli.Tests;

public sealed class DecodeCommandTests
{
    // 5 V 3 A, 9 V 3 A, 15 V 3 A and 20 V 3.25 A as fixed supplies (R3.2v1.1, Table 6.9).
    private const string Words = "0x0801912C 0x0002D12C 0x0004B12C 0x00064145";

    [Fact]
    public async Task WordsAsJson_AreExactlyAsScriptsRelyOn()
    {
        CliRun run = await CliRun.Async("decode", "--words", Words, "--format", "json");

        run.ExitCode.Should().Be(ExitCode.Clean);
        run.Error.Should().BeEmpty();
        Golden.Check(run.Output, "decode-words.json");
    }

    [Fact]
    public async Task WordsAsJson_CarryTheNamesOfTheContract()
    {
        CliRun run = await CliRun.Async("decode", "--words", Words, "--format", "json");

        JsonElement advertisement = JsonDocument.Parse(run.Output).RootElement.GetProperty("advertisements")[0];
        advertisement.GetProperty("message").GetString().Should().Be("Source_Capabilities");
        JsonElement[] objects = [.. advertisement.GetProperty("objects").EnumerateArray()];
        objects.Select(o => o.GetProperty("position").GetInt32()).Should().Equal(1, 2, 3, 4);
        objects.Select(o => o.GetProperty("raw").GetUInt32()).Should().Equal(0x0801912C, 0x0002D12C, 0x0004B12C, 0x00064145);
        objects.Select(o => o.GetProperty("rawHex").GetString()).Should().Equal(Words.Split(' '));
        objects.Select(o => o.GetProperty("fixed").GetProperty("voltageMv").GetInt32()).Should().Equal(5000, 9000, 15000, 20000);
        objects.Select(o => o.GetProperty("fixed").GetProperty("maxCurrentMa").GetInt32()).Should().Equal(3000, 3000, 3000, 3250);
        objects[0].GetProperty("fixed").GetProperty("unconstrainedPower").GetBoolean().Should().BeTrue();
    }

    [Fact]
    public async Task CaptureAsText_IsWordForWord()
    {
        string capture = File.ReadAllText(Repository.PathOf("captures", "broken-tp20", "c1.capture.jsonl"));

        CliRun run = await CliRun.WithInputAsync(capture, "decode", "-", "--messages", "--fail-on", "never");

        run.ExitCode.Should().Be(ExitCode.Clean);
        run.Error.Should().BeEmpty();
        Golden.Check(run.Output, "decode-broken-tp20-c1.txt");
    }

    [Fact]
    public async Task StandardInput_IsRead()
    {
        CliRun run = await CliRun.WithInputAsync("0x0801912C", "decode", "-");

        run.ExitCode.Should().Be(ExitCode.Clean);
        run.Output.Should().StartWith("standard input\n").And.Contain("0x0801912C  fixed  5 V  3 A  15 W  unconstrained power\n");
    }

    [Fact]
    public async Task SeveralInputsAsJson_AreOneObjectALineInTheirOrder()
    {
        using TemporaryFolder folder = new();
        string good = folder.Write("good.words", "0x0801912C");
        string empty = folder.Write("empty.words", "");
        string missing = folder.PathOf("missing.words");

        CliRun run = await CliRun.Async("decode", good, missing, empty, good, "--format", "json");

        run.ExitCode.Should().Be(ExitCode.Unusable);
        run.OutputLines.Select(line => JsonDocument.Parse(line).RootElement.GetProperty("file").GetString())
            .Should().Equal(good, missing, empty, good);
        run.Error.Should().Contain(missing).And.Contain(empty);
    }

    [Fact]
    public async Task MessagesAsJson_AreOneValidObjectWithEveryMessage()
    {
        CliRun run = await CliRun.Async(
            "decode", Repository.PathOf("captures", "clean-th65", "c1.capture.jsonl"), "--messages", "--format", "json",
            "--fail-on", "never");

        run.ExitCode.Should().Be(ExitCode.Clean);
        JsonElement capture = JsonDocument.Parse(run.OutputLines.Single()).RootElement;
        capture.EnumerateObject().Select(member => member.Name).Should().OnlyHaveUniqueItems();
        JsonElement[] messages = [.. capture.GetProperty("messages").EnumerateArray()];
        messages.Length.ToString(System.Globalization.CultureInfo.InvariantCulture)
            .Should().Be(capture.GetProperty("messageCount").GetString());
        messages[0].GetProperty("hex").GetString().Should().NotBeEmpty();
    }

    [Fact]
    public async Task Explain_ShowsOneMessageBitByBit()
    {
        string capture = Repository.PathOf("captures", "clean-th65", "c1.capture.jsonl");

        CliRun run = await CliRun.Async("decode", capture, "--explain", "7");

        run.ExitCode.Should().Be(ExitCode.Clean);
        run.Output.Should().Contain("Message 7 bit by bit: Request").And.Contain("3.25 A (325 x 10 mA)");
    }

    [Theory]
    [InlineData("13", "there is no message 13 to explain; the capture has 12.")]
    [InlineData("0", "--explain takes the index of a message, counted from 1.")]
    public async Task ExplainOfNoMessage_IsUnusable(string index, string error)
    {
        CliRun run = await CliRun.Async("decode", Repository.PathOf("captures", "clean-th65", "c1.capture.jsonl"), "--explain", index);

        run.ExitCode.Should().Be(ExitCode.Unusable);
        run.Error.Should().Contain(error);
    }

    [Theory]
    [InlineData("", "input-empty")]
    [InlineData("{\"capture\":1}\n{\"t\":1,\"sop\":\"SOP\",\"hex\":\"A111", "json-invalid")]
    [InlineData("Tarnholt night railway, timetable\n", "format-unknown")]
    public async Task InputOfNoKnownFormat_IsUnusable(string content, string code)
    {
        using TemporaryFolder folder = new();
        string path = folder.Write("c1.capture.jsonl", content);

        CliRun run = await CliRun.Async("decode", path);

        run.ExitCode.Should().Be(ExitCode.Unusable);
        run.Output.Should().BeEmpty();
        run.Error.Should().StartWith($"portwitness: {path}: ").And.Contain(code);
    }

    [Fact]
    public async Task MissingFile_IsNamedWithWhatToDo()
    {
        CliRun run = await CliRun.Async("decode", "no/such.capture.jsonl", "--format", "json");

        run.Should().Be(new CliRun(
            ExitCode.Unusable, "",
            "portwitness: no/such.capture.jsonl: there is no such file; check the path, or give - for standard input.\n"));
    }

    [Fact]
    public async Task Folder_IsRefused()
    {
        using TemporaryFolder folder = new();

        CliRun run = await CliRun.Async("decode", folder.Path);

        run.ExitCode.Should().Be(ExitCode.Unusable);
        run.Error.Should().Contain("is a folder");
    }

    [Theory]
    [InlineData("decode")]
    [InlineData("decode", "a", "--words", "0")]
    [InlineData("decode", "-", "-")]
    [InlineData("decode", "a", "--format", "xml")]
    [InlineData("decode", "a", "--edition", "R9.9")]
    [InlineData("decode", "a", "--server", "ftp://bench")]
    [InlineData("decode", "a", "--no-such-option")]
    [InlineData("no-such-command")]
    [InlineData]
    public async Task CommandLineThatCannotBeUnderstood_ExitsWith2AndPointsToHelp(params string[] args)
    {
        CliRun run = await CliRun.Async(args);

        run.ExitCode.Should().Be(ExitCode.Unusable);
        run.Output.Should().BeEmpty();
        run.Error.Should().Contain("--help").And.NotContain("   at ");
    }

    [Theory]
    [InlineData("violation", ExitCode.Findings)]
    [InlineData("mismatch", ExitCode.Findings)]
    [InlineData("caution", ExitCode.Findings)]
    [InlineData("never", ExitCode.Clean)]
    public async Task ViolationOfTheStandard_ExitCodeFollowsFailOn(string failOn, int exitCode)
    {
        // A list has to begin with 5 V (R3.2v1.1, 6.4.1.2).
        CliRun run = await CliRun.Async("decode", "--words", "0x0002D12C", "--fail-on", failOn);

        run.ExitCode.Should().Be(exitCode);
    }

    [Fact]
    public async Task Quiet_PrintsNothingButKeepsTheExitCode()
    {
        CliRun run = await CliRun.Async("decode", "--words", "0x0002D12C", "--quiet");

        run.Should().Be(new CliRun(ExitCode.Findings, "", ""));
    }
}
