using System.Collections.Immutable;
using Portwitness.Analysis.Evidence;

namespace Portwitness.Analysis.Rules.Timing;

/// <summary>
/// A rule about a family of times. The followers of a capture measure; <see cref="Conversation.TimingChecks"/> holds what they
/// measure against the rows of <see cref="PowerDelivery.Limits.TimingLimits"/>.
/// </summary>
internal abstract class TimingRule : Rule
{
    /// <summary>What the times of a capture must be good for.</summary>
    protected const string StampsNeeded =
        "Times of an instrument that are fine enough for the limit; say in the header what they name (\"time_of\") and in which "
        + "steps they come (\"resolution_us\"). Times of a log are those of software.";

    /// <summary>The parameters, by their names in the table.</summary>
    public abstract ImmutableArray<string> Parameters { get; }

    /// <summary>The description of a rule of this category.</summary>
    protected static RuleDescription Describe(
        string name, string title, string clause, string why, RuleExample example, Severity severity = Severity.Violation) => new()
    {
        Name = name, Severity = severity, Title = title, Clause = clause, Why = why, Evidence = StampsNeeded,
        Example = example, Category = RuleCategory.Timing,
    };
}
