using System.Collections.Immutable;
using System.Diagnostics;

namespace Portwitness.Analysis.Rules;

/// <summary>What a rule is about.</summary>
public enum RuleCategory
{
    /// <summary>How messages are built, and what they hold.</summary>
    Messages,

    /// <summary>Capability lists, and what else a port says of itself.</summary>
    Capabilities,

    /// <summary>Requests and their answers.</summary>
    Requests,

    /// <summary>Which messages follow which.</summary>
    Sequence,

    /// <summary>Times.</summary>
    Timing,

    /// <summary>The cable.</summary>
    Cables,

    /// <summary>What was measured on VBUS.</summary>
    Vbus,

    /// <summary>How frames are sent on the CC line.</summary>
    Line,

    /// <summary>A label, alone or beside what was captured.</summary>
    Label,

    /// <summary>Several ports together.</summary>
    Arrangements,

    /// <summary>What ports answer to besides USB PD.</summary>
    Signalling,

    /// <summary>Measured energy.</summary>
    Energy,

    /// <summary>Parts on the VBUS side.</summary>
    Parts,
}

/// <summary>Names of categories, as users write and read them.</summary>
public static class RuleCategoryNames
{
    private static readonly ImmutableArray<RuleCategory> All = [.. Enum.GetValues<RuleCategory>()];

    /// <summary>The name, for example "capabilities".</summary>
    public static string ToText(this RuleCategory category) => category switch
    {
        RuleCategory.Messages => "messages",
        RuleCategory.Capabilities => "capabilities",
        RuleCategory.Requests => "requests",
        RuleCategory.Sequence => "sequence",
        RuleCategory.Timing => "timing",
        RuleCategory.Cables => "cables",
        RuleCategory.Vbus => "vbus",
        RuleCategory.Line => "line",
        RuleCategory.Label => "label",
        RuleCategory.Arrangements => "arrangements",
        RuleCategory.Signalling => "signalling",
        RuleCategory.Energy => "energy",
        RuleCategory.Parts => "parts",
        _ => throw new UnreachableException(),
    };

    /// <summary>The category of a name; null for none.</summary>
    public static RuleCategory? Parse(string name)
    {
        foreach (RuleCategory category in All)
        {
            if (category.ToText() == name)
            {
                return category;
            }
        }

        return null;
    }
}
