using System.Collections.Immutable;
using Portwitness.Analysis.Rules.Arrangements;
using Portwitness.Analysis.Rules.Energy;
using Portwitness.Analysis.Rules.Labels;
using Portwitness.Analysis.Rules.Messages;
using Portwitness.Analysis.Rules.Parts;
using Portwitness.Analysis.Rules.Requests;
using Portwitness.Analysis.Rules.Sequence;
using Portwitness.Analysis.Rules.Timing;

namespace Portwitness.Analysis.Rules;

/// <summary>
/// The rules that are applied, by what they look at. Whoever follows a capture or judges a product has the rules of one of these lists look
/// at what it has: a rule that is left out is never called.
/// </summary>
public sealed class RuleSet
{
    private RuleSet(RuleSelection selection, IEnumerable<Rule> rules)
    {
        ImmutableArray<Rule> selected = [.. rules];
        (Selection, Rules) = (selection, selected);
        Messages = Of<MessageRule>();
        Contents = Of<ContentRule>();
        Capabilities = Of<CapabilityRule>();
        Ports = Of<PortRule>();
        Requests = Of<RequestRule>();
        Sequence = new SequenceRules(Of<SequenceRule>());
        Timing = new TimingRules(Of<TimingRule>());
        Cables = Of<CableRule>();
        VbusSegments = Of<VbusSegmentRule>();
        VbusRemovals = Of<VbusRemovalRule>();
        VbusBeforeAttach = Of<VbusBeforeAttachRule>();
        Status = Of<StatusRule>();
        Line = Of<LineRule>();
        AgainstLabel = Of<LabelRule>();
        Arrangements = Of<ArrangementRule>();
        Printed = Of<PrintedRule>();
        Battery = Of<BatteryRule>();
        Energy = Of<EnergyRule>();
        Parts = Of<PartRule>();

        ImmutableArray<T> Of<T>()
            where T : Rule => [.. selected.OfType<T>()];
    }

    /// <summary>Every rule of the catalogue.</summary>
    public static RuleSet All { get; } = new(RuleSelection.All, RuleCatalogue.All);

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

    /// <summary>Those that hold a label against what was captured.</summary>
    public ImmutableArray<LabelRule> AgainstLabel { get; }

    /// <summary>Those about several ports together.</summary>
    public ImmutableArray<ArrangementRule> Arrangements { get; }

    /// <summary>Those about a label on its own.</summary>
    public ImmutableArray<PrintedRule> Printed { get; }

    /// <summary>Those about printed battery figures and stated cells.</summary>
    public ImmutableArray<BatteryRule> Battery { get; }

    /// <summary>Those about what was measured of a product's energy.</summary>
    public ImmutableArray<EnergyRule> Energy { get; }

    /// <summary>Those about parts on the VBUS side.</summary>
    public ImmutableArray<PartRule> Parts { get; }

    /// <summary>Those about what a message holds.</summary>
    internal ImmutableArray<ContentRule> Contents { get; }

    /// <summary>Those about which messages follow which.</summary>
    internal SequenceRules Sequence { get; }

    /// <summary>Those about times.</summary>
    internal TimingRules Timing { get; }

    /// <summary>The rules of the catalogue that a selection names.</summary>
    public static RuleSet For(RuleSelection selection) =>
        selection.IsAll ? All : new(selection, RuleCatalogue.All.Where(rule => selection.Includes(rule.Description)));

    /// <summary>These and no others.</summary>
    public static RuleSet Of(params ImmutableArray<Rule> rules) =>
        new(new RuleSelection { Only = [.. rules.Select(static rule => rule.Description.Name)] }, rules);
}
