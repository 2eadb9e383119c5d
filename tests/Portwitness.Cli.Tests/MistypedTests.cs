using Portwitness.Cli.Shell;

namespace Portwitness.Cli.Tests;

/// <summary>What was mistyped gets the name that was meant; what is wrong here is not a service's.</summary>
public sealed class MistypedTests : IDisposable
{
    private readonly TemporaryFolder _folder = new();

    [Theory]
    [InlineData("chek x", "did you mean check by chek?")]
    [InlineData("check x --lable y", "did you mean --label by --lable?")]
    [InlineData("decode x --sampels=u8@4MS/s", "did you mean --samples by --sampels?")]
    public async Task CommandsAndOptions(string line, string says)
    {
        CliRun run = await CliRun.Async(line.Split(' '));

        run.ExitCode.Should().Be(ExitCode.Unusable);
        run.Error.Should().Contain(says);
    }

    [Fact]
    public async Task Files()
    {
        string file = _folder.Write("c1.capture.jsonl", "x");

        CliRun run = await CliRun.Async("decode", file.Replace("c1.", "cl.", StringComparison.Ordinal));

        run.Error.Should().Contain($"Did you mean {file}?");
    }

    [Fact]
    public async Task FilesOfAProduct_AreNamedOnStandardErrorWithTheOneThatWasMeant()
    {
        _folder.Write("c1.words", "0x0801912C 0x0002D0DE");
        string product = _folder.Write("product.yaml", "label: \"USB-C1: 5V⎓3A\"\ncaptures: [{file: c1.words, port: C1, in_use: [C1]}, {file: c1.word, port: C1}]\n");

        CliRun run = await CliRun.Async("check", product);

        run.Error.Should().Contain("\"c1.word\" could not be read: there is no such file. Did you mean c1.words?");
        run.Output.Split('\n').Take(6).Should().Contain(static line => line.Contains("c1.word could not be read"));
    }

    [Fact]
    public async Task Rules()
    {
        string file = _folder.Write("c1.words", "0x0801912C");

        CliRun run = await CliRun.Async("check", file, "--only", "normative-voltge-missing");

        run.ExitCode.Should().Be(ExitCode.Unusable);
        run.Error.Should().Contain("normative-voltage-missing").And.NotContain("service");
    }

    [Theory]
    [InlineData("--samples", "u9@25MS/s")]
    [InlineData("--levels", "high")]
    [InlineData("--columns", "bogus=1")]
    public async Task WhatIsWrongHere_IsToldByItsOption(string option, string value)
    {
        string file = _folder.Write("c1.csv", "1,2\n3,4\n");

        CliRun run = await CliRun.Async("decode", file, option, value);

        run.ExitCode.Should().Be(ExitCode.Unusable);
        run.Error.Should().NotContain("service").And.Contain(option);
    }

    [Fact]
    public async Task LabelThatIsAFile_IsReadFromItAndThatIsSaid()
    {
        string capture = _folder.Write("c1.words", "0x0801912C 0x0002D0DE");
        string label = _folder.Write("label.txt", "USB-C1: 5V⎓3A 9V⎓2.22A (20W Max)");

        CliRun run = await CliRun.Async("check", capture, "--label", label, "--port", "C1");

        run.Error.Should().Contain("there is a file of this name, and the label is read from it");
        run.Output.Should().Contain("HOLDS        C1 gives 9 V 2.22 A");
        (await CliRun.Async("check", capture, "--label", label.Replace("label.txt", "lable.txt", StringComparison.Ordinal)))
            .Error.Should().Contain("and there is none. Did you mean").And.Contain("label.txt?");
    }

    public void Dispose() => _folder.Dispose();
}
