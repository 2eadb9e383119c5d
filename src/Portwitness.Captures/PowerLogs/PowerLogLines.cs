using Portwitness.Captures.Input;
using Portwitness.Captures.Tables;

namespace Portwitness.Captures.PowerLogs;

/// <summary>
/// Turns the lines of a log of power into rows. A line of which one value is missing or unreadable gives none. Rows whose times can be
/// read in two ways wait until something tells which; where nothing does, none of them is used.
/// </summary>
internal sealed class PowerLogLines(IPowerLogSink sink, TableMapping mapping, IReadOnlyList<string> temperatures, FaultLog faults) : ILineReader
{
    /// <summary>Rows that are read: three years of one a second. It bounds the sums that are made of them.</summary>
    private const long MaxRows = 100_000_000;

    private const int MicroPower = 6;
    private const int MinutesOfAnHour = 60;
    private const long MaxMicro = CaptureLimits.MaximumMeasurement * 1000L;

    private static readonly string[] Needed = ["time", "volts", "amps"];

    private readonly RowSplitter _row = new();
    private readonly PowerLogClock _clock = new();
    private TableColumns? _columns;
    private ClockParts _parts;
    private OpenRows? _open;
    private CounterColumn? _counter;
    private TemperatureColumns? _temperatures;
    private (long Line, int Column, byte[] Cell) _firstOpen;
    private int _cells;
    private long _rows;
    private bool _begun;
    private bool _timeUnitChecked;
    private bool _stopped;

    /// <summary>Whether the unit of a column was taken to be the usual one.</summary>
    public bool UnitsAssumed { get; private set; }

    public void Read(long line, ReadOnlySpan<byte> text)
    {
        if (TableReader.IsComment(text) || (_begun && _columns is null) || _rows > MaxRows || _stopped)
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

        SettleByCount();
        if (_columns is not null && _rows == 0 && !_stopped)
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
        _parts = columns.UnitOf("time")?.Parts ?? ClockParts.Unstated;
        _counter = columns.FirstLineIsHeading ? CounterColumn.Find(_row) : null;
        _temperatures = temperatures.Count > 0 ? TemperatureColumns.Find(_row, columns.FirstLineIsHeading ? temperatures : []) : null;
        foreach (string name in columns.FirstLineIsHeading ? _temperatures?.Missing ?? [] : temperatures)
        {
            faults.Report(line, 1, FaultCodes.TableColumns, FaultText.PowerLogTemperatureMissing(name));
        }

        foreach (string holds in Needed.Where(holds => holds != "time" && columns.UnitOf(holds) is null))
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
        if (!TimeText.TryRead(_row[at], columns.UnitOf("time") ?? default, out long time, out TimeForm form))
        {
            faults.Report(line, _row.ColumnOf(at), FaultCodes.TimeInvalid, FaultText.PowerLogTime(_row[at]));
            return;
        }

        if (!_timeUnitChecked)
        {
            _timeUnitChecked = true;
            if (form == TimeForm.Number && columns.UnitOf("time") is null)
            {
                Assume(line, columns, "time");
            }
        }

        (int? surface, int? room) = _temperatures?.Read(_row) ?? default;
        PowerLogRow row = new(line, time, microvolts, microamperes) { SurfaceMillidegrees = surface, RoomMillidegrees = room };
        if (_parts == ClockParts.Unstated && form == TimeForm.Clock)
        {
            Settle(ClockParts.MinutesAndSeconds);
        }
        else if (_parts == ClockParts.Unstated && form == TimeForm.TwoParts)
        {
            Hold(row, at);
            return;
        }

        HandOn(row, form, at);
    }

    private void Hold(in PowerLogRow row, int at)
    {
        if (_open is null)
        {
            (_open, _firstOpen) = (new OpenRows(), (row.Line, _row.ColumnOf(at), _row[at].ToArray()));
        }

        if (_open.PassesMidnight(row.TimeUs))
        {
            Settle(ClockParts.HoursAndMinutes);
            HandOn(row, TimeForm.TwoParts, at);
            return;
        }

        bool isCounted = (_counter?.Unit ?? default).TryRead(_counter is null ? [] : _row[_counter.Cell], MicroPower, out long count);
        _open.Add(row, isCounted ? count : null);
        if (_open.Rows.Count == OpenRows.Most)
        {
            SettleByCount();
        }
    }

    private void SettleByCount()
    {
        if (_open is null)
        {
            return;
        }

        ClockParts parts = _counter is { } counter ? _open.ByCount(counter.OfEnergy) : ClockParts.Unstated;
        if (parts != ClockParts.Unstated)
        {
            Settle(parts);
            return;
        }

        (_open, _stopped) = (null, true);
        faults.Report(_firstOpen.Line, _firstOpen.Column, FaultCodes.TimeInvalid, FaultText.PowerLogTimeOpen(_firstOpen.Cell));
    }

    private void Settle(ClockParts parts)
    {
        _parts = parts;
        (OpenRows? open, _open) = (_open, null);
        foreach (PowerLogRow row in open?.Rows ?? [])
        {
            HandOn(row, TimeForm.TwoParts, 0);
        }
    }

    private void HandOn(in PowerLogRow row, TimeForm form, int at)
    {
        long read = form == TimeForm.TwoParts && _parts == ClockParts.HoursAndMinutes ? row.TimeUs * MinutesOfAnHour : row.TimeUs;
        if (!_clock.TryPlace(read, form, out long time))
        {
            faults.Report(row.Line, _row.ColumnOf(at), FaultCodes.TimeInvalid, FaultText.PowerLogTime(_row[at]));
        }
        else if (++_rows > MaxRows)
        {
            faults.Report(row.Line, 1, FaultCodes.TableRowInvalid, FaultText.PowerLogTooLong(MaxRows));
        }
        else
        {
            sink.OnRow(row with { TimeUs = time });
        }
    }

    private long? Value(long line, TableColumns columns, string holds)
    {
        int at = columns[holds];
        ReadOnlySpan<byte> cell = _row[at];
        if ((columns.UnitOf(holds) ?? default).TryRead(cell, MicroPower, out long value) && value is >= -MaxMicro and <= MaxMicro)
        {
            return value;
        }

        faults.Report(line, _row.ColumnOf(at), FaultCodes.TableRowInvalid, FaultText.PowerLogValue(holds, cell));
        return null;
    }
}
