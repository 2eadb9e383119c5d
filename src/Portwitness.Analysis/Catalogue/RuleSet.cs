using System.Collections.Immutable;
using Portwitness.Analysis.Rules;
using Portwitness.Analysis.Rules.Messages;
using Portwitness.Analysis.Rules.Requests;
using Portwitness.Analysis.Rules.Sequence;
using Portwitness.Analysis.Rules.Timing;

namespace Portwitness.Analysis.Catalogue;

/// <summary>
/// The rules that are applied, by what they look at. Whoever follows a capture or judges a product has the rules of one of these lists look
/// at what it has: a rule that is left out is never called.
/// </summary>
public sealed class RuleSet
{
    /// <summary>A set of rules.</summary>
    /// <param name="selection">What the user asked for.</param>
    /// <param name="rules">The rules that it names.</param>
    public RuleSet(RuleSelection selection, IEnumerable<Rule> rules)
    {
        (Selection, Rules) = (selection, [.. rules]);
        Messages = OfType<MessageRule>();
        Contents = OfType<ContentRule>();
        Capabilities = OfType<CapabilityRule>();
        Ports = OfType<PortRule>();
        Requests = OfType<RequestRule>();
        Sequence = new SequenceRules(OfType<SequenceRule>());
        Timing = new TimingRules(OfType<TimingRule>());
        Cables = OfType<CableRule>();
        VbusSegments = OfType<VbusSegmentRule>();
        VbusRemovals = OfType<VbusRemovalRule>();
        VbusBeforeAttach = OfType<VbusBeforeAttachRule>();
        Status = OfType<StatusRule>();
        Line = OfType<LineRule>();
    }

    /// <summary>Every rule about a capture.</summary>
    public static RuleSet OfCaptures { get; } = new(RuleSelection.All, CaptureRules.All);

    /// <summary>What the user asked for.</summary>
    public RuleSelection Selection { get; }

    /// <summary>All of them, in the order of the catalogue.</summary>
    public ImmutableArray<Rule> Rules { get; }

    /// <summary>Those about how a message is built.</summary>
    public ImmutableArray<MessageRule> Messages { get; }

    /// <summary>Those about one capability list.</summary>
    public ImmutableArray<CapabilityRule> Capabilities { get; }

    /// <summary>Those about what a port says in several messages.</summary>
    public ImmutableArray<PortRule> Ports { get; }

    /// <summary>Those about requests and their answers.</summary>
    public ImmutableArray<RequestRule> Requests { get; }

    /// <summary>Those about the cable.</summary>
    public ImmutableArray<CableRule> Cables { get; }

    /// <summary>Those about VBUS under one contract.</summary>
    public ImmutableArray<VbusSegmentRule> VbusSegments { get; }

    /// <summary>Those about VBUS after a Hard Reset or a detach.</summary>
    public ImmutableArray<VbusRemovalRule> VbusRemovals { get; }

    /// <summary>Those about VBUS while nothing is attached.</summary>
    public ImmutableArray<VbusBeforeAttachRule> VbusBeforeAttach { get; }

    /// <summary>Those about what a source says of its output.</summary>
    public ImmutableArray<StatusRule> Status { get; }

    /// <summary>Those about how frames are sent on the line.</summary>
    public ImmutableArray<LineRule> Line { get; }

    /// <summary>Those about what a message holds.</summary>
    internal ImmutableArray<ContentRule> Contents { get; }

    /// <summary>Those about which messages follow which.</summary>
    internal SequenceRules Sequence { get; }

    /// <summary>Those about times.</summary>
    internal TimingRules Timing { get; }

    /// <summary>The rules of one kind, in the order of the catalogue.</summary>
    public ImmutableArray<T> OfType<T>()
        where T : Rule => [.. Rules.OfType<T>()];

    /// <summary>These and no others.</summary>
    public static RuleSet Of(params ImmutableArray<Rule> rules) =>
        new(new RuleSelection { Only = [.. rules.Select(static rule => rule.Description.Name)] }, rules);
}
