using Portwitness.Captures.Input;

namespace Portwitness.Captures.Tables;

/// <summary>Says of the times of a table what nothing states, once.</summary>
/// <param name="faults">Where it is said.</param>
/// <param name="unit">The unit of the times; null when nothing states it.</param>
/// <param name="line">The line of the headings.</param>
/// <param name="column">Where the heading of the times begins.</param>
/// <param name="unitOption">What states the unit.</param>
/// <param name="columnsOption">What states the column with its unit or format.</param>
internal sealed class TimeNotes(FaultLog faults, TableUnit? unit, long line, int column, string unitOption, string columnsOption)
{
    private bool _unitDone = unit is not null;
    private bool _openDone;

    /// <summary>Looks at a time: a number of a column without a unit is taken to be in seconds.</summary>
    public void Look(ReadOnlySpan<byte> cell)
    {
        if (!_unitDone && TimeText.TryRead(cell, default, out _, out TimeForm form))
        {
            _unitDone = true;
            if (form == TimeForm.Number)
            {
                faults.Report(line, column, FaultCodes.TableAssumed, FaultText.TableUnitAssumed("time", "seconds", unitOption));
            }
        }
    }

    /// <summary>A time was not read; of times that may be read in two ways the first is told.</summary>
    public void NotRead(long line, int column, ReadOnlySpan<byte> cell, bool isOpen)
    {
        if (!isOpen || !_openDone)
        {
            string detail = isOpen ? FaultText.TableTimeOpen(cell, columnsOption) : FaultText.TableTimeInvalid(cell);
            faults.Report(line, column, FaultCodes.TimeInvalid, detail);
        }

        _openDone |= isOpen;
    }
}
