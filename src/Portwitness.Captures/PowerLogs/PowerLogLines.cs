using Portwitness.Captures.Input;
using Portwitness.Captures.Tables;

namespace Portwitness.Captures.PowerLogs;

/// <summary>Turns the lines of a log of power into rows. A line of which one value is missing or unreadable gives none.</summary>
internal sealed class PowerLogLines(IPowerLogSink sink, TableMapping mapping, FaultLog faults) : ILineReader
{
    /// <summary>Rows that are read: three years of one a second. It bounds the sums that are made of them.</summary>
    private const long MostRows = 100_000_000;

    private const int MicroPower = 6;
    private const long MostMicro = CaptureLimits.MaximumMeasurement * 1000L;

    private static readonly string[] Needed = ["time", "volts", "amps"];

    private readonly RowSplitter _row = new();
    private readonly PowerLogClock _clock = new();
    private TableColumns? _columns;
    private int _cells;
    private long _rows;
    private bool _begun;
    private bool _timeUnitChecked;

    /// <summary>Whether the unit of a column was taken to be the usual one.</summary>
    public bool UnitsAssumed { get; private set; }

    public void Read(long line, ReadOnlySpan<byte> text)
    {
        if (TableReader.IsComment(text) || (_begun && _columns is null) || _rows > MostRows)
        {
            return;
        }

        if (_begun)
        {
            _row.Split(text);
            ReadRow(line, _columns!);
            return;
        }

        _begun = true;
        _row.Delimiter = RowSplitter.DelimiterOf(text);
        _row.Split(text);
        Begin(line);
    }

    public void Skipped(long line)
    {
    }

    public void Complete()
    {
        if (!_begun)
        {
            faults.Report(0, 0, FaultCodes.Empty, FaultText.TableEmpty);
        }
        else if (_columns is not null && _rows == 0)
        {
            faults.Report(0, 0, FaultCodes.Empty, FaultText.PowerLogWithoutRows);
        }
    }

    private void Begin(long line)
    {
        TableColumns? columns = TableColumns.Find(_row, mapping, ofMeasurements: true, line, faults);
        if (columns is null)
        {
            return;
        }

        string[] missing = [.. Needed.Where(holds => columns[holds] < 0)];
        if (missing.Length > 0)
        {
            faults.Report(line, 1, FaultCodes.TableColumns, FaultText.PowerLogColumnsMissing(missing));
            return;
        }

        (_columns, _cells) = (columns, _row.Count);
        foreach (string holds in Needed.Where(holds => holds != "time" && columns.PowerOf(holds) is null))
        {
            Assume(line, columns, holds);
        }

        if (!columns.FirstLineIsHeading)
        {
            ReadRow(line, columns);
        }
    }

    private void Assume(long line, TableColumns columns, string holds)
    {
        UnitsAssumed = true;
        faults.Report(line, _row.ColumnOf(columns[holds]), FaultCodes.TableAssumed, FaultText.TableUnitAssumed(
            holds, holds switch { "time" => "seconds", "volts" => "volts", _ => "amperes" }, "\"columns:\" of the log"));
    }

    private void ReadRow(long line, TableColumns columns)
    {
        if (_row.IsBroken)
        {
            faults.Report(line, _row.ColumnOf(_row.Count - 1), FaultCodes.TableRowInvalid, FaultText.TableQuoteOpen);
            return;
        }

        // "0,5,02,1,99" under three headings: decimal commas between commas would shift every value by one.
        for (int cell = _cells; cell < _row.Count; cell++)
        {
            if (!_row[cell].IsEmpty)
            {
                faults.Report(line, _row.ColumnOf(cell), FaultCodes.TableRowInvalid, FaultText.PowerLogCells(_row.Count, _cells));
                return;
            }
        }

        if (Value(line, columns, "volts") is not { } microvolts || Value(line, columns, "amps") is not { } microamperes)
        {
            return;
        }

        int at = columns["time"];
        if (!_clock.TryRead(_row[at], columns.PowerOf("time") ?? 0, out long time, out bool isOfClock))
        {
            faults.Report(line, _row.ColumnOf(at), FaultCodes.TimeInvalid, FaultText.PowerLogTime(_row[at]));
            return;
        }

        if (!_timeUnitChecked)
        {
            _timeUnitChecked = true;
            if (!isOfClock && columns.PowerOf("time") is null)
            {
                Assume(line, columns, "time");
            }
        }

        if (++_rows > MostRows)
        {
            faults.Report(line, 1, FaultCodes.TableRowInvalid, FaultText.PowerLogTooLong(MostRows));
            return;
        }

        sink.OnRow(new PowerLogRow(line, time, microvolts, microamperes));
    }

    private long? Value(long line, TableColumns columns, string holds)
    {
        int at = columns[holds];
        ReadOnlySpan<byte> cell = _row[at];
        if (DecimalText.TryRead(cell, (columns.PowerOf(holds) ?? 0) + MicroPower, out long value) && value is >= -MostMicro and <= MostMicro)
        {
            return value;
        }

        faults.Report(line, _row.ColumnOf(at), FaultCodes.TableRowInvalid, FaultText.PowerLogValue(holds, cell));
        return null;
    }
}
