using Portwitness.Cli.Shell;

namespace Portwitness.Cli.Tests;

/// <summary>Offers on the command line, in place of a capture. The list is that of a source of 67 W (R3.2v1.1, Table 10.2).</summary>
public sealed class OffersOptionTests : IDisposable
{
    private const string Offers = "5V 3A, 9V 3A, 15V 3A, 20V 3.35A, PPS 3.3-11V 5A";
    private const string Label = "USB-C1: 5V⎓3A 9V⎓3A 15V⎓3A 20V⎓3.35A (67W Max)";

    private readonly TemporaryFolder _folder = new();

    [Fact]
    public async Task Check_HoldsThemAgainstTheLabel()
    {
        CliRun run = await CliRun.Async("check", "--offers", Offers, "--label", Label, "--port", "C1");

        run.Output.Should().Contain("HOLDS        C1 gives 20 V 3.35 A").And.NotContain("FAILS");
        run.ExitCode.Should().Be(ExitCode.Clean, run.Error);
    }

    [Fact]
    public async Task Decode_ShowsWhatADisplayDoesNotAsUnknown()
    {
        CliRun run = await CliRun.Async("decode", "--offers", "@" + _folder.Write("offers.txt", Offers.Replace(", ", "\n", StringComparison.Ordinal)));

        run.Output.Should().Contain("format offers").And.Contain("power limited ?").And.Contain("PDP 67 W, derived from the list");
    }

    [Fact]
    public async Task Negotiate_TakesThem() =>
        (await CliRun.Async("negotiate", "--offers", Offers, "--sink", "laptop-65w")).Output.Should().Contain("20 V");

    [Fact]
    public async Task OfferThatCannotBeRead_IsNamedWithItsColumn() => (await CliRun.Async("decode", "--offers", "5V 3A, 9V 3B"))
        .Output.Should().Contain("offers: line 1, column 8: \"3\" stands where a current such as 3.25A was expected, in \"9V 3B\".");

    [Theory]
    [InlineData("check", "check needs a product, a capture or --offers")]
    [InlineData("check c1.capture.jsonl --offers 5V3A", "check needs a product, a capture or --offers")]
    [InlineData("decode c1.capture.jsonl --offers 5V3A", "decode needs either files, --words or --offers.")]
    [InlineData("negotiate c1.capture.jsonl --offers 5V3A --sink laptop-65w", "negotiate needs one source: a capture, --words, --offers, --label or --label-file.")]
    [InlineData("decode --offers offers.txt", "that is the name of a file, not what is offered; write --offers @offers.txt.")]
    public async Task WhatIsGivenTwiceOrNotAtAll_IsRefused(string line, string says)
    {
        CliRun run = await CliRun.Async(line.Split(' '));

        run.ExitCode.Should().Be(ExitCode.Unusable);
        run.Error.Should().Contain(says);
    }

    public void Dispose() => _folder.Dispose();
}
