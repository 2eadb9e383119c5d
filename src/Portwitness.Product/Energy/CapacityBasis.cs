using System.Collections.Immutable;
using Portwitness.Analysis.Phrases;
using Portwitness.Labels;
using Portwitness.PowerDelivery.Units;

namespace Portwitness.Product.Energy;

/// <summary>How a printed capacity, voltage and energy go together, as far as the label alone can tell.</summary>
public enum PrintedBasis
{
    /// <summary>The energy is capacity times voltage, or one of the three is not printed and nothing contradicts.</summary>
    Plain,

    /// <summary>The milliampere-hours of the cells are added up and stand beside the volts of the pack.</summary>
    CellsAdded,

    /// <summary>The milliampere-hours are counted at 5 V; no voltage is printed beside them.</summary>
    AtFiveVolts,

    /// <summary>The same, but another voltage is printed beside them: they may also be wrong.</summary>
    PerhapsAtFiveVolts,

    /// <summary>No way of printing explains the numbers.</summary>
    Unexplained,
}

/// <summary>One way of printing a capacity, and how far it is from what is printed.</summary>
/// <param name="IsPack">Whether it is the pack's own capacity, which needs no explanation.</param>
/// <param name="Text">What would be printed, in words.</param>
/// <param name="DeviationPpm">How far printed capacity and voltage are from it, in millionths, the larger one.</param>
public sealed record CapacityReading(bool IsPack, Phrase Text, long DeviationPpm);

/// <summary>The ways in which the capacity of cells in series is printed.</summary>
/// <remarks>
/// E = n m u c, for n cells in series, m in parallel, of u volts and c mAh each, is physics. That a capacity is printed as the pack's, as the sum
/// of the cells', or converted to 5 V with or without the converter's loss, and the tolerances, are common practice, no source.
/// </remarks>
public static class CapacityBasis
{
    /// <summary>Within this the figures agree: rounding, and nominal volts of 3.6 or 3.7.</summary>
    public const long AgreesPpm = 30_000;

    /// <summary>Beyond this no usual difference (typical to least capacity, nominal volts) explains the figures.</summary>
    public const long DiffersPpm = 100_000;

    private const int MaxSeries = 16;
    private const int FiveVolts = 5_000;

    // 5 V over an efficiency of about 0.8.
    private const int FiveVoltsWithLoss = 6_300;

    private static readonly (int Least, int Most)[] LithiumIon = [(3_160, 3_240), (3_560, 3_940)];

    // Lithium titanate and sodium ion, too: beside a printed energy they cannot be mistaken.
    private static readonly (int Least, int Most)[] AnyCell = [(2_280, 2_430), (2_970, 3_130), .. LithiumIon];

    /// <summary>How many lithium cells in series a voltage may be that of, two or more.</summary>
    public static IEnumerable<int> SeriesOf(Voltage volts) =>
        Enumerable.Range(2, MaxSeries - 1).Where(series => IsCell(volts.Millivolts, series, LithiumIon));

    /// <summary>What a label alone lets one tell.</summary>
    public static PrintedBasis OfLabel(PrintedBattery? printed)
    {
        if (printed is not { Energy: { MilliwattHours: > 0 } energy }
            || BatteryFigures.CapacityOf(printed) is not ({ } capacity and > 0, var volts))
        {
            return PrintedBasis.Plain;
        }

        // Energy over capacity is a voltage.
        long basis = energy.MilliwattHours * 1000 / capacity;
        bool isAtFiveVolts = basis >= FiveVolts - Share(FiveVolts, AgreesPpm) && basis <= FiveVoltsWithLoss + Share(FiveVoltsWithLoss, AgreesPpm);
        if (volts is not { } at)
        {
            return isAtFiveVolts ? PrintedBasis.AtFiveVolts : PrintedBasis.Plain;
        }

        long product = BatteryFigures.MilliwattHours(at, capacity);
        long tolerance = Math.Max(energy.MilliwattHours / 100, (printed.EnergyStep?.MilliwattHours ?? 0) / 2);
        return Math.Abs(product - energy.MilliwattHours) <= tolerance ? PrintedBasis.Plain
            : SeriesBeside(printed) is not null ? PrintedBasis.CellsAdded
            : isAtFiveVolts ? PrintedBasis.PerhapsAtFiveVolts
            : PrintedBasis.Unexplained;
    }

    /// <summary>How many cells in series explain a printed energy that is a whole part of capacity times voltage; null when none do.</summary>
    public static int? SeriesBeside(PrintedBattery printed)
    {
        if (printed.Energy is not { MilliwattHours: > 0 } energy || BatteryFigures.CapacityOf(printed) is not ({ } capacity, { } volts))
        {
            return null;
        }

        long product = BatteryFigures.MilliwattHours(volts, capacity);
        long series = (product + (energy.MilliwattHours / 2)) / energy.MilliwattHours;
        return series is >= 2 and <= MaxSeries && (printed.SeriesCells is null || printed.SeriesCells == series)
            && DeviationPpm(product, energy.MilliwattHours * series) <= AgreesPpm && IsCell(volts.Millivolts, (int)series, AnyCell)
            ? (int)series
            : null;
    }

    /// <summary>The way of printing that is nearest to a printed capacity and voltage of cells that are known; null when no capacity is printed.</summary>
    public static CapacityReading? Nearest(PrintedBattery printed, StatedCells cells)
    {
        if (BatteryFigures.CapacityOf(printed) is not ({ } capacity, var volts))
        {
            return null;
        }

        long pack = (long)cells.Parallel * cells.MilliampereHours;
        long sum = pack * cells.Series;
        int cellVolts = cells.NominalMillivolts;
        long packVolts = (long)cells.Series * cellVolts;
        long atFive = cells.MicrowattHours / FiveVolts;
        long withLoss = cells.MicrowattHours / FiveVoltsWithLoss;
        List<CapacityReading> readings =
        [
            new(true, $"the pack's {Charge(pack)} at {Volts(packVolts)}", Math.Max(DeviationPpm(capacity, pack), Of(volts, packVolts))),
            new(
                false, $"the cells' {Charge(sum)} added up, at {Volts(cellVolts)} or beside {Volts(packVolts)}",
                Math.Max(DeviationPpm(capacity, sum), Of(volts, cellVolts, packVolts))),
            new(
                false, $"{Charge(withLoss)} (with a converter's loss) to {Charge(atFive)} at {Volts(FiveVolts)}",
                Math.Max(
                    capacity < withLoss ? DeviationPpm(capacity, withLoss) : capacity > atFive ? DeviationPpm(capacity, atFive) : 0,
                    Of(volts, FiveVolts, cellVolts, packVolts))),
        ];
        if (volts is { } at && IsCell(at.Millivolts, 1, AnyCell))
        {
            long converted = cells.MicrowattHours / at.Millivolts;
            readings.Add(new(cells.Series == 1, $"{Charge(converted)} at the printed {at}", DeviationPpm(capacity, converted)));
        }

        return readings.MinBy(static reading => reading.DeviationPpm);
    }

    /// <summary>How far a printed energy is from what cells hold, in millionths; half of its last digit is no difference.</summary>
    public static long EnergyDeviationPpm(PrintedBattery printed, PowerDelivery.Units.Energy energy, StatedCells cells)
    {
        long half = (printed.EnergyStep?.MilliwattHours ?? 0) * 1000 / 2;
        long difference = Math.Max(0, Math.Abs((energy.MilliwattHours * 1000L) - cells.MicrowattHours) - half);
        return DeviationPpm(cells.MicrowattHours + difference, cells.MicrowattHours);
    }

    /// <summary>What may be printed of cells, in words.</summary>
    public static Phrase Ways(StatedCells cells)
    {
        long pack = (long)cells.Parallel * cells.MilliampereHours;
        return $"{Charge(pack)} at {Volts((long)cells.Series * cells.NominalMillivolts)}, {Charge(pack * cells.Series)} (the cells' added up), or up to "
            + $"{Charge(cells.MicrowattHours / FiveVolts)} at {Volts(FiveVolts)}";
    }

    /// <summary>How far a value is from another, in millionths of the other.</summary>
    public static long DeviationPpm(long value, long of) =>
        of <= 0 ? long.MaxValue : (long)Int128.Min(Int128.Abs((Int128)value - of) * 1_000_000 / of, long.MaxValue);

    // What is not printed differs from nothing.
    private static long Of(Voltage? printed, params ImmutableArray<long> allowed) =>
        printed is { } volts ? allowed.Min(one => DeviationPpm(volts.Millivolts, one)) : 0;

    private static bool IsCell(int millivolts, int series, (int Least, int Most)[] cells) =>
        Array.Exists(cells, cell => millivolts >= (long)cell.Least * series && millivolts <= (long)cell.Most * series);

    private static long Share(long value, long ppm) => value * ppm / 1_000_000;

    private static Quantity Charge(long milliampereHours) => new(milliampereHours, QuantityUnit.MilliampereHours);

    private static Quantity Volts(long millivolts) => new(millivolts * 1000, QuantityUnit.Microvolts);
}
