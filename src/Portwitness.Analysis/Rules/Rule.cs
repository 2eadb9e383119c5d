using Portwitness.Analysis.Evidence;
using Portwitness.Analysis.Phrases;
using Portwitness.Analysis.Profile;
using Portwitness.Following.Links;

namespace Portwitness.Analysis.Rules;

/// <summary>One thing that can be wrong. One rule is one sealed class in one file.</summary>
public abstract class Rule
{
    /// <summary>Name, clause, why and example.</summary>
    public abstract RuleDescription Description { get; }
}

/// <summary>A rule about one capability list.</summary>
public abstract class CapabilityRule : Rule
{
    /// <summary>Looks at a list and reports what breaks this rule.</summary>
    public abstract void Check(in ListCase list, IHitSink hits);
}

/// <summary>A rule about how a message is built, whatever it says.</summary>
public abstract class MessageRule : Rule
{
    /// <summary>Looks at a message and reports what breaks this rule.</summary>
    public abstract void Check(in HeardMessage message, IHitSink hits);
}

/// <summary>A rule about what a port says in several messages of a capture.</summary>
public abstract class PortRule : Rule
{
    /// <summary>Looks at what was said and reports what breaks this rule.</summary>
    public abstract void Check(PortStatements port, IPlacedHitSink hits);
}

/// <summary>What a rule found: the case, without the place, which whoever runs the rule knows.</summary>
/// <param name="Verdict">
/// <see cref="Verdict.Fails"/> when the evidence settles it; <see cref="Verdict.CannotTell"/> when it does not, which
/// makes the finding a caution whatever the rule's severity.
/// </param>
/// <param name="Detail">A sentence or two.</param>
public readonly record struct Hit(Verdict Verdict, Phrase Detail)
{
    /// <summary>Position of the object, counted from 1.</summary>
    public int? Position { get; init; }

    /// <summary>What would have been right.</summary>
    public Phrase? Expected { get; init; }

    /// <summary>What was seen.</summary>
    public Phrase? Observed { get; init; }

    /// <summary>The clause of the edition at hand; null for that of the rule's description.</summary>
    public string? Clause { get; init; }

    /// <summary>What would settle it.</summary>
    public Phrase? NextStep { get; init; }

    /// <summary>Line of the label, counted from 1.</summary>
    public int? LabelLine { get; init; }

    /// <summary>Where in that line the printed words begin that it is about, counted from 1; null when it is about the line.</summary>
    public int? LabelColumn { get; init; }

    /// <summary>Worth knowing, but no fault: the finding is a note and has no verdict.</summary>
    public bool IsNote { get; init; }
}

/// <summary>Takes what rules over several messages find.</summary>
public interface IPlacedHitSink
{
    /// <summary>Takes one case, with the place that it is about.</summary>
    void Report(Rule rule, in Hit hit, in StatementPlace place);
}

/// <summary>Takes what rules find.</summary>
public interface IHitSink
{
    /// <summary>Takes one case.</summary>
    void Report(Rule rule, in Hit hit);
}
