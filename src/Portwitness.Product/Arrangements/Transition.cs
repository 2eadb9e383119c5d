using System.Collections.Immutable;
using Portwitness.Analysis.Measuring;

namespace Portwitness.Product.Arrangements;

/// <summary>What a port under contract went through when something was attached to another port, or detached from it.</summary>
public sealed record Transition
{
    /// <summary>The port that is looked at.</summary>
    public required string Port { get; init; }

    /// <summary>Its capture, whose clock the times are of.</summary>
    public required string File { get; init; }

    /// <summary>The other port.</summary>
    public required string Neighbour { get; init; }

    /// <summary>Attached, or detached.</summary>
    public required bool Attached { get; init; }

    /// <summary>When, in microseconds from the start of the capture.</summary>
    public required long AtUs { get; init; }

    /// <summary>The time may be off by so much, as two captures' clocks are compared.</summary>
    public required long UncertaintyUs { get; init; }

    /// <summary>How long the port was watched from then on, until the next change or the end of the capture.</summary>
    public required long WatchedUs { get; init; }

    /// <summary>Ports in use from then on.</summary>
    public required ImmutableArray<string> InUse { get; init; }

    /// <summary>Largest power offered before, in mW; null without a list.</summary>
    public required int? BeforeMilliwatts { get; init; }

    /// <summary>Largest power offered at the end of what was watched, in mW; null without a list.</summary>
    public required int? AfterMilliwatts { get; init; }

    /// <summary>The first list with another power; null when there was none.</summary>
    public required long? ListUs { get; init; }

    /// <summary>Index of that list's message.</summary>
    public required long? MessageIndex { get; init; }

    /// <summary>PS_RDY of the first contract that was asked for afterwards; null without one.</summary>
    public required long? ReadyUs { get; init; }

    /// <summary>The contract in force was granted again with the same terms, at times that are not kept.</summary>
    public required bool Renewed { get; init; }

    /// <summary>The Hard Reset that ended the contract; null when none did.</summary>
    public required long? HardResetUs { get; init; }

    /// <summary>VBUS left the contract; null when it did not, or was not measured.</summary>
    public required Interruption? Interruption { get; init; }

    /// <summary>Whether VBUS was measured.</summary>
    public required bool MeasuresVbus { get; init; }

    /// <summary>When the receiver found VBUS gone; null when it did not, or when the port itself was unplugged next.</summary>
    public required long? VbusOffUs { get; init; }

    /// <summary>When it found VBUS present again; null when it did not.</summary>
    public required long? VbusOnUs { get; init; }

    /// <summary>What the port gave was interrupted.</summary>
    public bool IsInterrupted => Interruption is not null || HardResetUs is not null || VbusOffUs is not null;

    /// <summary>A Hard Reset came before VBUS went: taking VBUS away is then what the source has to do (R3.2v1.1, 6.8.3).</summary>
    public bool IsAfterHardReset => Interruption?.AfterHardReset ?? (HardResetUs is { } reset && !(VbusOffUs < reset));
}
