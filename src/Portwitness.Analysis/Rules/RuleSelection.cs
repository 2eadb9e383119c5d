using System.Collections.Immutable;

namespace Portwitness.Analysis.Rules;

/// <summary>Which rules are applied. What a user leaves out is shown with the result, so that it is no silent pass.</summary>
public sealed record RuleSelection
{
    /// <summary>Every rule.</summary>
    public static RuleSelection All { get; } = new();

    /// <summary>Names of the only rules to apply; empty for all.</summary>
    public ImmutableArray<string> Only { get; init; } = [];

    /// <summary>Names of rules to leave out.</summary>
    public ImmutableArray<string> Without { get; init; } = [];

    /// <summary>Whether nothing is left out.</summary>
    public bool IsAll => Only.IsEmpty && Without.IsEmpty;

    /// <summary>Whether a rule is applied.</summary>
    public bool Includes(RuleDescription rule) =>
        IsAll || ((Only.IsEmpty || Only.Contains(rule.Name)) && !Without.Contains(rule.Name));
}
