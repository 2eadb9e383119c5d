using System.Collections.Immutable;
using Portwitness.Labels;
using Portwitness.PowerDelivery.Units;

namespace Portwitness.Product.Energy;

/// <summary>What is printed of a battery and what its cells are stated to be, with the energy that this may mean.</summary>
/// <param name="Printed">The printed figures; null when none are.</param>
/// <param name="Cells">The cells; null when they are not stated.</param>
/// <param name="IsRead">Whether the whole label could be read.</param>
public sealed record BatteryFigures(PrintedBattery? Printed, StatedCells? Cells, bool IsRead)
{
    /// <summary>Which way of printing explains a printed energy that is not capacity times voltage.</summary>
    public PrintedBasis Basis { get; } = CapacityBasis.OfLabel(Printed);

    /// <summary>
    /// What the cells hold, in mWh: the energy of stated cells; otherwise each energy that the print may mean, the largest first. Empty when
    /// nothing says.
    /// </summary>
    public ImmutableArray<long> EnergiesMilliwattHours { get; } = Cells is not null ? [Cells.MicrowattHours / 1000] : OfLabel(Printed);

    /// <summary>What comes out by the rated capacity, in mWh; null when that is not printed.</summary>
    public long? RatedMilliwattHours => Printed is null || IsRatedOfCells(Printed) ? null : AtRated(Printed);

    /// <summary>The printed capacity and voltage of the cells, also where a label calls that of the cells the rated one.</summary>
    public static (int? MilliampereHours, Voltage? Volts) CapacityOf(PrintedBattery printed) =>
        printed.CapacityMilliampereHours is null && IsRatedOfCells(printed)
            ? (printed.RatedCapacityMilliampereHours, printed.RatedVoltage)
            : (printed.CapacityMilliampereHours, printed.NominalVoltage);

    /// <summary>Volts times ampere-hours, in mWh.</summary>
    public static long MilliwattHours(Voltage volts, int milliampereHours) => (long)volts.Millivolts * milliampereHours / 1000;

    private static ImmutableArray<long> OfLabel(PrintedBattery? printed)
    {
        if (printed is null)
        {
            return [];
        }

        (int? capacity, Voltage? volts) = CapacityOf(printed);
        long? product = capacity is { } mah && volts is { } at ? MilliwattHours(at, mah) : null;
        IEnumerable<long?> energies = printed.Energy is { } energy
            ? CapacityBasis.OfLabel(printed) switch
            {
                PrintedBasis.Unexplained => [Math.Max(energy.MilliwattHours, product ?? 0)],
                PrintedBasis.PerhapsAtFiveVolts => [energy.MilliwattHours, product],
                _ => [energy.MilliwattHours],
            }
            : [product, .. product is null ? [] : CapacityBasis.SeriesOf(volts!.Value).Select(series => product / series)];
        return [.. energies.OfType<long>().Where(static one => one > 0).Distinct().OrderDescending()];
    }

    // "Rated capacity 10000mAh 3.7V" is that of the cells: no output has the voltage of one to four lithium cells.
    private static bool IsRatedOfCells(PrintedBattery battery) => battery.RatedVoltage is { } volts
        && (volts == battery.NominalVoltage || volts.Millivolts is (>= 3000 and <= 4000) or (>= 7000 and <= 7800) or (>= 10_500 and <= 11_600)
            or (>= 14_000 and <= 14_900));

    private static long? AtRated(PrintedBattery battery) =>
        battery is { RatedVoltage: { } volts, RatedCapacityMilliampereHours: { } capacity } ? MilliwattHours(volts, capacity) : null;
}
