using Portwitness.Analysis.Catalogue;
using Portwitness.Analysis.Findings;
using Portwitness.Analysis.Rules;
using Portwitness.Tests;

namespace Portwitness.Analysis.Tests.Rules;

/// <summary>Every capability rule against the lines of its fixture file (see Fixtures/README.md).</summary>
public class CapabilityRuleFixtureTests
{
    private static string Folder => Repository.PathOf("tests", "Portwitness.Analysis.Tests", "Fixtures");

    public static TheoryData<string, string, string, string> Lines()
    {
        TheoryData<string, string, string, string> data = [];
        foreach (string file in Directory.EnumerateFiles(Folder, "*.txt").Order(StringComparer.Ordinal))
        {
            foreach (string line in File.ReadAllLines(file))
            {
                string[] parts = line.Split('|', StringSplitOptions.TrimEntries);
                data.Add(Path.GetFileNameWithoutExtension(file), parts[0], parts[1], parts[2]);
            }
        }

        return data;
    }

    [Theory]
    [MemberData(nameof(Lines))]
    public void FixtureLine_IsJudgedAsExpected(string rule, string expected, string facts, string words)
    {
        IEnumerable<string> found = GoldenFindings.Check(RuleRun.Capabilities(facts, words))
            .Where(finding => finding.Rule == rule)
            .Select(Describe);

        string.Join(' ', found).Should().Be(expected == "clean" ? "" : expected);
    }

    [Fact]
    public void EveryCapabilityRule_HasFiringAndCleanLines()
    {
        foreach (CapabilityRule rule in RuleSet.OfCaptures.Capabilities)
        {
            string[] lines = File.ReadAllLines(Path.Combine(Folder, rule.Description.Name + ".txt"));
            lines.Should().Contain(line => line.StartsWith("clean", StringComparison.Ordinal), rule.Description.Name)
                .And.Contain(line => !line.StartsWith("clean", StringComparison.Ordinal), rule.Description.Name);
        }
    }

    [Fact]
    public void EveryFixtureFile_BelongsToARule()
    {
        IEnumerable<string> names = Directory.EnumerateFiles(Folder, "*.txt").Select(Path.GetFileNameWithoutExtension)!;
        names.Should().BeSubsetOf(CaptureRules.Descriptions.Select(description => description.Name));
    }

    private static string Describe(Finding finding) => finding.Severity.ToString().ToLowerInvariant()
        + (finding.ObjectPosition is { } position ? $"@{position}" : "");
}
