using System.Text.Json;
using Portwitness.Cli.Shell;
using Xunit.Abstractions;

namespace Portwitness.Cli.Tests;

/// <summary>Offers off pictures of displays that are drawn here. The list is that of a source of 67 W (R3.2v1.1, Table 10.2).</summary>
public sealed class PhotoOffersTests(ITestOutputHelper output) : IDisposable
{
    private static readonly string[] Shown =
        ["PDO1 5.00V 3.00A", "PDO2 9.00V 3.00A", "PDO3 15.00V 3.00A", "PDO4 20.00V 3.35A", "PPS 3.30-11.00V 5.00A", "PPS 3.30-21.00V 3.00A"];

    private static readonly string[] Offers = ["fixed 5000 5000 3000", "fixed 9000 9000 3000", "fixed 15000 15000 3000", "fixed 20000 20000 3350", "pps 3300 11000 5000", "pps 3300 21000 3000"];

    private readonly TemporaryFolder _folder = new();

    /// <inheritdoc/>
    public void Dispose() => _folder.Dispose();

    // What is read is what was drawn, whatever the picture; how much of it depends on the picture.
    [NeedsDebianPackageTheory(DisplayPicture.Packages, DisplayPicture.Convert, DisplayPicture.Tesseract, DisplayPicture.Fonts)]
    [InlineData("DejaVu-Sans-Mono", "white", "black", 28, 0, 0, 6)]
    [InlineData("DejaVu-Sans-Mono", "black", "white", 28, 0, 0, 6)]
    [InlineData("DejaVu-Sans-Mono", "lime", "black", 28, 0, 0, 5)]
    [InlineData("DejaVu-Sans-Mono-Bold", "white", "navy", 28, 0, 0, 5)]
    [InlineData("DejaVu-Sans", "cyan", "black", 40, 2, 0, 5)]
    [InlineData("DejaVu-Sans-Condensed", "white", "black", 20, 0, 0, 5)]
    [InlineData("DejaVu-Sans-Mono", "white", "black", 14, 0, 0, 4)]
    [InlineData("DejaVu-Sans-Mono", "orange", "black", 28, -3, 1.5, 1)]
    [InlineData("DejaVu-Sans-Mono", "white", "black", 28, 0, 3, 0)]
    public async Task PictureOfADisplay_IsReadAsItWasDrawn(string font, string colour, string background, int points, int degrees, double blur, int atLeast)
    {
        string picture = DisplayPicture.InFont(_folder.PathOf("display.jpg"), Shown, font, colour, background, points, degrees, blur);

        (int read, int misread) = await ReadAsync(picture, Offers);

        output.WriteLine($"| {font} {points}, {colour} on {background}, {degrees} degrees, blur {blur} | {read} | {Offers.Length - read} | {misread} |");
        misread.Should().Be(0, "a wrong reading would accuse");
        read.Should().BeGreaterThanOrEqualTo(atLeast);
    }

    // Seven segments are not what the program learned; what it is not sure of is not read.
    [NeedsDebianPackageTheory(DisplayPicture.Packages, DisplayPicture.Convert, DisplayPicture.Tesseract, DisplayPicture.Fonts)]
    [InlineData("red", "black", 0)]
    [InlineData("black", "white", 0)]
    [InlineData("black", "white", 2)]
    [InlineData("lime", "black", 3)]
    public async Task SevenSegments_AreReadOrLeftOut(string colour, string background, int gap)
    {
        string[] shown = ["5.00V 3.00A", "9.00V 3.00A", "15.00V 3.00A", "20.00V 3.35A"];
        string picture = DisplayPicture.InSegments(_folder.PathOf("segments.png"), shown, colour, background, gap);

        (int read, int misread) = await ReadAsync(picture, Offers[..4]);

        output.WriteLine($"| seven segments, {colour} on {background}, gap {gap} | {read} | {4 - read} | {misread} |");
        misread.Should().Be(0, "a wrong reading would accuse");
    }

    // 12 V are printed and not offered: that fails as soon as somebody has compared the photo; what agrees holds then, and not before.
    [NeedsDebianPackageTheory(DisplayPicture.Packages, DisplayPicture.Convert, DisplayPicture.Tesseract, DisplayPicture.Fonts)]
    [InlineData("", "cannot_tell", false)]
    [InlineData(", checked: false", "cannot_tell", false)]
    [InlineData(", checked: true, complete: true, under_contract: true", "fails", true)]
    public async Task PhotoThatNobodyCompared_AccusesNobodyAndProvesNothing(string isChecked, string verdict, bool isCompared)
    {
        DisplayPicture.InFont(_folder.PathOf("display.jpg"), Shown, "DejaVu-Sans-Mono", "white", "black");
        string product = _folder.Write("product.yaml", $$"""
            product: x
            label: "USB-C1: 5V⎓3A 9V⎓3A 12V⎓3A 15V⎓3A"
            offers:
              - {port: C1, photo: display.jpg{{isChecked}}}
            """);

        CliRun run = await CliRun.Async("check", product, "--format", "json");

        JsonElement report = JsonDocument.Parse(run.Output).RootElement;
        report.GetProperty("verdict").GetString().Should().Be(verdict);
        string?[] verdicts = [.. report.GetProperty("statements").EnumerateArray().Select(static one => one.GetProperty("verdict").GetString())];
        verdicts.Contains("fails").Should().Be(isCompared);
        verdicts.Contains("holds").Should().Be(isCompared);
        report.GetProperty("nextSteps").EnumerateArray().Any(static step => step.GetString()!.StartsWith("Compare the offers with the photo", StringComparison.Ordinal)).Should().Be(!isCompared);
    }

    [NeedsDebianPackageTheory(DisplayPicture.Packages, DisplayPicture.Convert, DisplayPicture.Tesseract, DisplayPicture.Fonts)]
    [InlineData("decode")]
    [InlineData("check")]
    [InlineData("negotiate")]
    public async Task PhotoInPlaceOfOffers_IsReadAndSaysSo(string command)
    {
        string picture = DisplayPicture.InFont(_folder.PathOf("display.jpg"), Shown, "DejaVu-Sans-Mono", "white", "black");
        string[] more = command == "negotiate" ? ["--sink", "laptop-65w"] : [];

        CliRun run = await CliRun.Async([command, "--offers", picture, .. more]);

        System.Text.RegularExpressions.Regex.Replace(run.Output + run.Error, @"\s+", " ").Should().Contain("recognised on a photo", run.Error);
    }

    [NeedsDebianPackageFact(DisplayPicture.Packages, DisplayPicture.Convert, DisplayPicture.Tesseract, DisplayPicture.Fonts)]
    public async Task NegotiationWithWhatNobodyCompared_HoldsNothing()
    {
        string picture = DisplayPicture.InFont(_folder.PathOf("display.jpg"), Shown, "DejaVu-Sans-Mono", "white", "black");

        CliRun run = await CliRun.Async("negotiate", "--offers", picture, "--sink", "laptop-65w");

        run.Output.Should().Contain("CANNOT TELL").And.NotContain("HOLDS").And.Contain("Compare what was read off the photo");
    }

    [NeedsDebianPackageFact(DisplayPicture.Packages, DisplayPicture.Convert, DisplayPicture.Tesseract, DisplayPicture.Fonts)]
    public async Task FaultOfAList_AccusesNobodyBeforeItIsCompared()
    {
        string picture = DisplayPicture.InFont(_folder.PathOf("display.png"), ["9.00V 3.00A", "5.00V 3.00A", "5.00V 2.00A", "20.00V 6.00A"], "DejaVu-Sans-Mono", "white", "black");

        CliRun run = await CliRun.Async("check", "--offers", picture, "--format", "json", "--port", "C1");

        JsonElement report = JsonDocument.Parse(run.Output).RootElement;
        report.GetProperty("findings").EnumerateArray().Select(static one => one.GetProperty("verdict").GetString()).Should().NotBeEmpty().And.NotContain("fails");
        report.GetProperty("verdict").GetString().Should().Be("cannot_tell");
    }

    [Fact]
    public async Task ProgramThatIsMissing_IsNamedWithItsPackage()
    {
        string photo = _folder.PathOf("display.png");
        File.WriteAllBytes(photo, [0x89, (byte)'P', (byte)'N', (byte)'G', 13, 10, 26, 10, 0, 0, 0, 0]);

        CliRun run = await CliRun.Async("check", "--offers", photo);

        run.ExitCode.Should().Be(ExitCode.Unusable);
        run.Error.Should().ContainAny("apt-get install imagemagick", "the photo cannot be read");
    }

    private static async Task<(int Read, int Misread)> ReadAsync(string picture, string[] drawn)
    {
        CliRun run = await CliRun.Async("decode", "--offers", picture, "--format", "json");
        JsonElement read = JsonDocument.Parse(run.Output.Split('\n')[0]).RootElement;
        HashSet<string> found = [];
        foreach (JsonElement list in read.GetProperty("advertisements").EnumerateArray())
        {
            foreach (JsonElement one in list.GetProperty("objects").EnumerateArray())
            {
                if (one.TryGetProperty("fixed", out JsonElement supply))
                {
                    found.Add($"fixed {supply.GetProperty("voltageMv")} {supply.GetProperty("voltageMv")} {supply.GetProperty("maxCurrentMa")}");
                }
                else if (one.TryGetProperty("pps", out JsonElement range))
                {
                    found.Add($"pps {range.GetProperty("minVoltageMv")} {range.GetProperty("maxVoltageMv")} {range.GetProperty("maxCurrentMa")}");
                }
            }
        }

        return (found.Count(drawn.Contains), found.Count(one => !drawn.Contains(one)));
    }
}
