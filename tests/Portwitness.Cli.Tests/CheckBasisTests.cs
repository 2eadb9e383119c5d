using Portwitness.Cli.Shell;

namespace Portwitness.Cli.Tests;

/// <summary>What a verdict rests on: no label, no capture, a label in a file, and a product file that is mistyped.</summary>
public sealed class CheckBasisTests : IDisposable
{
    private readonly TemporaryFolder _folder = new();

    public void Dispose() => _folder.Dispose();

    [Theory]
    [InlineData("text", "Verdict: HOLDS to the standard; no label to compare\n")]
    [InlineData("markdown", "**Verdict: HOLDS** to the standard; no label to compare. Findings: none.")]
    [InlineData("html", "holds to the standard; no label to compare</title>")]
    [InlineData("html", "</span> to the standard; no label to compare</p>")]
    [InlineData("junit", "Verdict: HOLDS to the standard; no label to compare\n")]
    [InlineData("json", "\"verdict\": \"holds\", ")]
    public async Task CaptureWithoutALabel_HoldsToTheStandard(string format, string verdict)
    {
        CliRun run = await CliRun.Async("check", _folder.Write("c.words", "0x0801912C"), "--format", format);

        run.ExitCode.Should().Be(ExitCode.Clean);
        run.Output.Should().Contain(verdict);
    }

    [Fact]
    public async Task MistypedMember_IsAnErrorWithItsLine()
    {
        _folder.Write("c.words", "0x0801912C");
        string product = _folder.Write("product.yaml", "product: Tarnholt TH-20\nlable: \"USB-C: 20V⎓5A\"\ncaptures:\n  - {file: c.words, port: C}\n");

        CliRun run = await CliRun.Async("check", product);

        run.ExitCode.Should().Be(ExitCode.Unusable);
        run.Error.Should().StartWith($"portwitness: {product}: line 2, column 1: \"lable\" is no member of a product file. Did you mean \"label\"? Known members: product, ");
    }

    // Three cells of 2000 mAh 3.6 V hold 21.6 Wh, whatever 13500 mAh are counted at; 40 Wh cannot come out of them.
    [Fact]
    public async Task CellsThatHoldLessThanIsPrinted_FailWithoutALogAndACapture()
    {
        _folder.Write(
            "product.yaml",
            "product: Tarnholt reel pack\nlabel: |\n  Battery: 13500mAh 3.7V 49.95Wh\n  Rated capacity: 8000mAh (5V⎓2A)\nbattery: {cells: {series: 3, capacity_mah: 2000, nominal_v: 3.6}}\n");

        CliRun run = await CliRun.Async("check", _folder.Path);

        run.ExitCode.Should().Be(ExitCode.Findings);
        run.OutputLines[1].Should().Be("Verdict: FAILS from label and cells; no port was captured");
        run.Output.Should().Contain("mismatch cells-differ-from-label").And.Contain("mismatch rated-capacity-exceeds-energy");
    }

    // The cells' mAh added up, beside the volts of the pack (common practice, no source).
    [Fact]
    public async Task CapacityOfCellsAddedUp_IsExplained()
    {
        _folder.Write(
            "product.yaml",
            "product: Tarnholt reel pack\nlabel: \"Battery: 13500mAh 10.8V 48.6Wh\"\nbattery: {cells: {series: 3, capacity_mah: 4500, nominal_v: 3.6}}\n");

        CliRun run = await CliRun.Async("check", _folder.Path);

        run.ExitCode.Should().Be(ExitCode.Clean);
        run.OutputLines[1].Should().Be("Verdict: CANNOT TELL from label and cells; no port was captured");
        run.Output.Should().Contain("note capacity-basis-explained").And.Contain("(48.6 Wh)").And.NotContain("145.8");
    }

    [Fact]
    public async Task LabelInAFileOfTheFolder_IsTheSameLabel()
    {
        _folder.Write("c.words", "0x0801912C");
        _folder.Write("label.txt", "USB-C: 5V⎓3A");
        string byFile = _folder.Write("by-file.yaml", "product: x\nlabel: \"@label.txt\"\ncaptures:\n  - {file: c.words, port: C}\n");
        string byText = _folder.Write("by-text.yaml", "product: x\nlabel: \"USB-C: 5V⎓3A\"\ncaptures:\n  - {file: c.words, port: C}\n");

        CliRun run = await CliRun.Async("check", byFile);

        run.Should().Be(await CliRun.Async("check", byText));
        run.OutputLines[1].Should().Be("Verdict: HOLDS");
    }

    [Fact]
    public async Task LabelFileThatIsMissing_IsSaid()
    {
        _folder.Write("c.words", "0x0801912C");
        string product = _folder.Write("product.yaml", "product: x\nlabel: \"@label.txt\"\ncaptures:\n  - {file: c.words, port: C}\n");

        CliRun run = await CliRun.Async("check", product);

        run.OutputLines[1].Should().Be("Verdict: CANNOT TELL without a label to compare");
        run.Output.Should().Contain("the label \"label.txt\" could not be read: ");
    }

    [Theory]
    [InlineData("check")]
    [InlineData("batch")]
    [InlineData("compare")]
    [InlineData("negotiate")]
    public async Task LabelOptionWithAFilesName_SaysHowToNameIt(string command)
    {
        string capture = _folder.Write("c.words", "0x0801912C");
        string[] more = command == "compare" ? [capture] : command == "negotiate" ? ["--sink", "all"] : [];

        CliRun run = await CliRun.Async([command, .. command == "negotiate" ? [] : new[] { capture }, .. more, "--label", "label.txt"]);

        run.ExitCode.Should().Be(ExitCode.Unusable);
        run.Error.Should().Contain(
            "--label label.txt: that is the name of a file, and there is none. Give the file, or what is printed.");
    }

    [Fact]
    public async Task ShortLabel_IsNoFilesName() =>
        (await CliRun.Async("check", _folder.Write("c.words", "0x0801912C"), "--label", "C:5V.DC")).Error.Should().BeEmpty();

    // A mistyped member of a header states nothing; that is noted, and changes neither verdict nor exit code.
    [Fact]
    public async Task UnknownMemberOfAHeader_IsNoted()
    {
        string capture = _folder.Write("c.capture.jsonl", "{\"capture\":1,\"port\":\"C\",\"editon\":\"R3.0\"}\n{\"t\":1000,\"sop\":\"SOP\",\"hex\":\"A1112C910108\"}\n");

        CliRun run = await CliRun.Async("check", capture);

        string.Join(' ', run.Output.Split((char[]?)null, StringSplitOptions.RemoveEmptyEntries)).Should().Contain("line 1, column 25: \"editon\" is no member of a capture's header. Did you mean \"edition\"?");
        run.OutputLines[1].Should().Be((await CliRun.Async("check", _folder.Write(
            "d.capture.jsonl", "{\"capture\":1,\"port\":\"C\"}\n{\"t\":1000,\"sop\":\"SOP\",\"hex\":\"A1112C910108\"}\n"))).OutputLines[1]);
        (await CliRun.Async("decode", _folder.Write("e.capture.jsonl", "{\"capture\":1,\"prot\":\"C\"}\n{\"t\":1000,\"vbus_mv\":5000}\n"))).ExitCode.Should().Be(ExitCode.Clean);
    }
}
