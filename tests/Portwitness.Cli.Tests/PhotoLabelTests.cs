using System.Diagnostics;
using System.Text.Json;
using Portwitness.Cli.Shell;

namespace Portwitness.Cli.Tests;

/// <summary>Labels as pictures that are drawn here, by fonts, sizes, skew and blur.</summary>
public sealed class PhotoLabelTests : IDisposable
{
    private const string Packages = "imagemagick, tesseract-ocr and fonts-dejavu-core";
    private const string Convert = "/usr/bin/convert";
    private const string Tesseract = "/usr/bin/tesseract";
    private const string Font = "/usr/share/fonts/truetype/dejavu";

    private const string Printed = """
        Model TN-65
        Input: 100-240V~ 50/60Hz 1.8A
        USB-C1: 5V=3A 9V=3A 15V=3A 20V=3.25A (65W Max)
        USB-C2: 5V=3A 9V=2.22A (20W Max)
        USB-A: 5V=3A 9V=2A
        C1+C2: 45W+20W
        """;

    private readonly TemporaryFolder _folder = new();

    /// <inheritdoc/>
    public void Dispose() => _folder.Dispose();

    // What is read is what was drawn; how much of the 8 modes, 2 maxima and 1 combination is read depends on the picture.
    [NeedsDebianPackageTheory(Packages, Convert, Tesseract, Font)]
    [InlineData("DejaVu-Sans", 28, 0, 0, 11)]
    [InlineData("DejaVu-Serif", 28, 0, 0, 11)]
    [InlineData("DejaVu-Sans-Mono", 28, 0, 0, 11)]
    [InlineData("DejaVu-Sans", 16, 0, 0, 11)]
    [InlineData("DejaVu-Sans", 40, 3, 0, 11)]
    [InlineData("DejaVu-Sans", 28, -2, 1, 10)]
    public async Task Picture_IsReadAsItWasDrawn(string font, int points, int degrees, int blur, int atLeast)
    {
        HashSet<string> drawn = await ReadAsync(Printed);

        HashSet<string> read = await ReadAsync(Draw(font, points, degrees, blur));

        read.Except(drawn).Should().BeEmpty("a wrong reading would accuse");
        read.Should().HaveCountGreaterThanOrEqualTo(atLeast);
    }

    [NeedsDebianPackageFact(Packages, Convert, Tesseract, Font)]
    public async Task Picture_SaysWhereItsTextIsFrom()
    {
        CliRun run = await CliRun.Async("label", Draw("DejaVu-Sans", 28, 0, 0));

        run.Output.Should().Contain("words were recognised on a photo").And.Contain("Nobody has compared them with it yet");
    }

    // The port offers 20 V 3 A where 3.25 A is printed: of a typed label that fails, of a photo it has to be looked at.
    [NeedsDebianPackageFact(Packages, Convert, Tesseract, Font)]
    public async Task PhotoThatNobodyCompared_AccusesNobody()
    {
        string photo = Draw("DejaVu-Sans", 28, 0, 0);
        string capture = _folder.Write("c1.words", "0x0801912C 0x0002D12C 0x0004B12C 0x0006412C");
        string product = _folder.Write("product.yaml", $"product: x\nlabel: \"@{Path.GetFileName(photo)}\"\ncaptures: [{{file: {Path.GetFileName(capture)}, port: C1}}]\n");

        CliRun run = await CliRun.Async("check", product, "--format", "json");

        JsonElement report = JsonDocument.Parse(run.Output).RootElement;
        report.GetProperty("verdict").GetString().Should().Be("cannot_tell");
        report.GetProperty("statements").EnumerateArray().Select(static one => one.GetProperty("verdict").GetString()).Should().NotContain("fails").And.Contain("holds");
    }

    [Fact]
    public async Task ProgramThatIsMissing_IsNamedWithItsPackage()
    {
        string photo = Path.Combine(_folder.Path, "label.png");
        File.WriteAllBytes(photo, [0x89, (byte)'P', (byte)'N', (byte)'G', 13, 10, 26, 10, 0, 0, 0, 0]);

        CliRun run = await CliRun.Async("label", photo);

        run.ExitCode.Should().Be(ExitCode.Unusable);
        run.Error.Should().ContainAny("apt-get install imagemagick", "the photo cannot be read");
    }

    [Theory]
    [InlineData("eng; rm -rf /")]
    [InlineData("-l")]
    [InlineData("")]
    public async Task Languages_AreNames(string languages)
    {
        CliRun run = await CliRun.Async("label", "USB-C: 5V 3A", "--photo-languages", languages);

        run.ExitCode.Should().Be(ExitCode.Unusable);
        run.Error.Should().Contain("--photo-languages");
    }

    private static async Task<HashSet<string>> ReadAsync(string label)
    {
        CliRun run = await CliRun.Async("label", label, "--format", "json");
        JsonElement read = JsonDocument.Parse(run.Output).RootElement;
        HashSet<string> ratings = [];
        foreach (JsonElement output in read.GetProperty("outputs").EnumerateArray())
        {
            string port = output.GetProperty("port").GetString()!;
            foreach (JsonElement mode in output.GetProperty("fixed").EnumerateArray())
            {
                ratings.Add($"{port} {mode.GetProperty("voltageMv")} {mode.GetProperty("currentMa")}");
            }

            if (output.TryGetProperty("maxPowerMw", out JsonElement maximum))
            {
                ratings.Add($"{port} {maximum}");
            }
        }

        foreach (JsonElement combination in read.GetProperty("combinations").EnumerateArray())
        {
            ratings.Add(string.Join('+', combination.GetProperty("split").EnumerateArray().Select(static share => $"{share.GetProperty("port")} {share.GetProperty("powerMw")}")));
        }

        return ratings;
    }

    private string Draw(string font, int points, int degrees, int blur)
    {
        string path = Path.Combine(_folder.Path, $"{font}-{points}-{degrees}-{blur}.png");
        using Process drawing = Process.Start(Convert,
        [
            "-background", "white", "-fill", "black", "-font", font, "-pointsize", $"{points}", $"label:{Printed}", "-bordercolor", "white", "-border", "30", "-rotate", $"{degrees}",
            "-blur", $"0x{blur}", path,
        ]);
        drawing.WaitForExit();
        drawing.ExitCode.Should().Be(0);
        return path;
    }
}
