using System.Text.RegularExpressions;
using Portwitness.Tests;

namespace Portwitness.Conventions.Tests;

/// <summary>What it takes to add a rule, a format or a column of findings, as DEVELOPERS.md says it, held against one that was added so.</summary>
public class AddedFilesTests
{
    private const string Self = "tests/Portwitness.Conventions.Tests/AddedFilesTests.cs";

    private static readonly string[] Endings = [".cs", ".md", ".proto", ".json", ".jsonl", ".yaml", ".txt", ".csproj", ".sh"];

    [Fact]
    public void Rule_IsItsClass_ALineOfTheCatalogue_ATest_AndGeneratedPages() => FilesThatName("pps-limits-swapped|PpsLimitsSwapped")
        .Should().BeEquivalentTo(
            "src/Portwitness.Analysis/Rules/Capabilities/PpsLimitsSwapped.cs",
            "src/Portwitness.Analysis/Catalogue/CaptureRules.cs",
            "tests/Portwitness.Analysis.Tests/Compliance/ListMutation.cs",

            // Written by tests: PORTWITNESS_REFRESH_DOCS=1 and UPDATE_GOLDEN=1.
            "src/Portwitness.Product/RULES.md",
            "tests/Portwitness.Testing/Golden/findings.txt");

    [Fact]
    public void Format_IsItsReader_TheTwoPlacesThatFindIt_AndATest() => FilesThatName("VcdReader|DetectedFormat\\.Vcd")
        .Should().BeEquivalentTo(
            "src/Portwitness.Captures/Waveforms/VcdReader.cs",
            "src/Portwitness.Captures/Formats/FormatDetector.cs",
            "src/Portwitness.Captures/Formats/DetectingInput.cs",
            "tests/Portwitness.Captures.Tests/Waveforms/VcdReaderTests.cs");

    [Fact]
    public void ColumnOfFindings_IsAMemberOfTheContract_ItsTranslation_AndAColumn() => FilesThatName("expected_values|ExpectedValues|expectedValues")
        .Where(static file => !file.StartsWith("tests/Portwitness.Cli.Tests/Golden/", StringComparison.Ordinal))
        .Should().BeEquivalentTo(
            "protos/portwitness/v1/finding.proto",
            "src/Portwitness.Service/Translation/FindingTranslation.cs",
            "src/Portwitness.Reports/Csv/FindingCsv.cs",
            "README.md");

    private static IEnumerable<string> FilesThatName(string pattern) => Files(Repository.PathOf())
        .Where(file => Regex.IsMatch(File.ReadAllText(file), pattern))
        .Select(static file => Path.GetRelativePath(Repository.PathOf(), file).Replace('\\', '/'))
        .Where(static file => file is not Self and not "DEVELOPERS.md");

    private static IEnumerable<string> Files(string folder) => Directory.EnumerateFiles(folder)
        .Where(static file => Endings.Contains(Path.GetExtension(file)))
        .Concat(Directory.EnumerateDirectories(folder)
            .Where(static inner => Path.GetFileName(inner) is not ("bin" or "obj" or ".git" or "artifacts" or "TestResults")).SelectMany(Files));
}
