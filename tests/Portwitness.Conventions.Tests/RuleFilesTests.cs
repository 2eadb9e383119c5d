using System.Text.RegularExpressions;
using Portwitness.Tests;

namespace Portwitness.Conventions.Tests;

/// <summary>What it takes to add a rule, as DEVELOPERS.md says it, held against one that was added so.</summary>
public partial class RuleFilesTests
{
    private static readonly string[] Endings = [".cs", ".md", ".proto", ".json", ".jsonl", ".yaml", ".txt", ".csproj", ".sh"];

    [Fact]
    public void Rule_IsItsClass_ALineOfTheCatalogue_ATest_AndGeneratedPages()
    {
        IEnumerable<string> naming = Files(Repository.PathOf())
            .Where(static file => OneRule().IsMatch(File.ReadAllText(file)))
            .Select(static file => Path.GetRelativePath(Repository.PathOf(), file).Replace('\\', '/'))
            .Where(static file => file != "tests/Portwitness.Conventions.Tests/RuleFilesTests.cs");

        naming.Should().BeEquivalentTo(
            "src/Portwitness.Analysis/Rules/Capabilities/PpsLimitsSwapped.cs",
            "src/Portwitness.Analysis/Catalogue/CaptureRules.cs",
            "tests/Portwitness.Analysis.Tests/Compliance/ListMutation.cs",

            // Written by tests: PORTWITNESS_REFRESH_DOCS=1 and UPDATE_GOLDEN=1.
            "src/Portwitness.Product/RULES.md",
            "tests/Portwitness.Testing/Golden/findings.txt");
    }

    private static IEnumerable<string> Files(string folder) => Directory.EnumerateFiles(folder)
        .Where(static file => Endings.Contains(Path.GetExtension(file)))
        .Concat(Directory.EnumerateDirectories(folder)
            .Where(static inner => Path.GetFileName(inner) is not ("bin" or "obj" or ".git" or "artifacts" or "TestResults")).SelectMany(Files));

    [GeneratedRegex("pps-limits-swapped|PpsLimitsSwapped")]
    private static partial Regex OneRule();
}
