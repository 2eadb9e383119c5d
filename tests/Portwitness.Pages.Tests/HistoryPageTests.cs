using Microsoft.Playwright;
using Portwitness.Server.Tests;

namespace Portwitness.Pages.Tests;

/// <summary>The page of a service: its reports, and each one opened.</summary>
public sealed class HistoryPageTests(Browser browser) : IClassFixture<Browser>
{
    [NeedsDebianPackageTheory(Browser.Packages, Browser.Program, Browser.Font)]
    [InlineData(360, ColorScheme.Light)]
    [InlineData(1280, ColorScheme.Dark)]
    public async Task List_FitsTheScreen_AndOpensReports(int width, ColorScheme scheme)
    {
        await using HttpService service = await ServiceWithDemosAsync();
        (IPage page, List<string> console, List<string> requests) = await browser.OpenAsync(service.Client.BaseAddress!.ToString(), width, scheme);

        (await page.EvaluateAsync<int>("document.documentElement.scrollWidth")).Should().BeLessThanOrEqualTo(width);
        requests.Where(static one => !one.EndsWith("/favicon.ico", StringComparison.Ordinal)).Should().Equal(service.Client.BaseAddress!.ToString());
        (await page.Locator("tbody tr").CountAsync()).Should().Be(3);
        if (Environment.GetEnvironmentVariable("PORTWITNESS_PICTURES") is { } folder)
        {
            await page.ScreenshotAsync(new PageScreenshotOptions { Path = Path.Combine(folder, $"history-{width}.png"), FullPage = true });
        }

        await page.GetByRole(AriaRole.Link, new PageGetByRoleOptions { Name = "Tarnholt TP-20 night pack" }).ClickAsync();
        (await page.Locator("h1").InnerTextAsync()).Should().Be("Tarnholt TP-20 night pack");
        (await page.EvaluateAsync<int>("document.documentElement.scrollWidth")).Should().BeLessThanOrEqualTo(width);
        console.Where(static one => !one.Contains("favicon", StringComparison.Ordinal) && !one.Contains("404", StringComparison.Ordinal)).Should().BeEmpty();
    }

    [NeedsDebianPackageFact(Browser.Packages, Browser.Program, Browser.Font)]
    public async Task Form_AsksTheServiceAgain()
    {
        await using HttpService service = await ServiceWithDemosAsync();
        (IPage page, _, _) = await browser.OpenAsync(service.Client.BaseAddress!.ToString(), scripts: false);

        await page.GetByLabel("Verdict").SelectOptionAsync("holds");
        await page.GetByRole(AriaRole.Button, new PageGetByRoleOptions { Name = "Show" }).ClickAsync();

        (await page.Locator("tbody tr").CountAsync()).Should().Be(1);
        (await page.InnerTextAsync("tbody")).Should().Contain("TH-65").And.Contain("✓ holds");
    }

    [NeedsAxeFact]
    public async Task List_HasNoBarriers()
    {
        await using HttpService service = await ServiceWithDemosAsync();
        (IPage page, _, _) = await browser.OpenAsync(service.Client.BaseAddress!.ToString());

        (await Accessibility.ViolationsAsync(page)).Should().BeEmpty();
    }

    private static async Task<HttpService> ServiceWithDemosAsync()
    {
        HttpService service = await HttpService.StartAsync();
        foreach (string folder in new[] { "clean-th65", "broken-tp20", "weak-tp10" })
        {
            (await CliRun.Async("check", Repository.PathOf("captures", folder), "--store", service.StorePath)).ExitCode.Should().BeLessThan(2);
        }

        return service;
    }
}
