using Portwitness.Analysis.Rules;
using Portwitness.PowerDelivery.Limits;
using Wire = Portwitness.Contracts.V1;

namespace Portwitness.Service.Translation;

/// <summary>The rule catalogue.</summary>
internal static class RuleTranslation
{
    public static Wire.RuleDescription ToContract(this RuleDescription rule) => new()
    {
        Name = rule.Name,
        Severity = rule.Severity.ToContract(),
        Title = rule.Title,
        Clause = rule.Clause,
        Why = rule.Why,
        Example = Example(rule.Example),
        Category = rule.Category,
        Evidence = rule.Evidence,
        Editions = { rule.Editions.Names() },
    };

    /// <summary>The selection, or null when every rule was applied.</summary>
    public static Wire.RuleSelection? ToContract(this RuleSelection rules) =>
        rules.IsAll ? null : new() { Only = { rules.Only }, Without = { rules.Without } };

    private static string Example(RuleExample example)
    {
        List<string> lines = [];
        if (example.Words.Length > 0)
        {
            lines.Add(example.Words);
        }

        if (example.Label is { } label)
        {
            lines.Add($"label: {label}");
        }

        if (example.Edition is { } edition)
        {
            lines.Add($"edition: {edition}");
        }

        if (example.ProductFile is { } members)
        {
            lines.Add(members.TrimEnd());
        }

        if (example.Log is { } log)
        {
            lines.Add("log.csv:");
            lines.Add(log.TrimEnd());
        }

        lines.Add(example.Says);
        return string.Join('\n', lines);
    }
}
