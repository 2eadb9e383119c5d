using System.Collections.Immutable;
using System.Text;
using System.Text.RegularExpressions;
using Portwitness.Analysis.Energy;
using Portwitness.Analysis.Findings;
using Portwitness.Analysis.Product;
using Portwitness.Analysis.Rules;
using Portwitness.PowerDelivery.Limits;
using Portwitness.Testing;

namespace Portwitness.Analysis.Tests.Rules;

/// <summary>The catalogue as a whole.</summary>
public partial class RuleCatalogueTests
{
    public static TheoryData<string> Names() => [.. RuleCatalogue.Descriptions.Select(rule => rule.Name)];

    [Fact]
    public void EveryRuleClass_IsListedOnce()
    {
        IEnumerable<Type> classes = typeof(Rule).Assembly.GetTypes()
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
        rule.Category.Should().BeOneOf(
            "messages", "capabilities", "requests", "sequence", "timing", "cables", "vbus", "line", "label", "arrangements", "signalling", "energy", "parts");
    }

    [Theory]
    [MemberData(nameof(Names))]
    public void Example_BreaksItsRule(string name)
    {
        RuleExample example = RuleCatalogue.Descriptions.Single(candidate => candidate.Name == name).Example;

        Told.Check(Run(example)).Should().Contain(finding => finding.Rule == name);
    }

    // One folder a category, one file a rule: where DEVELOPERS.md sends a newcomer.
    [Fact]
    public void EveryRule_HasAFileOfItsName()
    {
        foreach (Rule rule in RuleCatalogue.All)
        {
            string folder = rule.Description.Category == "label" ? "Labels"
                : char.ToUpperInvariant(rule.Description.Category[0]) + rule.Description.Category[1..];
            File.Exists(Portwitness.Tests.Repository.PathOf(
                "src", "Portwitness.Analysis", "Rules", folder, rule.GetType().Name + ".cs")).Should().BeTrue();
            rule.GetType().Name.Should().BeEquivalentTo(rule.Description.Name.Replace("-", "", StringComparison.Ordinal));
        }
    }

    private static ImmutableArray<Finding> Run(RuleExample example)
    {
        if (example.IsMessage)
        {
            CaptureAnalyzer analyzer = new(new CaptureOptions { File = "example" });
            analyzer.Write(Encoding.UTF8.GetBytes(
                $$"""
                {"capture":1}
                {"t":0,"sop":"SOP","hex":"{{example.Words}}","crc_ok":true}
                """));
            return analyzer.Complete().Findings;
        }

        Editions? edition = example.Edition is { } text && EditionNames.TryParse(text, out Editions parsed) ? parsed : null;
        if (example.ProductFile is { } members)
        {
            return RunProduct(example, members, edition);
        }

        ProductCheck check = ProductCheck.ForCapture("example", example.Label, null, edition);
        check.Open("example").Write(example.IsScript ? Synthesised.Bytes(example.Words) : Encoding.UTF8.GetBytes(example.Words));
        check.Close();
        return check.Complete().Findings;
    }

    private static ImmutableArray<Finding> RunProduct(RuleExample example, string members, Editions? edition)
    {
        ProductCheck check = ProductCheck.ForProduct("product.yaml", members.TrimEnd() + "\ncaptures:\n  - {file: example, port: C, in_use: [C]}\n", edition);
        check.Open("example").Write(Encoding.UTF8.GetBytes(example.Words));
        check.Close();
        foreach (ProductLog log in check.Logs)
        {
            log.File.Should().Be("log.csv");
            check.OpenLog().Write(Encoding.UTF8.GetBytes(example.Log!));
            check.CloseLog();
        }

        return check.Complete().Findings;
    }

    [GeneratedRegex("^[a-z0-9]+(-[a-z0-9]+)*$")]
    private static partial Regex PlainName();
}
