using System.Buffers.Binary;
using Microsoft.Playwright;

namespace Portwitness.Pages.Tests;

/// <summary>
/// The pictures of README.md are parts of the demo's pages. PORTWITNESS_REFRESH_DOCS=1 takes them again; without it each has to have the size
/// that its part of the page has now.
/// </summary>
public sealed class PictureTests(Browser browser) : IClassFixture<Browser>, IDisposable
{
    private const int Width = 860;

    private readonly TemporaryFolder _folder = new();

    public void Dispose() => _folder.Dispose();

    [NeedsDebianPackageTheory("chromium", Browser.Program)]
    [InlineData("verdict", "dishonest-th100", "header")]
    [InlineData("label", "dishonest-th100", "section[aria-labelledby=label-h]")]
    [InlineData("envelope", "dishonest-th100", "section[aria-labelledby=offers-h] figure >> nth=0")]
    [InlineData("voltage", "shared-tb65", "section[aria-labelledby=measured-h] figure >> nth=0")]
    [InlineData("batch", null, "main")]
    public async Task Picture_IsOfThePage(string name, string? product, string part)
    {
        string file = _folder.PathOf("index.html");
        await CliRun.Async(product is null
            ? ["batch", Repository.PathOf("captures"), "--output", _folder.Path, "--format", "html"]
            : ["check", Repository.PathOf("captures", product), "--output", file, "--format", "html"]);
        (IPage page, _, _) = await browser.OpenAsync(file, Width);

        // What a reader who gives a relative path sees.
        await page.EvaluateAsync("root => document.body.innerHTML = document.body.innerHTML.replaceAll(root, '')", Repository.PathOf("captures") + "/");
        byte[] drawn = await page.Locator(part).ScreenshotAsync();
        string picture = Repository.PathOf("captures", "pictures", name + ".png");
        if (Environment.GetEnvironmentVariable("PORTWITNESS_REFRESH_DOCS") == "1")
        {
            Directory.CreateDirectory(Path.GetDirectoryName(picture)!);
            await File.WriteAllBytesAsync(picture, drawn);
        }

        (int width, int height) = SizeOf(drawn);
        (int pictured, int high) = SizeOf(await File.ReadAllBytesAsync(picture));
        pictured.Should().Be(width);

        // Fonts of another machine break lines elsewhere.
        high.Should().BeInRange(height * 8 / 10, height * 12 / 10, "set PORTWITNESS_REFRESH_DOCS=1 to take the pictures again");
        (await File.ReadAllTextAsync(Repository.PathOf("README.md"))).Should().Contain($"](captures/pictures/{name}.png)");
    }

    // W3C PNG, 11.2.1: IHDR comes first, its width and height at bytes 16 and 20.
    private static (int Width, int Height) SizeOf(byte[] png) =>
        (BinaryPrimitives.ReadInt32BigEndian(png.AsSpan(16)), BinaryPrimitives.ReadInt32BigEndian(png.AsSpan(20)));
}
