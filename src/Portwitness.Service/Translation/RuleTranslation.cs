using Portwitness.Analysis.Evidence;
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
        Example = string.Join('\n', rule.Example.Lines.Append(rule.Example.Says)),
        Category = rule.Category.ToText(),
        Evidence = rule.Evidence,
        Editions = { rule.Editions.Names() },
    };

    /// <summary>The selection, or null when every rule was applied.</summary>
    public static Wire.RuleSelection? ToContract(this RuleSelection rules) =>
        rules.IsAll ? null : new() { Only = { rules.Only }, Without = { rules.Without } };
}
