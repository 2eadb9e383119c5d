using System.Collections.Immutable;

namespace Portwitness.Product.Pack;

/// <summary>What is stated of one cell and of the whole pack beyond the energy: size, mass, limits.</summary>
public sealed record PackBuild
{
    /// <summary>Cells in series.</summary>
    public int Series { get; init; } = 1;

    /// <summary>Strings in parallel.</summary>
    public int Parallel { get; init; } = 1;

    /// <summary>Of one full cell, in mV.</summary>
    public int? FullMillivolts { get; init; }

    /// <summary>Of one empty cell, in mV.</summary>
    public int? EmptyMillivolts { get; init; }

    /// <summary>The most that one cell may be charged with, in mA.</summary>
    public int? MaxChargeMilliamperes { get; init; }

    /// <summary>The most that may be drawn of one cell, in mA.</summary>
    public int? MaxDischargeMilliamperes { get; init; }

    /// <summary>Of one cell.</summary>
    public CellSize? Size { get; init; }

    /// <summary>Of one cell, in mg.</summary>
    public int? MassMilligrams { get; init; }

    /// <summary>What is printed on a cell, as it stands there.</summary>
    public string? Code { get; init; }

    /// <summary>What protects the cells, in the user's words.</summary>
    public ImmutableArray<string> Protection { get; init; } = [];

    /// <summary>Of the whole product.</summary>
    public CellSize? BodySize { get; init; }

    /// <summary>Of the whole product, in mg.</summary>
    public int? BodyMassMilligrams { get; init; }

    /// <summary>Devices that the pack is to fill.</summary>
    public ImmutableArray<FilledDevice> Fills { get; init; } = [];

    /// <summary>Between which energies by volume a cell is believed, in Wh/l.</summary>
    public (int Least, int Most) PlausibleByVolume { get; init; } = (200, 850);

    /// <summary>Between which energies by mass a cell is believed, in Wh/kg.</summary>
    public (int Least, int Most) PlausibleByMass { get; init; } = (90, 330);

    /// <summary>How many cells there are.</summary>
    public int Cells => Series * Parallel;
}

/// <summary>A device that the pack is to fill.</summary>
/// <param name="Name">As the product file calls it.</param>
/// <param name="MilliwattHours">What its battery holds.</param>
public sealed record FilledDevice(string Name, int MilliwattHours);
