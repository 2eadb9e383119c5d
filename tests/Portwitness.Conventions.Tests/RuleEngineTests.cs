using System.Text.RegularExpressions;
using Portwitness.Tests;

namespace Portwitness.Conventions.Tests;

/// <summary>Rules are run from a set: nothing else goes through the catalogue, so that what a user leaves out never runs.</summary>
public partial class RuleEngineTests
{
    [Fact]
    public void OnlyTheSet_GoesThroughTheRulesOfTheCatalogue()
    {
        string rules = Repository.PathOf("src", "Portwitness.Analysis", "Rules");
        string[] engine = [Path.Combine(rules, "RuleCatalogue.cs"), Path.Combine(rules, "RuleSet.cs")];

        Directory.EnumerateFiles(Repository.PathOf("src"), "*.cs", SearchOption.AllDirectories).Except(engine)
            .Where(static file => Asks().IsMatch(File.ReadAllText(file))).Should().BeEmpty();
        engine.Should().OnlyContain(static file => File.Exists(file));
    }

    // What is asked of the catalogue besides: what rules are called, and what they say of themselves.
    [GeneratedRegex("RuleCatalogue\\.(?!Names\\b|Descriptions\\b|Categories\\b)")]
    private static partial Regex Asks();
}
