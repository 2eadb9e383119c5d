using System.CommandLine;
using System.Text;
using System.Text.RegularExpressions;
using Portwitness.Cli.Shell;

namespace Portwitness.Cli.Tests;

/// <summary>CONFIGURATION.md says what the options say. PORTWITNESS_REFRESH_DOCS=1 writes it again.</summary>
public sealed partial class ConfigurationTests
{
    private static string Page => Repository.PathOf("src", "Portwitness.Cli", "CONFIGURATION.md");

    [Fact]
    public void Page_IsWhatTheOptionsSay()
    {
        string expected = Write();
        if (Environment.GetEnvironmentVariable("PORTWITNESS_REFRESH_DOCS") == "1")
        {
            File.WriteAllText(Page, expected);
        }

        File.ReadAllText(Page).Should().Be(expected);
    }

    [Fact]
    public void EveryVariableOfTheSource_IsOnThePage()
    {
        IEnumerable<string> used = Directory.EnumerateFiles(Repository.PathOf("src", "Portwitness.Cli"), "*.cs", SearchOption.AllDirectories)
            .Where(static file => !file.Contains("/obj/", StringComparison.Ordinal)).SelectMany(static file => Variable().Matches(File.ReadAllText(file)).Select(static match => match.Value)).Distinct();

        EnvironmentVariables.All.Select(static one => one.Name).Should().Contain(used);
    }

    private static string Write()
    {
        StringBuilder page = new(
            """
            # Configuration of the service

            Written from the options of `portwitness serve`; a test holds it to them. `portwitness serve @FILE` reads options from a file,
            one word a line or several, with `#` before comments. What may hold a secret is taken from the environment.


            """);
        Command serve = CommandLine.Create(Nowhere).Subcommands.Single(static command => command.Name == "serve");
        page.Append("| option | value | default | meaning |\n|---|---|---|---|\n");
        foreach (Option option in serve.Options.Where(static option => option.Name is not ("--help" or "--version")))
        {
            string usual = option.Name == "--workers" ? "processors" : option.HasDefaultValue && option.GetDefaultValue() is { } value and not false ? Text(value) : "";
            page.Append(System.Globalization.CultureInfo.InvariantCulture, $"| `{option.Name}` | {Cell(option.HelpName ?? "")} | {usual} | {Cell(option.Description ?? "")} |\n");
        }

        page.Append("\n## Environment\n\n| variable | of | meaning |\n|---|---|---|\n");
        foreach ((string name, string of, string meaning) in EnvironmentVariables.All)
        {
            page.Append(System.Globalization.CultureInfo.InvariantCulture, $"| `{name}` | {of} | {meaning} |\n");
        }

        page.Append("\nThe program `portwitness-server` takes all of this, and `--http ADDRESS` (default `http://127.0.0.1:8080`): where HTTP/1.1 is spoken.\n");
        return page.ToString();
    }

    private static Terminal Nowhere => new() { Input = Stream.Null, Output = TextWriter.Null, Error = TextWriter.Null };

    private static string Text(object value) => value is string[] several ? string.Join(' ', several.Select(static one => $"`{one}`")) : $"`{value}`";

    private static string Cell(string text) => text.Replace("\n", " ", StringComparison.Ordinal).Replace("|", "\\|", StringComparison.Ordinal);

    [GeneratedRegex("PORTWITNESS_[A-Z_]+[A-Z]|OTEL_[A-Z_]+[A-Z]")]
    private static partial Regex Variable();
}
