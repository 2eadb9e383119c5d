using System.Text;
using Portwitness.Analysis.Product;
using Portwitness.Analysis.Rules;

namespace Portwitness.Analysis.Tests.Rules;

/// <summary>Leaving rules out, and applying some only.</summary>
public class RuleSelectionTests
{
    // The first object is 9 V (R3.2v1.1, 6.4.1.4), and the label prints 20 V that is not offered.
    private const string Words = "0x0002D12C";
    private const string Label = "C1: 9V⎓3A 20V⎓3A";

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
        new RuleSelection { Only = ["first-object-not-vsafe5v", "a"], Without = ["b", "a"] }.UnknownNames.Should().Equal("a", "b");

    private static string[] Run(RuleSelection rules)
    {
        ProductCheck check = ProductCheck.ForCapture("words", Label, "C1", null, RuleSet.For(rules));
        check.Open("words").Write(Encoding.UTF8.GetBytes(Words));
        check.Close();
        ProductAnalysis analysis = check.Complete();
        analysis.Rules.Should().BeSameAs(rules);
        return [.. analysis.Findings.Select(finding => finding.Rule)];
    }
}
