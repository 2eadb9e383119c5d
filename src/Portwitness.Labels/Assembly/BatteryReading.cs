using Portwitness.PowerDelivery.Units;

namespace Portwitness.Labels;

/// <summary>Puts together what a label prints of its battery in one or several statements.</summary>
internal sealed class BatteryReading
{
    private readonly List<PrintedBattery> _statements = [];
    private PrintedBattery? _all;

    /// <summary>All figures, and each statement; null when none is printed.</summary>
    public PrintedBattery? Read => _all is null ? null : _all with { Statements = [.. _statements] };

    /// <summary>Adds a statement; false when one of its figures is printed already with another value.</summary>
    public bool Add(BatteryPiece piece, Place at)
    {
        PrintedBattery before = _all ?? new PrintedBattery { At = at };
        PrintedBattery after = With(before, piece, at);
        if (Contradicts(before, after))
        {
            return false;
        }

        _all = after;
        if (_statements.Count < Label.MaxListed)
        {
            _statements.Add(With(new PrintedBattery { At = at }, piece, at));
        }

        return true;
    }

    private static PrintedBattery With(PrintedBattery battery, BatteryPiece piece, Place at)
    {
        Voltage? volts = piece.Volts is null ? null : Voltage.FromMillivolts(piece.Volts.Value);
        return piece.IsRated
            ? battery with
            {
                RatedCapacityMilliampereHours = piece.Capacity ?? battery.RatedCapacityMilliampereHours,
                RatedVoltage = volts ?? battery.RatedVoltage,
                RatedCurrent = piece.Amps is null ? battery.RatedCurrent : Current.FromMilliamperes(piece.Amps.Value),
                RatedAt = battery.RatedAt ?? at,
            }
            : battery with
            {
                CapacityMilliampereHours = piece.Capacity ?? battery.CapacityMilliampereHours,
                NominalVoltage = volts ?? battery.NominalVoltage,
                Energy = piece.WattHours is null ? battery.Energy : Energy.FromMilliwattHours(piece.WattHours.Value),
                EnergyStep = piece.WattHours is null ? battery.EnergyStep : Energy.FromMilliwattHours(piece.WattHours.Step),
                EnergyAt = piece.WattHours is null ? battery.EnergyAt : at,
                SeriesCells = piece.Cells is { } cells ? cells / 1000 : battery.SeriesCells,
                ParallelCells = piece.Cells is { } all ? all % 1000 : battery.ParallelCells,
            };
    }

    private static bool Contradicts(PrintedBattery before, PrintedBattery after) =>
        Contradicts(before.CapacityMilliampereHours, after.CapacityMilliampereHours)
        || Contradicts(before.RatedCapacityMilliampereHours, after.RatedCapacityMilliampereHours)
        || Contradicts(before.NominalVoltage, after.NominalVoltage) || Contradicts(before.RatedVoltage, after.RatedVoltage)
        || Contradicts(before.RatedCurrent, after.RatedCurrent) || Contradicts(before.Energy, after.Energy)
        || Contradicts(before.SeriesCells, after.SeriesCells) || Contradicts(before.ParallelCells, after.ParallelCells);

    private static bool Contradicts<T>(T? before, T? after)
        where T : struct, IEquatable<T> => before is { } value && after is { } other && !value.Equals(other);
}
