using System.Text.RegularExpressions;
using Portwitness.Analysis.Rules;
using Portwitness.PowerDelivery.Limits;
using Portwitness.Product.Catalogue;

namespace Portwitness.Product.Tests.Rules;

/// <summary>The catalogue as a whole.</summary>
public partial class RuleCatalogueTests
{
    public static TheoryData<string> Names() => [.. RuleCatalogue.Descriptions.Select(rule => rule.Name)];

    [Fact]
    public void EveryRuleClass_IsListedOnce()
    {
        IEnumerable<Type> classes = typeof(Rule).Assembly.GetTypes().Concat(typeof(RuleCatalogue).Assembly.GetTypes())
            .Where(type => type.IsSubclassOf(typeof(Rule)) && !type.IsAbstract);

        RuleCatalogue.All.Select(rule => rule.GetType()).Should().BeEquivalentTo(classes).And.OnlyHaveUniqueItems();
    }

    [Fact]
    public void Names_AreUniqueAndPlain()
    {
        RuleCatalogue.Descriptions.Select(rule => rule.Name).Should().OnlyHaveUniqueItems()
            .And.OnlyContain(name => PlainName().IsMatch(name));
    }

    [Theory]
    [MemberData(nameof(Names))]
    public void Description_IsComplete(string name)
    {
        RuleDescription rule = RuleCatalogue.Descriptions.Single(candidate => candidate.Name == name);
        rule.Title.Should().NotBeEmpty().And.NotEndWith(".");
        rule.Why.Should().EndWith(".").And.Match(why => why.Length > 60);
        rule.Clause.Should().MatchRegex("^(R[123]\\.[0-9]|printed label|common practice, no source)");
        rule.Evidence.Should().EndWith(".");
        rule.Example.Says.Should().EndWith(".");
        RuleCategoryNames.Parse(rule.Category.ToText()).Should().Be(rule.Category);
    }

    [Theory]
    [MemberData(nameof(Names))]
    public void Example_BreaksItsRule(string name)
    {
        RuleExample example = RuleCatalogue.Descriptions.Single(candidate => candidate.Name == name).Example;

        GoldenFindings.Check(ExampleRun.Of(example)).Should().Contain(finding => finding.Rule == name);
    }

    // One folder a category, one file a rule: where DEVELOPERS.md sends a newcomer.
    [Fact]
    public void EveryRule_HasAFileOfItsName()
    {
        foreach (Rule rule in RuleCatalogue.All)
        {
            string folder = rule.Description.Category == RuleCategory.Label ? "Labels" : $"{rule.Description.Category}";
            File.Exists(Portwitness.Tests.Repository.PathOf(
                "src", rule.GetType().Assembly.GetName().Name!, "Rules", folder, rule.GetType().Name + ".cs")).Should().BeTrue();
            rule.GetType().Name.Should().BeEquivalentTo(rule.Description.Name.Replace("-", "", StringComparison.Ordinal));
        }
    }

    [GeneratedRegex("^[a-z0-9]+(-[a-z0-9]+)*$")]
    private static partial Regex PlainName();
}
