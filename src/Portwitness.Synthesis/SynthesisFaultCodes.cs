namespace Portwitness.Synthesis;

/// <summary>The words for what can be wrong with a script; scripts of users may rely on them. captures/SYNTHESIS.md explains each.</summary>
public static class SynthesisFaultCodes
{
    /// <summary>No YAML, or not of the kind a script is.</summary>
    public const string Unreadable = "script-unreadable";

    /// <summary>A member that a script does not have, or that stands twice.</summary>
    public const string MemberUnknown = "script-member-unknown";

    /// <summary>A value of the wrong kind, or one that its field cannot hold.</summary>
    public const string ValueWrong = "script-value-wrong";

    /// <summary>A step that is not understood.</summary>
    public const string StepUnknown = "script-step-unknown";

    /// <summary>A step that cannot be taken where it stands.</summary>
    public const string StepImpossible = "script-step-impossible";

    /// <summary>More than one script may write.</summary>
    public const string TooLong = "script-too-long";
}
