using System.Text.Json;
using Microsoft.Playwright;

namespace Portwitness.Pages.Tests;

/// <summary>What axe-core, of the npm registry, finds wrong with a page.</summary>
internal static class Accessibility
{
    /// <summary>Where tests/run puts the script.</summary>
    public static string? Script => Environment.GetEnvironmentVariable("PORTWITNESS_AXE");

    /// <summary>"rule: element" of each violation, best practices included.</summary>
    public static async Task<string[]> ViolationsAsync(IPage page)
    {
        // The page forbids scripts; what the browser itself evaluates is not of the page.
        await page.EvaluateAsync(await File.ReadAllTextAsync(Script ?? throw new InvalidOperationException("Set PORTWITNESS_AXE to axe.min.js of the npm package axe-core, or run tests/run.")) + "\n0");
        JsonElement? result = await page.EvaluateAsync("async () => await axe.run()");
        return
        [
            .. result!.Value.GetProperty("violations").EnumerateArray().SelectMany(violation => violation.GetProperty("nodes").EnumerateArray()
                .Select(node => $"{violation.GetProperty("id")}: {node.GetProperty("html")}")),
        ];
    }
}
