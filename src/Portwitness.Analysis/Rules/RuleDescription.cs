using System.Collections.Immutable;
using Portwitness.Analysis.Evidence;
using Portwitness.PowerDelivery.Limits;

namespace Portwitness.Analysis.Rules;

/// <summary>What a rule is called and why it is there; the catalogue and the documentation come from it.</summary>
public sealed record RuleDescription
{
    /// <summary>Names the offence, in lower case with hyphens.</summary>
    public required string Name { get; init; }

    /// <summary>The worst that it can report.</summary>
    public required Severity Severity { get; init; }

    /// <summary>One line.</summary>
    public required string Title { get; init; }

    /// <summary>Edition and clause, or "printed label".</summary>
    public required string Clause { get; init; }

    /// <summary>Clauses of editions that have one of their own, where it is known; the others are judged by <see cref="Clause"/>.</summary>
    public ImmutableArray<(Editions Editions, string Clause)> EarlierClauses { get; init; } = [];

    /// <summary>The clause that binds a source of which these editions are open.</summary>
    public string ClauseFor(Editions open)
    {
        foreach ((Editions editions, string clause) in EarlierClauses)
        {
            if (open != Editions.None && (open & ~editions) == 0)
            {
                return clause;
            }
        }

        return Clause;
    }

    /// <summary>Why it matters to somebody who uses the product.</summary>
    public required string Why { get; init; }

    /// <summary>What a capture, a label or a statement must show before this rule can say more than "cannot tell".</summary>
    public required string Evidence { get; init; }

    /// <summary>Editions in which it can be broken.</summary>
    public Editions Editions { get; init; } = Editions.All;

    /// <summary>An input that breaks it; tests run it.</summary>
    public required RuleExample Example { get; init; }

    /// <summary>What it is about.</summary>
    public required RuleCategory Category { get; init; }
}
