using System.Collections.Immutable;

namespace Portwitness.Analysis.Rules;

/// <summary>All rules.</summary>
public static class RuleCatalogue
{
    /// <summary>Descriptions in the order of the catalogue.</summary>
    public static ImmutableArray<RuleDescription> Descriptions { get; } = [];
}
