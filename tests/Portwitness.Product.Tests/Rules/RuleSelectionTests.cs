using System.Text;
using Portwitness.Analysis.Rules;
using Portwitness.Product.Catalogue;

namespace Portwitness.Product.Tests.Rules;

/// <summary>Leaving rules out, and applying some only.</summary>
public class RuleSelectionTests
{
    // The first object is 9 V (R3.2v1.1, 6.4.1.4), and the label prints 20 V that is not offered.
    private const string Words = "0x0002D12C";
    private const string Label = "C1: 9V⎓3A 20V⎓3A";

    public static TheoryData<string> Names() => [.. RuleCatalogue.Descriptions.Select(rule => rule.Name)];

    [Theory]
    [MemberData(nameof(Names))]
    public void Only_HasThatRule_AndWithout_AllOthers(string name)
    {
        RuleCatalogue.Select(new RuleSelection { Only = [name] }).Rules.Select(rule => rule.Description.Name).Should().Equal(name);
        RuleCatalogue.Select(new RuleSelection { Without = [name] }).Rules.Should().Equal(RuleCatalogue.All.Where(rule => rule.Description.Name != name));
    }

    [Fact]
    public void NoSelection_IsTheSetOfAll_MadeOnce() => RuleCatalogue.Select(new RuleSelection()).Should().BeSameAs(RuleCatalogue.Set);

    [Fact]
    public void Without_DropsThatRuleOnly()
    {
        string[] all = Run(RuleSelection.All);
        all.Should().Contain("first-object-not-vsafe5v").And.Contain("printed-rating-not-advertised");

        Run(new RuleSelection { Without = ["first-object-not-vsafe5v"] })
            .Should().BeEquivalentTo(all.Where(name => name != "first-object-not-vsafe5v"));
        Run(new RuleSelection { Without = ["printed-rating-not-advertised"] })
            .Should().BeEquivalentTo(all.Where(name => name != "printed-rating-not-advertised"));
    }

    [Fact]
    public void Only_KeepsThatRuleOnly()
    {
        Run(new RuleSelection { Only = ["printed-rating-not-advertised"] }).Distinct().Should().Equal("printed-rating-not-advertised");
        Run(new RuleSelection { Only = ["first-object-not-vsafe5v"], Without = ["first-object-not-vsafe5v"] }).Should().BeEmpty();
    }

    [Fact]
    public void NamesOfNoRule_AreTold() =>
        RuleCatalogue.UnknownNames(new RuleSelection { Only = ["first-object-not-vsafe5v", "a"], Without = ["b", "a"] }).Should().Equal("a", "b");

    private static string[] Run(RuleSelection rules)
    {
        ProductCheck check = ProductCheck.ForCapture("words", Label, "C1", null, RuleCatalogue.Select(rules));
        check.Open("words").Write(Encoding.UTF8.GetBytes(Words));
        check.Close();
        ProductAnalysis analysis = check.Complete();
        analysis.Rules.Should().BeSameAs(rules);
        return [.. analysis.Findings.Select(finding => finding.Rule)];
    }
}
