using System.Collections.Immutable;
using Portwitness.Analysis.Catalogue;
using Portwitness.Analysis.Evidence;
using Portwitness.Captures.Formats;
using Portwitness.PowerDelivery.Limits;
using Portwitness.PowerDelivery.Units;

namespace Portwitness.Analysis.Conversation;

/// <summary>What is known of a capture besides its bytes.</summary>
public sealed record CaptureOptions
{
    /// <summary>A name for reports; it is never opened.</summary>
    public required string File { get; init; }

    /// <summary>Edition that the source follows, as stated by the user; null when not stated.</summary>
    public Editions? Edition { get; init; }

    /// <summary>The port, when it is known from elsewhere; it overrides the capture's header.</summary>
    public string? Port { get; init; }

    /// <summary>How the bytes are read. Where it names no port, the one above is taken from a file of several.</summary>
    public CaptureReadOptions Reading { get; init; } = new();

    /// <summary>Ports in use in attach order, when known from elsewhere; overrides the capture's header.</summary>
    public ImmutableArray<string> Arrangement { get; init; } = [];

    /// <summary>Whether the port can share power with others.</summary>
    public PowerSharing Sharing { get; init; } = PowerSharing.Unknown;

    /// <summary>The cable is fixed to the product, as the product file states.</summary>
    public bool? CaptiveCable { get; init; }

    /// <summary>PD power printed for this port alone; null when none is.</summary>
    public Power? PrintedPdp { get; init; }

    /// <summary>The rules to apply.</summary>
    public RuleSet Rules { get; init; } = RuleSet.OfCaptures;

    /// <summary>Index of a message to explain bit by bit, counted from 1; null for none.</summary>
    public long? ExplainIndex { get; init; }

    /// <summary>Called for every message in order; null when no listing is wanted.</summary>
    public Action<MessageSummary>? OnMessage { get; init; }

    /// <summary>The name by which a port that the capture names is told: names that mean one port have one.</summary>
    public Func<string, string> PortName { get; init; } = static port => port;
}
