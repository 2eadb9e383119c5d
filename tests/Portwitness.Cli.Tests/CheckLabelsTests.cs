namespace Portwitness.Cli.Tests;

/// <summary>Several labels and a port controller of a product file, from the files to the report.</summary>
public sealed class CheckLabelsTests : IDisposable
{
    private readonly TemporaryFolder _folder = new();

    public void Dispose() => _folder.Dispose();

    [Fact]
    public async Task LabelsOfFiles_AreHeldAgainstEachOtherAndTheOffers()
    {
        _folder.Write("c.words", "0x0801912C 0x0002D12C 0x0004B12C 0x00064145");
        _folder.Write("leaflet.txt", "Tarnholt TH-65\nUSB-C: 60W Max\n");
        string product = _folder.Write(
            "product.yaml",
            "product: x\nlabels:\n  - {name: front, label: \"USB-C: 65W Max\"}\n  - {name: leaflet, file: leaflet.txt}\n"
            + "parts:\n  - {part: U1, kind: controller, watts: 65, ports: [C]}\ncaptures:\n  - {file: c.words, port: C}\n");

        CliRun text = await CliRun.Async("check", product);
        CliRun json = await CliRun.Async("check", product, "--format", "json");

        text.OutputLines[1].Should().Be("Verdict: FAILS");
        text.Output.Should().Contain("front, line 1: C gives up to 65 W; leaflet, line 2: C gives up to 60 W.").And.Contain("Port controllers");
        json.Output.Should().Contain("\"furtherLabels\"").And.Contain("\"statementCounts\"").And.Contain("\"controllers\"").And.Contain("\"otherLabelLine\": 2");
    }

    [Fact]
    public async Task LabelsFileThatIsMissing_IsSaidAndTheOthersAreJudged()
    {
        _folder.Write("c.words", "0x0801912C");
        string product = _folder.Write(
            "product.yaml",
            "product: x\nlabels:\n  - {name: front, label: \"USB-C: 5V⎓3A\"}\n  - {name: box, file: box.txt}\ncaptures:\n  - {file: c.words, port: C}\n");

        CliRun run = await CliRun.Async("check", product);

        run.OutputLines[1].Should().Be("Verdict: CANNOT TELL");
        run.Output.Should().Contain("the label \"box.txt\" could not be read: ").And.Contain("HOLDS        C gives 5 V 3 A");
    }
}
