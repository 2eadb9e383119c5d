using Microsoft.Playwright;

namespace Portwitness.Pages.Tests;

/// <summary>Pages of demo products in a browser: nothing loaded, nothing cut off, readable by people and by their tools.</summary>
public sealed class ProductPageTests(Browser browser) : IClassFixture<Browser>, IDisposable
{
    private readonly TemporaryFolder _folder = new();

    public void Dispose() => _folder.Dispose();

    [NeedsDebianPackageTheory(Browser.Packages, Browser.Program, Browser.Font)]
    [InlineData("clean-th65", 360)]
    [InlineData("shared-tb65", 360)]
    [InlineData("shared-tb65", 1280)]
    [InlineData("weak-tp10", 360)]
    [InlineData("weak-tp10", 1280)]
    [InlineData("dishonest-th100", 1280)]
    [InlineData("broken-tp20", 1280)]
    public async Task Page_FitsAndLoadsNothingElse(string product, int width)
    {
        string file = await PageOfAsync(product);

        (IPage page, List<string> console, List<string> requests) = await browser.OpenAsync(file, width);

        console.Should().BeEmpty();
        requests.Should().Equal("file://" + file);
        (await page.EvaluateAsync<int>("document.documentElement.scrollWidth")).Should().BeLessThanOrEqualTo(width);
        (await page.EvaluateAsync<int>("[...document.querySelectorAll('svg')].filter(one => one.getBoundingClientRect().width < 1 || one.getBBox().width < 1).length"))
            .Should().Be(0, "every drawing has a size and something in it");
        (await page.EvaluateAsync<int>("document.querySelectorAll('figure').length")).Should().BeGreaterThan(0);
    }

    // A drawing whose parts leave it would be cut off.
    [NeedsDebianPackageTheory(Browser.Packages, Browser.Program, Browser.Font)]
    [InlineData("shared-tb65")]
    [InlineData("weak-tp10")]
    [InlineData("dishonest-th100")]
    public async Task Drawings_StayWithinTheirFrames(string product)
    {
        (IPage page, _, _) = await browser.OpenAsync(await PageOfAsync(product));

        (await page.EvaluateAsync<string[]>(
            """
            [...document.querySelectorAll('figure div svg')].flatMap(svg => {
              const frame = svg.getBoundingClientRect();
              return [...svg.querySelectorAll('path, rect, circle, line, text')].filter(part => {
                const box = part.getBoundingClientRect();
                return box.left < frame.left - 1 || box.right > frame.right + 1 || box.top < frame.top - 1 || box.bottom > frame.bottom + 1;
              }).map(part => svg.querySelector('title').textContent + ': ' + part.outerHTML);
            })
            """)).Should().BeEmpty();
    }

    [NeedsDebianPackageFact(Browser.Packages, Browser.Program, Browser.Font)]
    public async Task Page_SaysTheSameWithoutScriptsAndByKeyboard()
    {
        string file = await PageOfAsync("shared-tb65");
        (IPage without, _, _) = await browser.OpenAsync(file, scripts: false);
        (IPage page, _, _) = await browser.OpenAsync(file);

        (await without.InnerTextAsync("body")).Should().Be(await page.InnerTextAsync("body")).And.Contain("fails").And.Contain("neighbour-interrupted");
        await page.Keyboard.PressAsync("Tab");
        (await page.EvaluateAsync<string>("document.activeElement.getAttribute('href')")).Should().Be("#findings");
    }

    [NeedsAxeTheory]
    [InlineData("shared-tb65", ColorScheme.Light)]
    [InlineData("shared-tb65", ColorScheme.Dark)]
    [InlineData("weak-tp10", ColorScheme.Light)]
    [InlineData("broken-tp20", ColorScheme.Dark)]
    public async Task Page_HasNoBarriers(string product, ColorScheme scheme)
    {
        (IPage page, _, _) = await browser.OpenAsync(await PageOfAsync(product), scheme: scheme);

        (await Accessibility.ViolationsAsync(page)).Should().BeEmpty();
    }

    [NeedsAxeFact]
    public async Task Barriers_AreFound()
    {
        (IPage page, _, _) = await browser.OpenAsync(_folder.Write("bad.html", "<!DOCTYPE html><html><body><p style='color:#bbb'>pale</p></body></html>"));

        (await Accessibility.ViolationsAsync(page)).Should().Contain(found => found.StartsWith("color-contrast:", StringComparison.Ordinal))
            .And.Contain(found => found.StartsWith("html-has-lang:", StringComparison.Ordinal));
    }

    [NeedsDebianPackageFact(Browser.Packages, Browser.Program, Browser.Font)]
    public async Task Page_PrintsOnA4()
    {
        (IPage page, _, _) = await browser.OpenAsync(await PageOfAsync("shared-tb65"));
        await page.EmulateMediaAsync(new PageEmulateMediaOptions { Media = Media.Print });
        await page.SetViewportSizeAsync(688, 1017);

        // A4 less margins of 14 mm, at 96 dots an inch: 182 mm are 688 dots.
        (await page.EvaluateAsync<int>("document.documentElement.scrollWidth")).Should().BeLessThanOrEqualTo(688);
        (await page.PdfAsync(new PagePdfOptions { PreferCSSPageSize = true })).Should().StartWith("%PDF"u8.ToArray());
    }

    private async Task<string> PageOfAsync(string product)
    {
        string file = Path.Combine(_folder.Path, product + ".html");
        CliRun run = await CliRun.Async("check", Repository.PathOf("captures", product), "--format", "html", "--output", file);
        run.Error.Should().BeEmpty();
        return file;
    }
}
