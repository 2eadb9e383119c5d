using System.Collections.Immutable;
using Portwitness.Labels;
using Portwitness.PowerDelivery.Units;
using Portwitness.Product.Decisions;

namespace Portwitness.Product.Energy;

/// <summary>What was measured of a product's energy, and what is printed of it: what rules about energy look at.</summary>
/// <param name="Label">The label; null when none is given.</param>
/// <param name="Cells">What the cells hold; null when nobody says.</param>
/// <param name="Logs">Logs of power that could be read.</param>
/// <param name="Adapter">Measured points of a mains supply.</param>
public sealed record ProductEnergy(Label? Label, CellEnergy? Cells, ImmutableArray<MeasuredLog> Logs, ImmutableArray<AdapterRun> Adapter)
{
    /// <summary>What ports gave under load, as it was read.</summary>
    public ImmutableArray<LoadReading> Readings { get; init; } = [];

    /// <summary>How readings near their limits are decided.</summary>
    public DecisionRule Decision { get; init; }

    /// <summary>The product file, which has the readings.</summary>
    public string File { get; init; } = "";

    /// <summary>Whether it runs on cells: a pack's output may go off when they are empty.</summary>
    public bool IsPack => Cells is not null || Label?.Battery is not null;

    /// <summary>What a log gave or took of the energy of the cells, in millionths: least, as counted, and most (null when unbounded).</summary>
    public (long Least, long Value, long? Most)? Efficiency(MeasuredLog log)
    {
        if (Cells is not { MicrowattHours: > 0 } cells || log.Log.Kind != LogKind.Discharge)
        {
            return null;
        }

        return (Share(log.Energy.Least), Share(log.Energy.Value), log.Energy.Most is { } most ? Share(most) : null);

        long Share(long microwattHours) => (long)Int128.Clamp((Int128)microwattHours * 1_000_000 / cells.MicrowattHours, -long.MaxValue, long.MaxValue);
    }

    /// <summary>The mode that is printed for a log's port at its voltage, with the largest current; null when none is.</summary>
    public PrintedFixed? Printed(MeasuredLog log) => log.Log.AtVoltage is { } at ? Printed(log.Log.Port, at) : null;

    /// <summary>The same for a port and a voltage.</summary>
    public PrintedFixed? Printed(string? named, Voltage at)
    {
        PrintedOutput? output = named is { } port ? Label?.FindOutput(port) : Label is { Outputs: [{ } only] } ? only : null;
        return output?.Fixed.Where(mode => mode.Voltage == at).MaxBy(static mode => mode.Current);
    }

    /// <summary>Whether a load was no more than is printed; null when that is not known.</summary>
    public static bool? IsWithinPrinted(PrintedFixed? printed, LogMeter meter, long microamperes) =>
        printed is { } most ? microamperes - meter.OfCurrent(microamperes) <= most.Current.Milliamperes * 1000L : null;
}
