using Portwitness.Analysis.PdpRules;
using Portwitness.PowerDelivery.Headers;
using Portwitness.PowerDelivery.Messages;

namespace Portwitness.Analysis.Profile;

/// <summary>One capability list and what is known around it: what capability rules look at.</summary>
public readonly ref struct CapabilityList
{
    /// <summary>Which list.</summary>
    public required MessageKind Message { get; init; }

    /// <summary>The message's header; bits that were not shown are 0.</summary>
    public required MessageHeader Header { get; init; }

    /// <summary>One bit for each bit of the header that was shown.</summary>
    public required ushort HeaderKnown { get; init; }

    /// <summary>The objects in order.</summary>
    public required ReadOnlySpan<OfferedObject> Objects { get; init; }

    /// <summary>What is known of the sender.</summary>
    public required SourceEvidence Evidence { get; init; }

    /// <summary>How the list agrees with the power rules; without breaches for sinks and EPR lists.</summary>
    public PowerFit Power { get; init; }

    /// <summary>Sent by a source.</summary>
    public bool IsSource => IsOfSource(Message);

    /// <summary>One of the EPR lists, whose positions 1 to 7 are the SPR objects, zero-filled (R3.2v1.1, 6.5.15.1).</summary>
    public bool IsEpr => Message.Class == MessageClass.Extended;

    /// <summary>Whether a message is a capability list.</summary>
    public static bool Is(MessageKind kind) =>
        IsOfSource(kind) || kind == MessageKind.SinkCapabilities || kind == MessageKind.EPRSinkCapabilities;

    /// <summary>Whether a message is a source's list.</summary>
    public static bool IsOfSource(MessageKind kind) =>
        kind == MessageKind.SourceCapabilities || kind == MessageKind.EPRSourceCapabilities;
}
