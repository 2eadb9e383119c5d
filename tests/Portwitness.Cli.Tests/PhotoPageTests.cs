using System.Diagnostics;
using System.Text;
using System.Text.RegularExpressions;

namespace Portwitness.Cli.Tests;

/// <summary>The page of a product whose label is a photo: the picture is in it, and nothing but its pixels.</summary>
public sealed class PhotoPageTests : IDisposable
{
    private static readonly string[] Printed = ["USB-C1: 5V=3A 9V=3A 15V=3A 20V=3.25A (65W Max)", "USB-C2: 5V=3A 9V=2.22A (20W Max)"];

    private readonly TemporaryFolder _folder = new();

    /// <inheritdoc/>
    public void Dispose() => _folder.Dispose();

    [NeedsDebianPackageTheory(DisplayPicture.Packages, DisplayPicture.Convert, DisplayPicture.Tesseract, DisplayPicture.Fonts)]
    [InlineData("check")]
    [InlineData("batch")]
    public async Task PhotoOfTheLabel_IsOnThePageWithoutWhatACameraAdds(string command)
    {
        string product = _folder.Write("p/product.yaml", "product: x\nlabel: {photo: label.jpg}\noffers: [{port: C1, list: [5V 3A, 9V 3A]}]\n");
        string photo = DisplayPicture.InFont(_folder.PathOf("p/label.jpg"), Printed, "DejaVu-Sans", "black", "white");
        using (Process add = Process.Start(DisplayPicture.Convert, [photo, "-set", "comment", "the bench at home", photo]))
        {
            await add.WaitForExitAsync();
        }

        Encoding.Latin1.GetString(await File.ReadAllBytesAsync(photo)).Should().Contain("the bench at home");
        string page = _folder.PathOf(command == "check" ? "x.html" : "out/p.html");

        CliRun run = await CliRun.Async(command == "check" ? ["check", product, "--format", "html", "--output", page]
            : ["batch", _folder.PathOf("p"), "--format", "html", "--output", _folder.PathOf("out"), "--photo-languages", "eng"]);

        string html = await File.ReadAllTextAsync(page);
        html.Should().Contain("default-src 'none'").And.Contain("img-src data:").And.NotContain("http-equiv=\"refresh\"", run.Error);
        byte[] picture = Convert.FromBase64String(Regex.Match(html, "href=\"data:image/jpeg;base64,([^\"]+)\"").Groups[1].Value);
        picture.Should().StartWith([0xFF, 0xD8, 0xFF]).And.HaveCountLessThan(400_000);
        string bytes = Encoding.Latin1.GetString(picture);
        bytes.Should().NotContain("the bench at home").And.NotContain("Exif");
        Regex.Count(html, "class=\"(seen|gone)\"").Should().BeGreaterThan(8, "each word has its box");
    }

    [Fact]
    public async Task PageWithoutAPhoto_AllowsNoPicture()
    {
        string page = _folder.PathOf("x.html");

        await CliRun.Async("check", Repository.PathOf("captures", "clean-th65"), "--format", "html", "--output", page);

        (await File.ReadAllTextAsync(page)).Should().Contain("default-src 'none'").And.NotContain("img-src");
    }
}
