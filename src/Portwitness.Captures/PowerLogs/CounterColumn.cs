using Portwitness.Captures.Tables;

namespace Portwitness.Captures.PowerLogs;

/// <summary>A column in which the meter itself counts charge or energy.</summary>
/// <param name="Cell">Its place, counted from 0.</param>
/// <param name="Unit">Its unit: of Ah or of Wh.</param>
/// <param name="OfEnergy">Whether it counts energy, or charge.</param>
internal sealed record CounterColumn(int Cell, TableUnit Unit, bool OfEnergy)
{
    /// <summary>The first one that a heading's unit tells; null when there is none.</summary>
    public static CounterColumn? Find(RowSplitter headings)
    {
        for (int cell = 0; cell < headings.Count; cell++)
        {
            if (TableHeading.UnitFor(headings[cell], "charge") is { } charge)
            {
                return new CounterColumn(cell, charge, OfEnergy: false);
            }

            if (TableHeading.UnitFor(headings[cell], "energy") is { } energy)
            {
                return new CounterColumn(cell, energy, OfEnergy: true);
            }
        }

        return null;
    }
}
