using System.Collections.Immutable;
using Portwitness.Analysis.Evidence;
using Portwitness.Analysis.Phrases;
using Portwitness.Analysis.Rules;

namespace Portwitness.Analysis.Findings;

/// <summary>One disagreement, with its evidence. Whatever does not apply is null or empty.</summary>
public sealed record Finding
{
    /// <summary>The rule's name.</summary>
    public required string Rule { get; init; }

    /// <summary>How grave it is.</summary>
    public required Severity Severity { get; init; }

    /// <summary>The rule's title.</summary>
    public required string Title { get; init; }

    /// <summary>What was found here, in a sentence or two.</summary>
    public required Phrase Detail { get; init; }

    /// <summary>Edition and clause, or "printed label".</summary>
    public required string Clause { get; init; }

    /// <summary>The capture's or product file's name.</summary>
    public string File { get; init; } = "";

    /// <summary>The port.</summary>
    public string Port { get; init; } = "";

    /// <summary>Ports in use, in attach order.</summary>
    public ImmutableArray<string> Arrangement { get; init; } = [];

    /// <summary>Microseconds from the start of the capture.</summary>
    public long? TimeUs { get; init; }

    /// <summary>Counted from 1.</summary>
    public long? MessageIndex { get; init; }

    /// <summary>Counted from 1.</summary>
    public int? ObjectPosition { get; init; }

    /// <summary>Counted from 1.</summary>
    public int? LabelLine { get; init; }

    /// <summary>Which label that is, where a product has several; empty otherwise.</summary>
    public string Label { get; init; } = "";

    /// <summary>The label that it is held against; empty where only one is meant.</summary>
    public string OtherLabel { get; init; } = "";

    /// <summary>Line of that one, counted from 1.</summary>
    public int? OtherLabelLine { get; init; }

    /// <summary>Where in that line the printed words begin that it is about, counted from 1; null when it is about the line.</summary>
    public int? LabelColumn { get; init; }

    /// <summary>What would have been right.</summary>
    public Phrase Expected { get; init; } = Phrase.Empty;

    /// <summary>What was seen.</summary>
    public Phrase Observed { get; init; } = Phrase.Empty;

    /// <summary>What to capture or to state, where the evidence does not settle it.</summary>
    public Phrase NextStep { get; init; } = Phrase.Empty;

    /// <summary><see cref="Verdict.Fails"/> or <see cref="Verdict.CannotTell"/>; null for notes.</summary>
    public Verdict? Verdict { get; init; }

    /// <summary>How many more times the same was seen.</summary>
    public long Repeats { get; init; }

    /// <summary>Further places of the same offence; the first is that of the finding itself.</summary>
    public ImmutableArray<FindingPlace> FurtherPlaces { get; init; } = [];

    /// <summary>A finding without a place. What cannot be told is a caution, whatever the rule's severity.</summary>
    public static Finding From(RuleDescription rule, in Hit hit) => new()
    {
        Rule = rule.Name,
        Severity = hit.IsNote ? Severity.Note
            : hit.Verdict == Evidence.Verdict.CannotTell ? Severity.Caution
            : rule.Severity,
        Title = rule.Title,
        Detail = hit.Detail,
        Clause = hit.Clause ?? rule.Clause,
        ObjectPosition = hit.Position,
        LabelLine = hit.LabelLine,
        LabelColumn = hit.LabelColumn,
        Expected = hit.Expected ?? Phrase.Empty,
        Observed = hit.Observed ?? Phrase.Empty,
        NextStep = hit.NextStep ?? Phrase.Empty,
        Verdict = hit.IsNote ? null : hit.Verdict,
    };
}
