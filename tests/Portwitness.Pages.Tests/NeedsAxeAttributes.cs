namespace Portwitness.Pages.Tests;

/// <summary>A test with cases that needs Chromium, and axe-core of the npm registry; skipped without them, but never in CI.</summary>
[AttributeUsage(AttributeTargets.Method)]
internal sealed class NeedsAxeTheoryAttribute : TheoryAttribute
{
    /// <summary>Asks for both.</summary>
    public NeedsAxeTheoryAttribute() => Skip = NeedsAxeFactAttribute.Missing;
}

/// <summary>The same without cases.</summary>
[AttributeUsage(AttributeTargets.Method)]
internal sealed class NeedsAxeFactAttribute : FactAttribute
{
    /// <summary>Asks for both.</summary>
    public NeedsAxeFactAttribute() => Skip = Missing;

    /// <summary>What is missing, in words; null when nothing is, or in CI.</summary>
    public static string? Missing => new NeedsDebianPackageFactAttribute(Browser.Packages, Browser.Program, Browser.Font).Skip
        ?? (Accessibility.Script is null && Environment.GetEnvironmentVariable("CI") != "true"
            ? "Set PORTWITNESS_AXE to axe.min.js of the npm package axe-core, or run tests/run." : null);
}
