using Portwitness.Analysis.Evidence;
using Portwitness.Analysis.Phrases;
using Portwitness.Labels;
using Portwitness.Product.Energy;
using Portwitness.Product.Printed;

namespace Portwitness.Product.Comparison;

/// <summary>
/// Claims of printed battery figures: what the cells hold and what comes out, held against stated cells and logs. Rules say what
/// contradicts them.
/// </summary>
internal sealed class BatteryClaims(ProductEnergy energy, StatedCells? cells)
{
    // A whole discharge gives so much of what the cells hold (common practice, no source).
    private const int UsualLeastPpm = 780_000;
    private const int UsualMostPpm = 920_000;

    private static readonly Phrase StateCells =
        "State the cells, from their data sheet or their print, under \"battery:\"; or log a whole discharge of the product and name the log "
        + "under \"discharges:\".";

    /// <summary>Claims in the order of the label.</summary>
    public IEnumerable<Claim> All()
    {
        foreach (PrintedBattery printed in energy.Label?.Battery?.Statements ?? [])
        {
            if (BatteryFigures.CapacityOf(printed) is ({ } capacity, var volts))
            {
                yield return OfCells(
                    Begin(printed.At, volts is null ? Phrase.Of($"the cells hold {Charge(capacity)}") : $"the cells hold {Charge(capacity)} at {volts}"),
                    cells is null ? null : CapacityBasis.Nearest(printed, cells)?.DeviationPpm,
                    volts is { } at ? BatteryFigures.MilliwattHours(at, capacity) : null);
            }
            else if (printed.RatedCapacityMilliampereHours is { } rated)
            {
                yield return OfRated(printed, rated);
            }

            if (printed.Energy is { } held)
            {
                yield return OfCells(
                    Begin(printed.EnergyAt ?? printed.At, $"the cells hold {held}"),
                    cells is null ? null : CapacityBasis.EnergyDeviationPpm(printed, held, cells), held.MilliwattHours);
            }
        }
    }

    private Claim OfRated(PrintedBattery printed, int rated)
    {
        Phrase basis = printed.RatedVoltage is null ? Phrase.Empty
            : printed.RatedCurrent is null ? Phrase.Of($" at {printed.RatedVoltage}") : $" at {printed.RatedVoltage} {printed.RatedCurrent}";
        Claim claim = Begin(printed.RatedAt ?? printed.At, Phrase.Of($"{Charge(rated)} come out") + basis);
        if (RatedDischarge.Of(energy, printed, rated) is not { } discharge)
        {
            return claim.CannotTell(
                ClaimOutcome.NotCaptured, "no discharge was logged",
                Phrase.Of($"Log a discharge from full until the output goes off{basis}, and name the log under \"discharges:\"."));
        }

        Phrase seen = $"{discharge.Log.Log.File}: {EnergyText.Between(discharge.Log.Charge, EnergyText.Charge)} {discharge.HowText}; meter: {discharge.Log.Meter.Text()}";
        return discharge.Verdict switch
        {
            Verdict.Holds => claim with { Evidence = seen },
            Verdict.Fails => claim.Fails(ClaimOutcome.Less, seen),
            _ => claim.CannotTell(ClaimOutcome.Less, seen, discharge.NextStep),
        };
    }

    // Cells that are stated decide; what came out of them says it within the usual loss.
    private Claim OfCells(Claim claim, long? deviationPpm, long? milliwattHours)
    {
        if (cells is not null && deviationPpm is { } deviation)
        {
            Phrase held = $"{cells.Text} hold {EnergyText.Energy(cells.MicrowattHours)}";
            return deviation <= CapacityBasis.AgreesPpm ? claim with { Evidence = held }
                : deviation > CapacityBasis.DiffersPpm ? claim.Fails(ClaimOutcome.Less, held)
                : claim.CannotTell(
                    ClaimOutcome.Less, held,
                    "Look up the cells' least and typical capacity and their nominal voltage, and state those that the label goes by.");
        }

        MeasuredLog? best = energy.Logs
            .Where(static log => log is { EverLoaded: true, UnitsAssumed: false, Log: { Kind: LogKind.Discharge, BegunFull: not false } })
            .MaxBy(static log => log.Energy.Value);
        if (best is null || milliwattHours is not { } printed || printed <= 0)
        {
            return claim.CannotTell(ClaimOutcome.NotCaptured, "the cells are not stated, and no discharge says what they hold", StateCells);
        }

        long share = (long)Int128.Min((Int128)best.Energy.Value * 1000 / printed, long.MaxValue);
        Phrase seen = $"{best.Log.File}: {EnergyText.Energy(best.Energy.Value)} came out, {EnergyText.Percent(share)} of it; "
            + $"{EnergyText.Percent(UsualLeastPpm)} to {EnergyText.Percent(UsualMostPpm)} are usual";
        bool isHeld = best.RanOut && share is >= UsualLeastPpm and <= UsualMostPpm;
        return isHeld ? claim with { Evidence = seen }
            : claim.CannotTell(
                ClaimOutcome.Less, seen,
                best.RanOut ? "State the cells, from their data sheet or their print, under \"battery:\"."
                    : "Go on with the discharge until the output goes off, or to a stated cut-off.");
    }

    private static Claim Begin(Place at, Phrase text) => LabelComparison.Begin(ClaimKind.Battery, "", at, text);

    private static Quantity Charge(int milliampereHours) => PrintedPowers.MilliampereHours(milliampereHours);
}
