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

    // The port offers 9 V 2 A where 2.22 A is printed: that fails as soon as somebody has compared the photo.
    [NeedsDebianPackageTheory(Packages, Convert, Tesseract, Font)]
    [InlineData("", "cannot_tell", false)]
    [InlineData(", checked: false", "cannot_tell", false)]
    [InlineData(", checked: true", "fails", true)]
    public async Task PhotoThatNobodyCompared_AccusesNobody(string isChecked, string verdict, bool fails)
    {
        string photo = Path.GetFileName(Draw("DejaVu-Sans", 28, 0, 0));
        string product = _folder.Write("product.yaml", $$"""
            product: x
            label: {photo: {{photo}}{{isChecked}}}
            offers: [{port: C2, in_use: [C2], list: "5V 3A, 9V 2A", under_contract: true, complete: true}]
            """);

        CliRun run = await CliRun.Async("check", product, "--format", "json");

        JsonElement report = JsonDocument.Parse(run.Output).RootElement;
        report.GetProperty("verdict").GetString().Should().Be(verdict);
        string?[] verdicts = [.. report.GetProperty("statements").EnumerateArray().Select(static one => one.GetProperty("verdict").GetString())];
        verdicts.Should().Contain("holds");
        verdicts.Contains("fails").Should().Be(fails);
    }

    // A capture alone takes a photo, too.
    [NeedsDebianPackageFact(Packages, Convert, Tesseract, Font)]
    public async Task PhotoBesideACapture_IsItsLabel()
    {
        string capture = _folder.Write("c1.words", "0x0801912C 0x0002D12C 0x0004B12C 0x00064145");

        CliRun run = await CliRun.Async("check", capture, "--label-file", Draw("DejaVu-Sans", 28, 0, 0), "--port", "C1");

        run.Output.Should().Contain("Verdict: CANNOT TELL").And.Contain("words were recognised on a photo").And.Contain("C1 gives 20 V 3.25 A");
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
