using Microsoft.Playwright;

namespace Portwitness.Pages.Tests;

/// <summary>The page that links the products of a batch.</summary>
public sealed class BatchPageTests(Browser browser) : IClassFixture<Browser>, IDisposable
{
    private readonly TemporaryFolder _folder = new();

    public void Dispose() => _folder.Dispose();

    [NeedsDebianPackageTheory(Browser.Packages, Browser.Program, Browser.Font)]
    [InlineData(360)]
    [InlineData(1280)]
    public async Task Index_LinksEveryProduct(int width)
    {
        string file = await IndexAsync();
        (IPage page, List<string> console, List<string> requests) = await browser.OpenAsync(file, width);

        (await page.EvaluateAsync<int>("document.documentElement.scrollWidth")).Should().BeLessThanOrEqualTo(width);
        (await page.Locator("tbody a").CountAsync()).Should().Be(5);
        requests.Should().Equal("file://" + file);
        await page.GetByText("Tarnholt TB-65 bunk charger").ClickAsync();
        (await page.Locator("h1").InnerTextAsync()).Should().Be("Tarnholt TB-65 bunk charger");
        console.Should().BeEmpty();
    }

    [NeedsDebianPackageFact(Browser.Packages, Browser.Program, Browser.Font)]
    public async Task Headings_SortByMouseAndKeyboard()
    {
        (IPage page, _, _) = await browser.OpenAsync(await IndexAsync());

        await page.GetByRole(AriaRole.Button, new PageGetByRoleOptions { Name = "violations" }).ClickAsync();
        (await Column(page, 3)).Should().BeInAscendingOrder();
        await page.Keyboard.PressAsync("Enter");
        (await Column(page, 3)).Should().BeInDescendingOrder();
        (await page.Locator("th[aria-sort=descending]").InnerTextAsync()).Should().Contain("violations");
    }

    [NeedsDebianPackageFact(Browser.Packages, Browser.Program, Browser.Font)]
    public async Task WithoutScripts_EverythingIsThere()
    {
        (IPage page, _, _) = await browser.OpenAsync(await IndexAsync(), scripts: false);

        (await page.InnerTextAsync("body")).Should().Contain("5 products: 1 hold, 4 fail").And.Contain("Tarnholt TP-10 pocket pack");
    }

    [NeedsAxeFact]
    public async Task Index_HasNoBarriers()
    {
        (IPage page, _, _) = await browser.OpenAsync(await IndexAsync());

        (await Accessibility.ViolationsAsync(page)).Should().BeEmpty();
    }

    private static async Task<int[]> Column(IPage page, int column) =>
        [.. (await page.Locator($"tbody tr > :nth-child({column})").AllInnerTextsAsync()).Where(text => text.All(char.IsDigit)).Select(text => int.Parse(text, System.Globalization.CultureInfo.InvariantCulture))];

    private async Task<string> IndexAsync()
    {
        await CliRun.Async("batch", Repository.PathOf("captures"), "--output", _folder.Path, "--format", "html");
        return _folder.PathOf("index.html");
    }
}
