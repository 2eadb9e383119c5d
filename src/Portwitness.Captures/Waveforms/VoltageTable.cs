using Portwitness.Captures.Input;

namespace Portwitness.Captures.Waveforms;

/// <summary>
/// Reads a table of times and voltages of the CC line, or of the two CC lines of a port, as oscilloscopes export it. Times count from the first row.
/// </summary>
internal sealed class VoltageTable(ICaptureSink sink, FaultLog faults, WaveformOptions options) : ILineReader
{
    private const int RowsToTell = 6;
    private const int MaxHeadingBytes = 4096;

    // A recording of frames has a sample in less than two microseconds; one of VBUS alone is far slower.
    private const long SlowestStepPs = 1_500_000;

    private byte[] _heading = [];
    private (VoltageColumns Columns, SampleBlock<int> Block)[] _lines = [];
    private SignalChoice? _choice;
    private long _firstPs;
    private long _lastPs;
    private bool _begun;
    private bool _gap;
    private bool _stopped;

    /// <summary>Whether an input begins with rows of numbers whose times are as close together as a recording of the line needs.</summary>
    public static bool IsLikely(ReadOnlySpan<byte> start, WaveformOptions options)
    {
        int rows = 0;
        long first = 0;
        long last = 0;
        ReadOnlySpan<byte> heading = [];
        VoltageColumns? columns = null;
        int whole = start.LastIndexOf((byte)'\n');
        foreach (Range range in start[..Math.Max(whole, 0)].Split((byte)'\n'))
        {
            ReadOnlySpan<byte> line = start[range].TrimEnd((byte)'\r');
            NumberRow row = new(line);
            if (!row.IsNumeric)
            {
                heading = rows == 0 ? line : heading;
                continue;
            }

            columns ??= VoltageColumns.Find(heading, row.Count, options, out _).FirstOrDefault();
            if (columns is null || !row.TryNumber(columns.Time, columns.TimeDecimals, out long time) || (rows > 0 && time < last))
            {
                // Several columns may be the line: that is said when it is read.
                return columns is null && options.Signal is not null && row.Count > 1;
            }

            first = rows == 0 ? time : first;
            last = time;
            rows++;
        }

        return rows >= RowsToTell && last > first && (last - first) / (rows - 1) <= SlowestStepPs;
    }

    /// <inheritdoc/>
    public void Read(long line, ReadOnlySpan<byte> text)
    {
        if (_stopped)
        {
            return;
        }

        NumberRow row = new(text);
        if (_lines.Length == 0)
        {
            if (!row.IsNumeric)
            {
                _heading = text[..Math.Min(text.Length, MaxHeadingBytes)].ToArray();
                return;
            }

            Begin(line, row.Count);
        }

        if (_lines.Length > 0)
        {
            AddRow(line, row);
        }
    }

    /// <inheritdoc/>
    public void Skipped(long line) => _gap = true;

    /// <inheritdoc/>
    public void Complete()
    {
        if (_lines.Length == 0 && !_stopped)
        {
            Begin(0, 0);
        }

        foreach ((_, SampleBlock<int> block) in _lines)
        {
            block.Complete();
        }

        if (_choice is { IsSettled: false })
        {
            faults.Report(0, 0, FaultCodes.WaveformWithoutFrames, FaultText.WaveformWithoutFrames(_lines.Length));
        }
    }

    private void Begin(long line, int count)
    {
        VoltageColumns[] found = VoltageColumns.Find(_heading, count, options, out string known);
        if (found.Length > 1)
        {
            _choice = new SignalChoice(sink, faults, areOfOnePort: true);
            _lines = [.. found.Select(one =>
                (one, SampleInputs.Microvolts(_choice.Add(one.Name), new FaultLog(new SignalFaults(null)), options, clock: null)))];
            return;
        }

        if (found.Length == 1)
        {
            _lines = [(found[0], SampleInputs.Microvolts(sink, faults, options, clock: null))];
            return;
        }

        _stopped = true;
        sink.OnHeader(new CaptureHeader { Format = SampleInputs.Format });
        faults.Report(line, 1, FaultCodes.SignalUnsettled, options.Signal is { } signal
            ? FaultText.SignalMissing(signal, known)
            : FaultText.SignalAmbiguous(known));
    }

    private void AddRow(long line, NumberRow row)
    {
        VoltageColumns first = _lines[0].Columns;
        Span<long> microvolts = stackalloc long[_lines.Length];
        bool isRead = row.TryNumber(first.Time, first.TimeDecimals, out long time);
        for (int at = 0; at < _lines.Length; at++)
        {
            VoltageColumns columns = _lines[at].Columns;
            isRead &= row.TryNumber(columns.Voltage, columns.VoltageDecimals, out microvolts[at]);
        }

        if (!isRead)
        {
            _gap = true;
            faults.Report(line, 1, FaultCodes.WaveformRowInvalid, FaultText.TableRowInvalid);
            return;
        }

        if (!_begun)
        {
            (_firstPs, _lastPs, _begun, _gap) = (time, time, true, false);
        }

        if (time < _lastPs)
        {
            faults.Report(line, 1, FaultCodes.TimeBackwards, FaultText.TableTimeBackwards);
            return;
        }

        for (int at = 0; at < _lines.Length; at++)
        {
            SampleBlock<int> block = _lines[at].Block;
            if (_gap)
            {
                block.Interrupt(_lastPs - _firstPs, time - _firstPs);
            }

            block.Add(SampleInputs.Limit(microvolts[at]), time - _firstPs);
        }

        (_lastPs, _gap) = (time, false);
    }
}
