using System.Collections.Immutable;
using Portwitness.Analysis.Phrases;
using Portwitness.Analysis.Profile;
using Portwitness.Following.Contracts;

namespace Portwitness.Product.Arrangements;

/// <summary>With what a period of a piece began.</summary>
public enum PieceStart
{
    /// <summary>With the capture, or the first list in it.</summary>
    Capture,

    /// <summary>With a list that differs from the one before.</summary>
    List,

    /// <summary>Something was attached to a port.</summary>
    Attach,

    /// <summary>Something was detached from a port.</summary>
    Detach,
}

/// <summary>A stretch of time in which arrangement and offer stayed as they were.</summary>
/// <param name="FromUs">Microseconds from the start of the capture.</param>
/// <param name="UntilUs">When the next one began, the port was unplugged, or the capture ended.</param>
/// <param name="Start">With what it began.</param>
/// <param name="Port">The port of an attach or a detach; otherwise empty.</param>
public sealed record PiecePeriod(long FromUs, long UntilUs, PieceStart Start, string Port)
{
    /// <summary>What came before the list that it began with and may say why: "1.2 s after an Alert (OTP Event) in message 12"; empty for none.</summary>
    public Phrase After { get; init; } = Phrase.Empty;
}

/// <summary>
/// What a port did while it offered one list under one arrangement: the list, the requests that were made from it, and what was
/// measured under that arrangement.
/// </summary>
public sealed record CapturePiece
{
    /// <summary>Ports in use, in attach order; empty when not known.</summary>
    public required ImmutableArray<string> InUse { get; init; }

    /// <summary>Whether the order is that in which they were attached.</summary>
    public required bool OrderKnown { get; init; }

    /// <summary>The list; null when none was seen.</summary>
    public required Advertisement? Offered { get; init; }

    /// <summary>When it was so, in order.</summary>
    public required ImmutableArray<PiecePeriod> Periods { get; init; }

    /// <summary>
    /// Requests made from the list, and the contract that was in force when a neighbour came or went; each with what was measured
    /// under this arrangement.
    /// </summary>
    public required ImmutableArray<ContractAttempt> Contracts { get; init; }
}
