using System.Collections.Immutable;

namespace Portwitness.Product.Energy;

/// <summary>How the power of a load first fell by more than two per cent.</summary>
public enum PowerFall
{
    /// <summary>It did not.</summary>
    None,

    /// <summary>The voltage fell while the load drew as much: the source gave less.</summary>
    Voltage,

    /// <summary>The current fell while the voltage held: the load drew less, for whatever reason.</summary>
    Current,

    /// <summary>The output went off.</summary>
    Off,
}

/// <summary>Power over the time of one load, from when it came on.</summary>
/// <remarks>Powers are means of windows of ten seconds, or of two steps of a slower log (common practice, no source).</remarks>
public sealed record SustainedPower
{
    /// <summary>Minutes at which the power is told (common practice, no source).</summary>
    public static ImmutableArray<int> Marks { get; } = [1, 5, 15, 30, 60];

    /// <summary>When the load came on, in the log's time.</summary>
    public required long StartUs { get; init; }

    /// <summary>How long the load was on, in µs.</summary>
    public required long ForUs { get; init; }

    /// <summary>The mean of the first minute, in mW.</summary>
    public required long FirstMilliwatts { get; init; }

    /// <summary>The power at each of the marks, in mW; null where the load was not on for so long.</summary>
    public required ImmutableArray<long?> AtMarks { get; init; }

    /// <summary>The mean of the last five minutes, in mW; null where the load was on for less than ten.</summary>
    public required long? SteadyMilliwatts { get; init; }

    /// <summary>Whether the power of the last five minutes stays within five per cent of its most (10 CFR 430, appendix Z: the US test of mains supplies); null where they are none.</summary>
    public required bool? IsPowerSteady { get; init; }

    /// <summary>How the power first fell by more than two per cent below that of the first minute, for half a minute.</summary>
    public required PowerFall Fall { get; init; }

    /// <summary>When, in µs from when the load came on; null for never.</summary>
    public required long? FellAtUs { get; init; }

    /// <summary>Mean voltage and current of the window in which it fell, in µV and µA.</summary>
    public required (long Microvolts, long Microamperes) AtFall { get; init; }

    /// <summary>When the power was back, in µs from when the load came on; null where it was not.</summary>
    public required long? RecoveredAtUs { get; init; }

    /// <summary>Charge and energy until the fall, or to the end, in µAh and µWh.</summary>
    public required (long MicroampereHours, long MicrowattHours) UntilFall { get; init; }

    /// <summary>Temperatures; null where none were read.</summary>
    public required SurfaceTemperatures? Temperatures { get; init; }
}

/// <summary>The hottest surface and the room, in thousandths of a °C.</summary>
/// <param name="HottestSurface">The most of all rows.</param>
/// <param name="HottestAtUs">When, in µs from when the load came on.</param>
/// <param name="LastSurface">The mean of the last window.</param>
/// <param name="LastRoom">The room then; null where it was not read.</param>
/// <param name="AtFall">The surface when the power fell; null where it did not.</param>
/// <param name="IsSteady">Whether the surface stays within 1 K for the last 15 minutes (one of several criteria in use; second-hand); null where there are less.</param>
public sealed record SurfaceTemperatures(int HottestSurface, long HottestAtUs, int LastSurface, int? LastRoom, int? AtFall, bool? IsSteady)
{
    /// <summary>The rise over the room at the end; null where the room was not read.</summary>
    public int? Rise => LastRoom is { } room ? LastSurface - room : null;

    /// <summary>The hottest surface at a room of 25 °C, where the room is no more than 5 K from it (common practice, no source); null elsewhere.</summary>
    public int? HottestAt25 => LastRoom is { } room && Math.Abs(room - 25_000) <= 5_000 ? HottestSurface + 25_000 - room : null;
}
