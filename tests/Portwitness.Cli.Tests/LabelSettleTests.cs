using Portwitness.Cli.Shell;

namespace Portwitness.Cli.Tests;

/// <summary>label --settle asks place by place and writes the answers into the product file.</summary>
public sealed class LabelSettleTests
{
    private const string Label = "Blorp 20V\nC1: 65W\nC2: 20W\nA: 12W\nC1+C2+A: 45W+15W\n";
    private const string Product = "# Tarnholt bench\nlabel: \"@label.txt\"  # as printed\ncaptures: []\n";

    [Fact]
    public async Task Answers_AreWrittenIntoTheProductFile()
    {
        using TemporaryFolder folder = new();
        (string label, string product) = (folder.Write("label.txt", Label), folder.Write("product.yaml", Product));

        CliRun run = await CliRun.WithAnswersAsync(["1", "9V zork", "1"], "label", label, "--settle", product);

        File.ReadAllText(product).Should().Be(Product + """
            label_corrections:
              - {line: 1, no_rating: true}
              - {line: 5, printed: "45W+15W", read_as: "C1 45W, C2+A share 15W"}

            """.ReplaceLineEndings("\n"));
        run.ExitCode.Should().Be(ExitCode.Clean);
        run.Error.Should().Contain("Line 5: C1+C2+A: 45W+15W").And.Contain("that is not read either: 9V zork")
            .And.Contain($"2 places settled in {product}; 0 that could rate something left.");
        run.Output.Should().Contain("C1 45 W, C2 + A share 15 W").And.NotContain("zork");
    }

    [Fact]
    public async Task PlacesThatAreLeft_StayOpenAndTheFileAsItIs()
    {
        using TemporaryFolder folder = new();
        (string label, string product) = (folder.Write("label.txt", Label), folder.Write("product.yaml", Product));

        CliRun run = await CliRun.WithAnswersAsync(["", ""], "label", label, "--settle", product);

        File.ReadAllText(product).Should().Be(Product);
        run.ExitCode.Should().Be(ExitCode.Findings);
        run.Error.Should().Contain($"0 places settled in {product}; 2 that could rate something left.");
    }

    [Fact]
    public async Task NoTerminal_IsRefusedWithTheWayToDoIt()
    {
        using TemporaryFolder folder = new();
        (string label, string product) = (folder.Write("label.txt", Label), folder.Write("product.yaml", Product));

        CliRun run = await CliRun.WithInputAsync("1\n", "label", label, "--settle", product);

        run.ExitCode.Should().Be(ExitCode.Unusable);
        run.Error.Should().Contain("--settle asks at a terminal, and standard input is none; paste the lines that 'portwitness label' offers");
        (await CliRun.Async("label", label)).Output.Should().Contain("    - {line: 5, printed: \"45W+15W\", read_as: \"C1 45W, C2+A share 15W\"}\n");
    }

    [Theory]
    [InlineData("product: x\ncaptures: []\n", "it has no label")]
    [InlineData("label: other\n", "its label is not the text")]
    public async Task ProductOfAnotherLabel_IsRefused(string text, string reason)
    {
        using TemporaryFolder folder = new();
        (string label, string product) = (folder.Write("label.txt", Label), folder.Write("product.yaml", text));

        CliRun run = await CliRun.WithAnswersAsync(["1"], "label", label, "--settle", product);

        run.Error.Should().Contain(reason);
        File.ReadAllText(product).Should().Be(text);
    }
}
