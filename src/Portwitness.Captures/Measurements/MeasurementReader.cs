using Portwitness.Captures.Input;
using Portwitness.Captures.Tables;

namespace Portwitness.Captures.Measurements;

/// <summary>Reads a table of time, volts and amps, and queues what it measured.</summary>
internal sealed class MeasurementReader(MeasurementOptions options, Queue<MeasurementRecord> queue, FaultLog faults) : ILineReader
{
    private const int MilliPower = 3;
    private const string Option = "--measurement-columns";

    private readonly RowSplitter _row = new();
    private TableColumns? _columns;
    private TableClock _clock = new(null);
    private TimeNotes? _notes;
    private bool _begun;
    private long _timeUs;
    private long _before;
    private long _firstBefore;

    /// <inheritdoc/>
    public void Read(long line, ReadOnlySpan<byte> text)
    {
        if (TableReader.IsComment(text) || (_begun && _columns is null))
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
        _columns = TableColumns.Find(_row, options.Columns, ofMeasurements: true, line, faults);
        if (_columns is not null)
        {
            Begin(line, _columns);
        }
    }

    /// <inheritdoc/>
    public void Skipped(long line)
    {
    }

    /// <inheritdoc/>
    public void Complete()
    {
        if (!_begun)
        {
            faults.Report(0, 0, FaultCodes.Empty, FaultText.TableEmpty);
        }

        if (_before > 0)
        {
            faults.Report(0, 0, FaultCodes.TimeInvalid, FaultText.MeasurementsBefore(_before, _firstBefore));
        }
    }

    private void Begin(long line, TableColumns columns)
    {
        foreach ((string holds, string unit) in new[] { ("volts", "volts"), ("amps", "amperes") })
        {
            if (columns[holds] >= 0 && columns.UnitOf(holds) is null)
            {
                faults.Report(line, _row.ColumnOf(columns[holds]), FaultCodes.TableAssumed, FaultText.TableUnitAssumed(holds, unit, Option));
            }
        }

        _clock = new TableClock(columns.UnitOf("time"));
        _notes = new TimeNotes(faults, columns.UnitOf("time"), line, _row.ColumnOf(columns["time"]), Option, Option);
        if (!columns.FirstLineIsHeading)
        {
            ReadRow(line, columns);
        }
    }

    private void ReadRow(long line, TableColumns columns)
    {
        if (_row.IsBroken)
        {
            faults.Report(line, _row.ColumnOf(_row.Count - 1), FaultCodes.TableRowInvalid, FaultText.TableQuoteOpen);
            return;
        }

        _notes!.Look(_row[columns["time"]]);
        int? millivolts = Value(line, columns, "volts");
        int? milliamperes = Value(line, columns, "amps");
        if (millivolts is null && milliamperes is null)
        {
            return;
        }

        int at = columns["time"];
        if (!_clock.TryRead(_row[at], out long time))
        {
            _notes.NotRead(line, _row.ColumnOf(at), _row[at], _clock.IsOpen);
            time = _timeUs - options.OffsetUs;
        }

        time += options.OffsetUs;
        if (time is < 0 or > CaptureLimits.MaximumTimeUs)
        {
            _firstBefore = _before++ == 0 ? line : _firstBefore;
            return;
        }

        if (time < _timeUs)
        {
            faults.Report(line, _row.ColumnOf(at), FaultCodes.TimeBackwards, FaultText.TimeBackwards);
            time = _timeUs;
        }

        _timeUs = time;
        queue.Enqueue(new MeasurementRecord(time, line, millivolts, milliamperes));
    }

    private int? Value(long line, TableColumns columns, string holds)
    {
        int at = columns[holds];
        ReadOnlySpan<byte> cell = at < 0 ? [] : _row[at];
        if (cell.IsEmpty)
        {
            return null;
        }

        if ((columns.UnitOf(holds) ?? default).TryRead(cell, MilliPower, out long value)
            && value is >= -CaptureLimits.MaximumMeasurement and <= CaptureLimits.MaximumMeasurement)
        {
            return (int)value;
        }

        faults.Report(line, _row.ColumnOf(at), FaultCodes.TableRowInvalid, FaultText.MeasurementInvalid(holds, cell));
        return null;
    }
}
