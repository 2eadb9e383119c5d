using System.CommandLine;
using System.Diagnostics;
using Portwitness.Cli.Shell;

namespace Portwitness.Cli.Tests;

/// <summary>What installing needs: the unit, its files, the container's and the archive's recipe, the tool's package.</summary>
public sealed class InstallTests : IDisposable
{
    private readonly TemporaryFolder _folder = new();

    private static string PathOf(string file) => Repository.PathOf("src", "Portwitness.Cli", "Install", file);

    public void Dispose() => _folder.Dispose();

    [Fact]
    public void ExampleConfiguration_IsUnderstood_AlsoWhatIsCommentedOut()
    {
        string[] lines = File.ReadAllLines(PathOf("serve.conf"));
        string all = _folder.PathOf("all.conf");
        File.WriteAllLines(all, lines.Select(static line => line.StartsWith("# --", StringComparison.Ordinal) ? line[2..] : line));

        foreach (string file in new[] { PathOf("serve.conf"), all })
        {
            ParseResult parsed = CommandLine.Create(new Terminal { Input = Stream.Null, Output = TextWriter.Null, Error = TextWriter.Null }).Parse(["serve", "@" + file]);
            parsed.Errors.Should().BeEmpty();
            parsed.GetValue<string>("--store").Should().Be("/var/lib/portwitness/reports.db");
        }
    }

    [Fact]
    public void ExampleEnvironment_NamesWhatIsRead()
    {
        IEnumerable<string> named = File.ReadLines(PathOf("environment")).Where(static line => line.StartsWith('#') && line.Contains('=') && !line.StartsWith("# ", StringComparison.Ordinal))
            .Select(static line => line[1..line.IndexOf('=', StringComparison.Ordinal)]);

        named.Should().NotBeEmpty();
        EnvironmentVariables.All.Select(static one => one.Name).Should().Contain(named);
    }

    [NeedsDebianPackageFact("systemd", "/usr/bin/systemd-analyze")]
    public async Task Unit_IsRight_AndExposesLittle()
    {
        // The program has to be where the unit says, and need not be ours for that.
        string unit = _folder.PathOf("portwitness.service");
        await File.WriteAllTextAsync(unit, (await File.ReadAllTextAsync(PathOf("portwitness.service"))).Replace("/usr/local/bin/portwitness", "/bin/true", StringComparison.Ordinal));

        (int verified, string said) = await RunAsync("/usr/bin/systemd-analyze", "verify", "--recursive-errors=no", unit);
        (int secured, string exposed) = await RunAsync("/usr/bin/systemd-analyze", "security", "--offline=true", "--threshold=20", "--no-pager", unit);

        verified.Should().Be(0, said);
        secured.Should().Be(0, exposed);
    }

    [Fact]
    public void Containerfile_UsesWhatIsThere()
    {
        string[] lines = File.ReadAllLines(PathOf("Containerfile"));
        string arguments = lines.Single(static line => line.StartsWith("CMD ", StringComparison.Ordinal))["CMD ".Length..];

        CommandLine.Create(new Terminal { Input = Stream.Null, Output = TextWriter.Null, Error = TextWriter.Null })
            .Parse(System.Text.Json.JsonSerializer.Deserialize<string[]>(arguments)!).Errors.Should().BeEmpty();
        lines.Should().Contain(static line => line.StartsWith("USER ", StringComparison.Ordinal) && line != "USER root");
        lines.Where(static line => line.StartsWith("FROM ", StringComparison.Ordinal)).Should().OnlyContain(static line => line.StartsWith("FROM ${", StringComparison.Ordinal));
    }

    [Fact]
    public void Archive_HoldsFilesThatAreThere()
    {
        string script = File.ReadAllText(PathOf("archive.sh"));
        foreach (string word in script.Split([' ', '\n', '"'], StringSplitOptions.RemoveEmptyEntries).Where(static word => word.StartsWith("src/", StringComparison.Ordinal)))
        {
            Path.Exists(Repository.PathOf(word.Split('/'))).Should().BeTrue(word);
        }
    }

    [Fact]
    public async Task ToolPackage_InstallsAndChecksADemo()
    {
        // What the tests were built as was built for the tool, too.
        string configuration = AppContext.BaseDirectory.Contains("/Release/", StringComparison.Ordinal) ? "Release" : "Debug";
        (int packed, string said) = await RunAsync(
            "dotnet", "pack", Repository.PathOf("src", "Portwitness.Tool"), "--no-build", "-c", configuration, "-o", _folder.PathOf("packages"), "--nologo");
        packed.Should().Be(0, said);
        (int installed, said) = await RunAsync(
            "dotnet", "tool", "install", "Portwitness.Tool", "--tool-path", _folder.PathOf("tools"), "--source", _folder.PathOf("packages"), "--no-cache");
        installed.Should().Be(0, said);

        (int checkedCode, string report) = await RunAsync(_folder.PathOf("tools/portwitness"), "check", Repository.PathOf("captures", "broken-tp20"));

        checkedCode.Should().Be(ExitCode.Findings, report);
        report.Should().Contain("voltage-offered-twice");
    }

    private static async Task<(int ExitCode, string Said)> RunAsync(string program, params string[] args)
    {
        using Process process = Process.Start(new ProcessStartInfo(program, args) { RedirectStandardOutput = true, RedirectStandardError = true })!;
        Task<string> error = process.StandardError.ReadToEndAsync();
        string output = await process.StandardOutput.ReadToEndAsync();
        await process.WaitForExitAsync();
        return (process.ExitCode, output + await error);
    }
}
