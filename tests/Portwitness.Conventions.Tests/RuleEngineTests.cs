using System.Text.RegularExpressions;
using Portwitness.Tests;

namespace Portwitness.Conventions.Tests;

/// <summary>Rules are run from a set: nothing else goes through the lists of rules, so that what a user leaves out never runs.</summary>
public partial class RuleEngineTests
{
    [Fact]
    public void OnlyTheSet_GoesThroughTheRulesOfTheCatalogue()
    {
        string analysis = Repository.PathOf("src", "Portwitness.Analysis", "Catalogue");
        string[] engine =
        [
            Path.Combine(analysis, "CaptureRules.cs"), Path.Combine(analysis, "RuleSet.cs"),
            Repository.PathOf("src", "Portwitness.Product", "Catalogue", "RuleCatalogue.cs"),
        ];

        Directory.EnumerateFiles(Repository.PathOf("src"), "*.cs", SearchOption.AllDirectories).Except(engine)
            .Where(static file => Asks().IsMatch(File.ReadAllText(file))).Should().BeEmpty();
        engine.Should().OnlyContain(static file => File.Exists(file));
    }

    // Besides the rules themselves they have what rules are called, what they say of themselves, and sets of them.
    [GeneratedRegex("RuleCatalogue\\.(?!Names\\b|Descriptions\\b|Categories\\b|Set\\b|Select\\b|UnknownNames\\b)|CaptureRules\\.(?!Descriptions\\b)")]
    private static partial Regex Asks();
}
