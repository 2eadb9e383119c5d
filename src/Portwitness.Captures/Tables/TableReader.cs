using System.Buffers;
using System.Text;
using System.Text.Json;
using System.Text.Unicode;
using Portwitness.Captures.Input;
using Portwitness.Captures.JsonLines;
using Portwitness.PowerDelivery.Framing;

namespace Portwitness.Captures.Tables;

/// <summary>
/// Reads messages from a table of any columns. Cells are cut here and not by a library for whole tables: lines come
/// from the bounded splitter of all text formats, in pieces as they arrive, and stay bytes.
/// </summary>
internal sealed class TableReader(ICaptureSink sink, FaultLog faults, TableMapping? mapping) : ILineReader
{
    private readonly RowSplitter _row = new();
    private readonly MessageCells _message = new();
    private readonly ArrayBufferWriter<byte> _members = new();
    private TableColumns? _columns;
    private TableClock _clock = new(null);
    private TimeNotes? _notes;
    private byte[] _direction = [];
    private bool _begun;
    private bool _stopped;
    private long _timeUs;
    private long _withoutMessage;
    private long _firstWithoutMessage;

    /// <inheritdoc/>
    public void Read(long line, ReadOnlySpan<byte> text)
    {
        if (_stopped || IsComment(text))
        {
            return;
        }

        if (_begun)
        {
            _row.Split(text);
            ReadRow(line);
            return;
        }

        _begun = true;
        _row.Delimiter = RowSplitter.DelimiterOf(text);
        _row.Split(text);
        _columns = TableColumns.Find(_row, mapping ?? new TableMapping(), ofMeasurements: false, line, faults);
        _stopped = _columns is null;
        sink.OnHeader(new CaptureHeader { Format = "table" });
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
            sink.OnHeader(new CaptureHeader { Format = "table" });
            faults.Report(0, 0, FaultCodes.Empty, FaultText.TableEmpty);
        }

        if (_withoutMessage > 0)
        {
            faults.Report(
                _firstWithoutMessage, 0, FaultCodes.TableRowsEmpty, FaultText.TableRowsEmpty(_withoutMessage, _firstWithoutMessage));
        }
    }

    /// <summary>Whether a line is a comment.</summary>
    public static bool IsComment(ReadOnlySpan<byte> text)
    {
        text = text.TrimStart(" \t"u8);
        return text.StartsWith("#"u8) || text.StartsWith("//"u8);
    }

    // What nothing states is said, never guessed in silence.
    private void Begin(long line, TableColumns columns)
    {
        if (columns["sop"] < 0)
        {
            faults.Report(line, 0, FaultCodes.TableAssumed, FaultText.TableSopAssumed);
        }

        _clock = new TableClock(columns.UnitOf("time"));
        _notes = new TimeNotes(faults, columns.UnitOf("time"), line, _row.ColumnOf(columns["time"]), "--time-unit", "--columns");
        if (!columns.FirstLineIsHeading)
        {
            ReadRow(line);
        }
    }

    private void ReadRow(long line)
    {
        TableColumns columns = _columns!;
        if (_row.IsBroken)
        {
            faults.Report(line, _row.ColumnOf(_row.Count - 1), FaultCodes.TableRowInvalid, FaultText.TableQuoteOpen);
            return;
        }

        _notes!.Look(_row[columns["time"]]);
        SopKind kind = SopKind.Sop;
        SignalKind? signal = null;
        int sop = columns["sop"];
        ReadOnlySpan<byte> hex = Cell(columns["hex"]);
        ReadOnlySpan<byte> header = Cell(columns["header"]);
        bool isKind = sop < 0 || SopText.TryRead(_row[sop], out kind, out signal);
        if (hex.IsEmpty && header.IsEmpty && signal is null)
        {
            _firstWithoutMessage = _withoutMessage++ == 0 ? line : _firstWithoutMessage;
            return;
        }

        if (!isKind)
        {
            faults.Report(line, _row.ColumnOf(sop), FaultCodes.TableRowInvalid, FaultText.TableSopInvalid(_row[sop]));
            return;
        }

        TakeTime(line, columns["time"]);
        if (signal is { } reset)
        {
            ReadOnlySpan<byte> members = Members(Cell(columns["direction"]));
            sink.OnSignal(new SignalRecord(_timeUs, line, reset) { Extra = members.IsEmpty ? null : Encoding.UTF8.GetString(members) });
        }
        else if (_message.Read(hex, header) is { } problem)
        {
            int cell = hex.IsEmpty ? columns["header"] : columns["hex"];
            faults.Report(line, _row.ColumnOf(cell), problem, FaultText.TableHexInvalid(problem, _row[cell]));
        }
        else
        {
            HandOn(line, kind, columns);
        }
    }

    private ReadOnlySpan<byte> Cell(int column) => column < 0 ? [] : _row[column];

    private void TakeTime(long line, int column)
    {
        if (!_clock.TryRead(_row[column], out long time) || time < 0)
        {
            _notes!.NotRead(line, _row.ColumnOf(column), _row[column], _clock.IsOpen);
        }
        else if (time < _timeUs)
        {
            faults.Report(line, _row.ColumnOf(column), FaultCodes.TimeBackwards, FaultText.TimeBackwards);
        }
        else
        {
            _timeUs = time;
        }
    }

    private void HandOn(long line, SopKind kind, TableColumns columns)
    {
        (uint? crc, bool? crcOk) = (_message.Crc, null);
        ReadOnlySpan<byte> stated = Cell(columns["crc"]);
        if (!stated.IsEmpty && !CrcText.TryRead(stated, ref crc, out crcOk))
        {
            faults.Report(line, _row.ColumnOf(columns["crc"]), FaultCodes.TableRowInvalid, FaultText.TableCrcInvalid(stated));
            crcOk = false;
        }

        sink.OnMessage(new MessageRecord
        {
            TimeUs = _timeUs,
            Line = line,
            Sop = kind,
            Bytes = _message.Bytes,
            Crc = crc,
            CrcOk = crcOk,
            Extra = Members(Cell(columns["direction"])),
        });
    }

    /// <summary>The direction as a member; a header says who sent a message, so that it means nothing here.</summary>
    private ReadOnlySpan<byte> Members(ReadOnlySpan<byte> direction)
    {
        if (direction.IsEmpty || !Utf8.IsValid(direction))
        {
            return [];
        }

        if (!direction.SequenceEqual(_direction))
        {
            _direction = direction.ToArray();
            _members.ResetWrittenCount();
            using Utf8JsonWriter json = new(_members, HeaderText.Style);
            json.WriteStartObject();
            json.WriteString("direction"u8, direction);
            json.WriteEndObject();
        }

        return _members.WrittenSpan;
    }
}
