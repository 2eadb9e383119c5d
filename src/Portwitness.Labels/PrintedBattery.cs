using System.Collections.Immutable;
using Portwitness.PowerDelivery.Units;

namespace Portwitness.Labels;

/// <summary>Printed battery figures.</summary>
public sealed record PrintedBattery
{
    /// <summary>
    /// Capacity of the cells in mAh, at <see cref="NominalVoltage"/>. A printed count is multiplied in ("2x 6500 mAh" is
    /// 13000), which keeps the energy right whether the cells are in parallel or in series.
    /// </summary>
    public int? CapacityMilliampereHours { get; init; }

    /// <summary>Nominal voltage of the cell or pack.</summary>
    public Voltage? NominalVoltage { get; init; }

    /// <summary>Printed energy.</summary>
    public Energy? Energy { get; init; }

    /// <summary>Worth of the last printed digit of the energy.</summary>
    public Energy? EnergyStep { get; init; }

    /// <summary>Where the energy is printed.</summary>
    public Place? EnergyAt { get; init; }

    /// <summary>Cells in series; null when not printed.</summary>
    public int? SeriesCells { get; init; }

    /// <summary>Cells in parallel; null when not printed.</summary>
    public int? ParallelCells { get; init; }

    /// <summary>Rated output capacity in mAh.</summary>
    public int? RatedCapacityMilliampereHours { get; init; }

    /// <summary>Voltage that the rated capacity is stated at.</summary>
    public Voltage? RatedVoltage { get; init; }

    /// <summary>Current that the rated capacity is stated at.</summary>
    public Current? RatedCurrent { get; init; }

    /// <summary>Where the rated capacity is printed.</summary>
    public Place? RatedAt { get; init; }

    /// <summary>Where the first figure is printed.</summary>
    public required Place At { get; init; }

    /// <summary>Each statement with the figures that it prints, at its own place; empty in a statement.</summary>
    public ImmutableArray<PrintedBattery> Statements { get; init; } = [];
}

/// <summary>What a printed performance figure is of.</summary>
public enum PerformanceKind
{
    /// <summary>Average active efficiency: the mean at 25, 50, 75 and 100 % of the rated current.</summary>
    AverageEfficiency,

    /// <summary>Efficiency at low load (10 %).</summary>
    LowLoadEfficiency,

    /// <summary>Power taken without a load.</summary>
    NoLoadPower,

    /// <summary>Efficiency of a power pack's conversion.</summary>
    ConversionEfficiency,
}

/// <summary>One printed efficiency or no-load power.</summary>
/// <param name="Kind">What it is of.</param>
/// <param name="PartsPerMillion">The efficiency; null for a power.</param>
/// <param name="Power">The power; null for an efficiency.</param>
/// <param name="At">Where it is printed.</param>
/// <param name="Text">The printed words.</param>
public sealed record PrintedPerformance(PerformanceKind Kind, int? PartsPerMillion, Power? Power, Place At, string Text);
