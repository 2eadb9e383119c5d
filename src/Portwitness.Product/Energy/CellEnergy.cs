using Portwitness.Labels;

namespace Portwitness.Product.Energy;

/// <summary>The cells of a power pack, as "battery:" of a product file states them.</summary>
/// <param name="Series">Cells in series.</param>
/// <param name="Parallel">Strings in parallel.</param>
/// <param name="MilliampereHours">Capacity of one cell, in mAh.</param>
/// <param name="NominalMillivolts">Nominal voltage of one cell, in mV.</param>
public sealed record StatedCells(int Series, int Parallel, int MilliampereHours, int NominalMillivolts)
{
    /// <summary>What one cell holds, in mWh, where its maker says so; null for capacity times voltage.</summary>
    public int? MilliwattHours { get; init; }

    /// <summary>What all of them hold, in µWh: as stated, else mAh times mV.</summary>
    public long MicrowattHours => Series * Parallel * (MilliwattHours * 1000L ?? (long)MilliampereHours * NominalMillivolts);

    /// <summary>"1S2P of 6500 mAh 3.85 V".</summary>
    public string Text => $"{Series}S{Parallel}P of {MilliampereHours} mAh {PowerDelivery.Units.Voltage.FromMillivolts(NominalMillivolts)}"
        + (MilliwattHours is { } energy ? $" ({PowerDelivery.Units.Energy.FromMilliwattHours(energy)} each)" : "");
}

/// <summary>What the cells hold, and who says so.</summary>
/// <param name="MicrowattHours">In µWh.</param>
/// <param name="Basis">In words.</param>
/// <param name="LabelLine">Line of the label; null when the product file states it.</param>
public sealed record CellEnergy(long MicrowattHours, string Basis, int? LabelLine)
{
    /// <summary>What the product file states, or else what is printed; null for neither.</summary>
    public static CellEnergy? Of(StatedCells? stated, Label? label)
    {
        if (stated is not null)
        {
            return new CellEnergy(stated.MicrowattHours, stated.Text, null);
        }

        // Where the print can mean several energies, nobody says which.
        return label?.Battery is { } battery && new BatteryFigures(battery, null, !label.MayRateMore).EnergiesMilliwattHours is [long printed]
            ? new CellEnergy(printed * 1000, "the printed energy", (battery.EnergyAt ?? battery.At).Line)
            : null;
    }
}
