using System.Collections;
using Microsoft.Playwright;

namespace Portwitness.Pages.Tests;

/// <summary>Debian's Chromium without a window, with the fonts of one package. Nothing but the page's own file may be loaded.</summary>
public sealed class Browser : IAsyncLifetime
{
    /// <summary>Where Debian's package chromium puts it.</summary>
    public const string Program = "/usr/bin/chromium";

    /// <summary>The packages that pages are tested with.</summary>
    public const string Packages = "chromium and fonts-dejavu-core";

    /// <summary>A font of Debian's package fonts-dejavu-core; Data/fonts.conf chooses it for every text.</summary>
    public const string Font = "/usr/share/fonts/truetype/dejavu/DejaVuSans.ttf";

    private IPlaywright? _driver;
    private IBrowser? _browser;

    /// <inheritdoc/>
    public async Task InitializeAsync()
    {
        if (!File.Exists(Program) || !File.Exists(Font))
        {
            return;
        }

        _driver = await Playwright.CreateAsync();
        _browser = await _driver.Chromium.LaunchAsync(new BrowserTypeLaunchOptions
        {
            ExecutablePath = Program,
            Env = new Dictionary<string, string>(Environment.GetEnvironmentVariables().Cast<DictionaryEntry>().ToDictionary(
                static one => (string)one.Key, static one => (string?)one.Value ?? ""))
            {
                ["FONTCONFIG_FILE"] = Path.Combine(AppContext.BaseDirectory, "Data", "fonts.conf"),
            },
            Args = ["--no-sandbox", "--disable-gpu", "--disable-quic", "--no-first-run", "--disable-background-networking", "--disable-component-update", "--disable-sync"],
        });
    }

    /// <summary>Opens a file, or an address of a test's own service.</summary>
    /// <returns>The page, what its console said, and what it asked for besides itself.</returns>
    public async Task<(IPage Page, List<string> Console, List<string> Requests)> OpenAsync(
        string file, int width = 1280, ColorScheme scheme = ColorScheme.Light, bool scripts = true)
    {
        IBrowserContext context = await _browser!.NewContextAsync(new BrowserNewContextOptions
        {
            ViewportSize = new ViewportSize { Width = width, Height = 900 },
            ColorScheme = scheme,
            JavaScriptEnabled = scripts,
            BypassCSP = false,
        });
        IPage page = await context.NewPageAsync();
        (List<string> said, List<string> asked) = ([], []);
        page.Console += (_, message) => said.Add(message.Text);
        page.PageError += (_, error) => said.Add(error);
        page.Request += (_, request) => asked.Add(request.Url);
        await page.GotoAsync(file.Contains("://", StringComparison.Ordinal) ? file : "file://" + file);
        return (page, said, asked);
    }

    /// <inheritdoc/>
    public async Task DisposeAsync()
    {
        if (_browser is not null)
        {
            await _browser.DisposeAsync();
        }

        _driver?.Dispose();
    }
}
