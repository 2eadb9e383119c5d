using System.Collections.Immutable;
using Portwitness.Analysis.Findings;
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

    /// <summary>
    /// "messages", "capabilities", "requests", "sequence", "timing", "cables", "vbus", "line", "label", "arrangements",
    /// "signalling", "energy" or "parts".
    /// </summary>
    public required string Category { get; init; }
}

/// <summary>An input that breaks a rule.</summary>
/// <param name="Words">Power Data Objects as hexadecimal words, or a message's bytes.</param>
/// <param name="Says">What is wrong with it.</param>
/// <param name="Label">A label, for rules that compare with one.</param>
/// <param name="Edition">The edition to state, when the rule depends on it.</param>
/// <param name="IsMessage">Whether <paramref name="Words"/> are the bytes of a message.</param>
/// <param name="IsScript">Whether <paramref name="Words"/> are a script of "portwitness synthesize", whose capture is checked, with the label if there is one.</param>
/// <param name="ProductFile">Members of a product file, beside a capture of <paramref name="Words"/> at port C.</param>
/// <param name="Log">The log "log.csv" that it names.</param>
public sealed record RuleExample(
    string Words, string Says, string? Label = null, string? Edition = null, bool IsMessage = false, bool IsScript = false,
    string? ProductFile = null, string? Log = null);
