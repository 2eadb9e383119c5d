using System.Collections.Immutable;
using Portwitness.Analysis.Evidence;
using Portwitness.Analysis.Rules;
using Portwitness.Following.Links;
using Portwitness.PowerDelivery.Framing;
using Portwitness.PowerDelivery.Limits;

namespace Portwitness.Analysis.Exchanges;

/// <summary>
/// Something that breaks a rule unless the capture misses something. It is settled when the capture has ended and the
/// edition, the port and the messages around it are known.
/// </summary>
internal sealed class Suspicion
{
    /// <summary>The rule.</summary>
    public required Rule Rule { get; init; }

    /// <summary>What to say; the verdict is settled later.</summary>
    public required Hit Hit { get; init; }

    /// <summary>Who did it.</summary>
    public required Party Party { get; init; }

    /// <summary>When.</summary>
    public required long TimeUs { get; init; }

    /// <summary>Where what it rests on begins: a message that the capture misses since then may explain it. Microseconds.</summary>
    public long FromUs { get => Math.Min(field, TimeUs); set; } = long.MaxValue;

    /// <summary>Where what it rests on ends. Microseconds.</summary>
    public long UntilUs { get => Math.Max(field, TimeUs); set; } = long.MinValue;

    /// <summary>At which message.</summary>
    public required long MessageIndex { get; init; }

    /// <summary>Editions in which it is wrong.</summary>
    public Editions WrongUnder { get; init; } = Editions.All;

    /// <summary>Whether what was seen proves it, provided that the capture is complete here.</summary>
    public bool IsProven { get; set; } = true;

    /// <summary>Whether what was seen is wrong whatever the capture misses.</summary>
    public bool ShowsItself { get; init; }

    /// <summary>
    /// A link whose next message must go on without a gap before this is proven: it shows that nothing was said that the
    /// capture misses.
    /// </summary>
    public (SopKind Sop, bool FromSourceOrPlug)? Awaits { get; set; }

    /// <summary>What the port's facts make of it; null when the editions decide alone.</summary>
    public Func<SourceEvidence, Verdict?>? Settle { get; init; }

    /// <summary>Whether attempts that the capture misses may explain it; their senders then were on time.</summary>
    public Func<bool>? MayBeLostAttempts { get; init; }

    /// <summary>Whether it is left out, rather than told as open, when it cannot be proven.</summary>
    public bool IsSilentWhenOpen { get; init; }

    /// <summary>Of suspicions with the same, the worst is told and the others are counted; null when each stands for itself.</summary>
    public (string, string, bool)? Group { get; init; }

    /// <summary>How bad it is within its group.</summary>
    public long Excess { get; init; }

    /// <summary>Ports in use then.</summary>
    public ImmutableArray<string> InUse { get; set; }

    /// <summary>Messages are missing from the capture where it rests.</summary>
    public bool IsDoubtful { get; set; }
}
