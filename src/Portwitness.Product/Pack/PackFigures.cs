using System.Collections.Immutable;
using System.Globalization;
using Portwitness.Analysis.Phrases;
using Portwitness.Labels;
using Portwitness.PowerDelivery.Units;
using Portwitness.Product.Energy;
using Portwitness.Product.Printed;

namespace Portwitness.Product.Pack;

/// <summary>A pack by weight, ruler and arithmetic: what rules about the build look at, and what reports show.</summary>
/// <param name="Build">What is stated.</param>
/// <param name="Energy">What all cells hold; null when nobody says.</param>
/// <param name="Label">The label; null when none is given.</param>
/// <param name="LargestOffered">The most that a port was seen to offer; null when none was captured.</param>
public sealed record PackFigures(PackBuild Build, CellEnergy? Energy, Label? Label, Power? LargestOffered)
{
    // Of a converter between cells and ports: usual, no standard.
    private const int UsualPpm = 920_000;

    /// <summary>Of one cell, in µWh.</summary>
    public long? OfOneCell => Energy is null ? null : Energy.MicrowattHours / Build.Cells;

    /// <summary>The sizes that a cell may have: the one that was measured, else those that its code may mean.</summary>
    public ImmutableArray<CellSize> Sizes { get; } =
        Build.Size is { } measured ? [measured] : Build.Code is { } code ? CellCode.Read(code) : [];

    /// <summary>What the product gives at most at once, how that is known, and the line of the label that it stands in.</summary>
    public (Power Power, Phrase Basis, int? Line)? LargestOutput =>
        Label?.Total is { } total ? (total.Power, Phrase.Of($"the printed total"), total.At.Line)
        : Printed(Label) is { } printed ? (printed.Power, Phrase.Of($"the largest printed port"), printed.Line)
        : LargestOffered is { } offered ? (offered, Phrase.Of($"the largest offer"), null)
        : null;

    /// <summary>What the product takes at most, as printed.</summary>
    public Power? LargestInput => Label is null ? null : Label.Inputs.Where(static input => !input.Alternating)
        .Select(static input => input.Power ?? (input.Current is { } current ? input.MaximumVoltage * current : null)).Concat(Label.InputMaxima.Select(static maximum => (Power?)maximum.Power)).Max();

    // A pack may take power through several of them at once.
    private bool HasSeveralInputs =>
        (Label?.Inputs.Select(static input => input.Port ?? "").Concat(Label.InputMaxima.Select(static maximum => maximum.Port ?? "")) ?? []).DistinctBy(PortNames.Key).Count() > 1;

    /// <summary>The current of one cell while the pack gives or takes a power, in mA.</summary>
    /// <param name="power">At the ports.</param>
    /// <param name="cellMillivolts">Of one cell meanwhile.</param>
    /// <param name="ppm">What of the cells' power reaches the ports, in millionths; of the ports' the cells, when they are charged.</param>
    /// <param name="charging">Whether the cells are charged.</param>
    public int CurrentOfCell(Power power, int cellMillivolts, int ppm, bool charging)
    {
        long volts = (long)Build.Series * cellMillivolts;
        decimal current = power.Milliwatts * 1000m / volts / Build.Parallel;
        return (int)Math.Min(int.MaxValue, Math.Round(charging ? current * ppm / 1_000_000 : current * 1_000_000 / ppm));
    }

    /// <summary>Everything that can be reckoned, in the order in which it is shown.</summary>
    public IEnumerable<PackFigure> All()
    {
        if (OfOneCell is { } cell)
        {
            foreach (CellSize size in Sizes)
            {
                if (size.WattHoursPerLitre(cell) is { } density)
                {
                    yield return new("a cell by volume", new(density, null, FigureUnit.WattHoursPerLitre), Build.Size is null ? Phrase.Of($"{size.Text}, by its code") : $"{size.Text}");
                }
            }

            if (Build.MassMilligrams is { } mass)
            {
                yield return new("a cell by mass", new(PerKilogram(cell, mass), null, FigureUnit.WattHoursPerKilogram), $"{GramsText(mass)}");
            }
        }

        if (Energy is { } energy)
        {
            foreach (PackFigure figure in OfBody(energy).Concat(OfCurrents()).Concat(OfTimes(energy)))
            {
                yield return figure;
            }
        }
    }

    /// <summary>µWh and mg as Wh/kg, rounded.</summary>
    public static long PerKilogram(long microwattHours, int milligrams) => (microwattHours + (milligrams / 2)) / milligrams;

    /// <summary>"69 g".</summary>
    public static string GramsText(int milligrams) => (milligrams / 1000m).ToString("0.###", CultureInfo.InvariantCulture) + " g";

    private static (Power Power, int Line)? Printed(Label? label) =>
        label?.Outputs.MaxBy(PrintedPowers.Of) is { } output && PrintedPowers.Of(output) is { } most and > 0 and <= int.MaxValue
            ? (Power.FromMilliwatts((int)most), output.At.Line) : null;

    private IEnumerable<PackFigure> OfBody(CellEnergy energy)
    {
        if (Build.BodyMassMilligrams is { } mass)
        {
            yield return new("the product by mass", new(PerKilogram(energy.MicrowattHours, mass), null, FigureUnit.WattHoursPerKilogram), $"{GramsText(mass)}");
        }

        if (Build.BodySize is { } size && size.WattHoursPerLitre(energy.MicrowattHours) is { } density)
        {
            yield return new("the product by volume", new(density, null, FigureUnit.WattHoursPerLitre), $"{size.Text}");
        }
    }

    private IEnumerable<PackFigure> OfCurrents()
    {
        if (LargestOutput is { } output && Build.EmptyMillivolts is { } empty)
        {
            yield return new(
                "current of a cell, empty, at full output", new(CurrentOfCell(output.Power, empty, UsualPpm, false), null, FigureUnit.Milliamperes),
                $"{output.Power}, {output.Basis}; with {EnergyText.Percent(UsualPpm)}, a default, not a standard");
        }

        if (LargestInput is { } input && Build.EmptyMillivolts is { } low)
        {
            yield return new(
                "current of a cell, empty, at full input", new(CurrentOfCell(input, low, UsualPpm, true), null, FigureUnit.Milliamperes),
                $"{input}, printed; with {EnergyText.Percent(UsualPpm)}, a default, not a standard");
        }
    }

    private IEnumerable<PackFigure> OfTimes(CellEnergy energy)
    {
        if (LargestInput is { Milliwatts: > 0 } input)
        {
            // 0.94 and a short end phase (k 1.16) to 0.88 and a long one (k 1.47); nothing is faster than the whole input without a loss.
            decimal hours = energy.MicrowattHours / 1000m / input.Milliwatts;
            yield return new(
                "time to recharge", new(Minutes(hours / 0.94m * 1.16m), Minutes(hours / 0.88m * 1.47m), FigureUnit.Minutes),
                HasSeveralInputs
                    ? Phrase.Of($"at {input}, the largest printed input by itself, with usual losses and end phase, no standard; never less than {Minutes(hours)} min through it")
                    : Phrase.Of($"at {input}, printed, with usual losses and end phase, no standard; never less than {Minutes(hours)} min"));
        }

        foreach (FilledDevice device in Build.Fills)
        {
            (long given, Phrase basis) = Given(energy);
            yield return new(
                $"fills of {device.Name}", new(Tenths(given * 0.80m / device.MilliwattHours), Tenths(given * 0.90m / device.MilliwattHours), FigureUnit.TenthsOfFills),
                $"{PrintedPowers.WattHours(device.MilliwattHours)} each, of {basis}; 80 to 90 % arrive, common practice");
        }
    }

    // What comes out, in mWh: the rated capacity where it is printed.
    private (long MilliwattHours, Phrase Basis) Given(CellEnergy energy) =>
        new BatteryFigures(Label?.Battery, null, true).RatedMilliwattHours is { } rated
            ? (rated, Phrase.Of($"{PrintedPowers.WattHours(rated)} by the rated capacity"))
            : (energy.MicrowattHours * 88 / 100_000, Phrase.Of($"{PrintedPowers.WattHours(energy.MicrowattHours * 88 / 100_000)}, 88 % of the cells, a default"));

    private static long Minutes(decimal hours) => (long)Math.Round(Math.Min(hours, 1_000_000) * 60);

    private static long Tenths(decimal value) => (long)Math.Round(Math.Min(value, 1_000_000) * 10);
}
