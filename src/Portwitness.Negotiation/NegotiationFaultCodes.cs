namespace Portwitness.Negotiation;

/// <summary>The words for what can be wrong with a negotiation's inputs; scripts may rely on them.</summary>
public static class NegotiationFaultCodes
{
    /// <summary>No description of a device: no YAML, or not of the kind that is expected.</summary>
    public const string SinkUnreadable = "sink-unreadable";

    /// <summary>A member that descriptions do not have.</summary>
    public const string MemberUnknown = "sink-member-unknown";

    /// <summary>A value that is none, is beyond its bounds, or contradicts another.</summary>
    public const string ValueWrong = "sink-value-wrong";

    /// <summary>The capture or label shows nothing that could be asked for.</summary>
    public const string NothingOffered = "nothing-offered";

    /// <summary>A printed rating that no object of USB PD expresses; the rest is used.</summary>
    public const string RatingUnused = "rating-unused";

    /// <summary>Words of a label that could not be read; they may offer more.</summary>
    public const string LabelUnread = "label-unread";
}
