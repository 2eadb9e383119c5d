using Portwitness.Following.Links;
using Portwitness.PowerDelivery.Framing;
using Portwitness.PowerDelivery.Limits;

namespace Portwitness.Following.Exchanges;

/// <summary>Which ends of a limit something is held against.</summary>
[Flags]
public enum Bounds
{
    /// <summary>It may be too short.</summary>
    Min = 1,

    /// <summary>It may be too long.</summary>
    Max = 2,
}

/// <summary>A time between two moments that one of the standard's parameters limits.</summary>
/// <param name="Parameter">Its name in <see cref="TimingLimits"/>.</param>
/// <param name="From">Where it begins.</param>
/// <param name="To">Where it ends.</param>
public readonly record struct Interval(string Parameter, Moment From, Moment To)
{
    /// <summary>Who keeps the limit.</summary>
    public required Party Party { get; init; }

    /// <summary>What was waited for.</summary>
    public required Awaited Awaited { get; init; }

    /// <summary>The message that was asked, repeated, put off or listed, as the standard names it; empty where <see cref="Awaited"/> says all.</summary>
    public string Name { get; init; } = "";

    /// <summary>Index of the message at its end.</summary>
    public required long Index { get; init; }

    /// <summary>The ends that count.</summary>
    public Bounds Bounds { get; init; } = Bounds.Min | Bounds.Max;

    /// <summary>What goes by besides and is allowed: a timer that has to run out first. Microseconds.</summary>
    public long AllowedUs { get; init; }

    /// <summary>What attempts that the capture misses may have taken. Microseconds.</summary>
    public long LateAllowanceUs { get; init; }

    /// <summary>Whether it is the right interval beyond doubt.</summary>
    public bool IsProven { get; init; } = true;

    /// <summary>It is the right interval only where it surely took less than this; later, an attempt that the capture misses came between. Microseconds.</summary>
    public long ProvenBelowUs { get; init; } = long.MaxValue;

    /// <summary>Told as open where it cannot be proven: something that never came is worth a look.</summary>
    public bool IsToldWhenOpen { get; init; }

    /// <summary>A link whose next message must go on without a gap before the interval is proven.</summary>
    public (SopKind Sop, bool FromSourceOrPlug)? Awaits { get; init; }

    /// <summary>Left out where the edition is known to be one of these; another parameter settles it there.</summary>
    public Editions ExceptIn { get; init; }
}
