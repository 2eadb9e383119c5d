using System.Buffers.Binary;
using System.Text.Json;
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

    [NeedsDebianPackageTheory(Browser.Packages, Browser.Program, Browser.Font)]
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

        // Another version of the browser may break lines elsewhere; fonts are those of the tests.
        high.Should().BeInRange(height * 8 / 10, height * 12 / 10, "set PORTWITNESS_REFRESH_DOCS=1 to take the pictures again");
        (await File.ReadAllTextAsync(Repository.PathOf("README.md"))).Should().Contain($"](captures/pictures/{name}.png)");
    }

    // What the machine has besides would be chosen by fontconfig: Data/fonts.conf hides it.
    [NeedsDebianPackageFact(Browser.Packages, Browser.Program, Browser.Font)]
    public async Task Texts_AreDrawnWithTheFontsOfTheTests()
    {
        (IPage page, _, _) = await browser.OpenAsync(_folder.Write("fonts.html",
            "<p style='font-family: system-ui, sans-serif'>5V⎓3A <b>bold</b> <i>italic</i></p><p style='font-family: ui-monospace, monospace'>mono</p>"), Width);
        ICDPSession session = await page.Context.NewCDPSessionAsync(page);
        await session.SendAsync("DOM.enable");
        await session.SendAsync("CSS.enable");
        int root = (await session.SendAsync("DOM.getDocument"))!.Value.GetProperty("root").GetProperty("nodeId").GetInt32();
        JsonElement found = (await session.SendAsync("DOM.querySelectorAll", new() { ["nodeId"] = root, ["selector"] = "p, b, i" }))!.Value;
        List<string> fonts = [];
        foreach (JsonElement node in found.GetProperty("nodeIds").EnumerateArray())
        {
            JsonElement used = (await session.SendAsync("CSS.getPlatformFontsForNode", new() { ["nodeId"] = node.GetInt32() }))!.Value;
            fonts.AddRange(used.GetProperty("fonts").EnumerateArray().Select(static font => font.GetProperty("familyName").GetString()!));
        }

        fonts.Distinct().Should().BeEquivalentTo("DejaVu Sans", "DejaVu Sans Mono");
    }

    // W3C PNG, 11.2.1: IHDR comes first, its width and height at bytes 16 and 20.
    private static (int Width, int Height) SizeOf(byte[] png) =>
        (BinaryPrimitives.ReadInt32BigEndian(png.AsSpan(16)), BinaryPrimitives.ReadInt32BigEndian(png.AsSpan(20)));
}
