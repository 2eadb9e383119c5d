using System.Diagnostics;
using Portwitness.Tests;

namespace Portwitness.Conventions.Tests;

/// <summary>Every command of the README runs, and the report that it explains is the one that is printed.</summary>
public class ReadmeTests
{
    private static readonly string[] Lines = File.ReadAllLines(Repository.PathOf("README.md"));

    private static string First => Lines.First(line => line.StartsWith("dotnet run", StringComparison.Ordinal));

    /// <summary>Lines of the README's shell blocks.</summary>
    public static TheoryData<string> Commands()
    {
        TheoryData<string> commands = [];
        bool inside = false;
        foreach (string line in Lines)
        {
            if (line.StartsWith("```", StringComparison.Ordinal))
            {
                inside = line == "```sh";
            }
            else if (inside && line != "tests/run")
            {
                commands.Add(line);
            }
        }

        return commands;
    }

    // tests/run is what runs this test.
    [Theory]
    [MemberData(nameof(Commands))]
    public async Task Command_Runs(string command)
    {
        (int exitCode, _, string error) = await RunAsync(command);

        exitCode.Should().BeInRange(0, 1, error);
        error.Should().NotContain("portwitness:");
    }

    [Fact]
    public async Task ExplainedFinding_IsPrintedByTheFirstCommand()
    {
        int start = Array.IndexOf(Lines, "## A finding, explained") + 3;
        string finding = string.Join('\n', Lines.Skip(start).TakeWhile(line => line != "```"));

        (int exitCode, string output, _) = await RunAsync(First);

        exitCode.Should().Be(1);
        output.Should().Contain(finding);
    }

    [Fact]
    public void ShownProductFile_IsTheDemoOne()
    {
        string demo = File.ReadAllText(Repository.PathOf("captures", "clean-th65", "product.yaml"));
        IEnumerable<string> captures = Lines.Where(line => line.StartsWith("  - {file:", StringComparison.Ordinal));
        captures.Should().HaveCount(4).And.OnlyContain(line => demo.Contains(line, StringComparison.Ordinal));
    }

    // The program beside this test is the one that "dotnet run" would start.
    private static async Task<(int ExitCode, string Output, string Error)> RunAsync(string command)
    {
        string arguments = command
            .Replace("dotnet run --project src/Portwitness.Cli -- ", "", StringComparison.Ordinal)
            .Replace("portwitness ", "", StringComparison.Ordinal);
        using Process process = Process.Start(new ProcessStartInfo("dotnet")
        {
            Arguments = $"\"{Path.Combine(AppContext.BaseDirectory, "portwitness.dll")}\" {arguments}",
            WorkingDirectory = Repository.Root,
            RedirectStandardOutput = true,
            RedirectStandardError = true,
        })!;
        Task<string> output = process.StandardOutput.ReadToEndAsync();
        Task<string> error = process.StandardError.ReadToEndAsync();
        await process.WaitForExitAsync();
        return (process.ExitCode, await output, await error);
    }
}
