using System.Globalization;
using System.Text;
using Portwitness.Analysis.Evidence;
using Portwitness.Analysis.Rules;
using Portwitness.PowerDelivery.Limits;
using Portwitness.Product.Catalogue;
using Portwitness.Tests;

namespace Portwitness.Product.Tests.Rules;

/// <summary>src/Portwitness.Product/RULES.md is made here from the catalogue, and checked to be what stands there.</summary>
public class RulesPageTests
{
    private const string Refresh = "PORTWITNESS_REFRESH_DOCS";
    private static readonly string Page = Repository.PathOf("src", "Portwitness.Product", "RULES.md");

    [Fact]
    public void Page_IsWhatTheCatalogueSays()
    {
        string made = Make();
        if (Environment.GetEnvironmentVariable(Refresh) == "1")
        {
            File.WriteAllText(Page, made);
        }

        File.ReadAllText(Page).Should().Be(made, $"{Refresh}=1 dotnet test tests/Portwitness.Product.Tests writes it");
    }

    private static string Make()
    {
        StringBuilder page = new();
        page.Append(
            """
            # The rules

            Made from the catalogue by a test; do not edit. `portwitness rules` lists the same, `portwitness rules NAME` explains one.

            What a rule cannot settle is "cannot tell": a caution, whatever the rule's worst. A fact of the standard that no source
            confirms gives a caution at most. This is a pre-check, not a certification.


            """);
        page.Append(CultureInfo.InvariantCulture, $"{RuleCatalogue.All.Length} rules.\n\n| rule | worst | by | title |\n| --- | --- | --- | --- |\n");
        foreach (RuleDescription rule in RuleCatalogue.Descriptions)
        {
            page.Append(CultureInfo.InvariantCulture,
                $"| [{rule.Name}](#{rule.Name}) | {Word(rule.Severity)} | {Cell(rule.Clause)} | {Cell(rule.Title)} |\n");
        }

        foreach (RuleCategory category in RuleCatalogue.Categories)
        {
            page.Append(CultureInfo.InvariantCulture, $"\n## About {category.ToText()}\n");
            foreach (RuleDescription rule in RuleCatalogue.Descriptions.Where(rule => rule.Category == category))
            {
                Explain(page, rule);
            }
        }

        return page.ToString();
    }

    private static void Explain(StringBuilder page, RuleDescription rule)
    {
        page.Append(CultureInfo.InvariantCulture, $"\n### {rule.Name}\n\n{rule.Title}. Worst: {Word(rule.Severity)}. By {rule.Clause}.");
        page.Append(string.Concat(rule.EarlierClauses.Select(earlier => $" For {earlier.Editions.ToText()}: {earlier.Clause}.")));
        string editions = rule.Editions == Editions.All ? "every edition" : string.Join(", ", rule.Editions.Names());
        page.Append(CultureInfo.InvariantCulture, $" In {editions}.\n\n{rule.Why}\n");
        if (rule.Evidence.Length > 0)
        {
            page.Append(CultureInfo.InvariantCulture, $"\nNeeds: {rule.Evidence}\n");
        }

        page.Append(CultureInfo.InvariantCulture, $"\nExample: {rule.Example.Says}\n\n```\n{string.Join('\n', rule.Example.Lines.Select(static line => line.Trim()))}");
        page.Append("\n```\n");
    }

    private static string Word(Severity severity) => severity.ToString().ToLowerInvariant();

    private static string Cell(string text) => text.Replace("|", "\\|", StringComparison.Ordinal);
}
