using Portwitness.Captures.Input;

namespace Portwitness.Captures.Waveforms;

/// <summary>Reads a table of times and voltages of the CC line, as oscilloscopes export it. Times count from the first row.</summary>
internal sealed class VoltageTable(ICaptureSink sink, FaultLog faults, WaveformOptions options) : ILineReader
{
    private const int RowsToTell = 6;
    private const int MaxHeadingBytes = 4096;

    // A recording of frames has a sample in less than two microseconds; one of VBUS alone is far slower.
    private const long SlowestStepPs = 1_500_000;

    private byte[] _heading = [];
    private VoltageColumns? _columns;
    private SampleBlock<int>? _block;
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

            columns ??= VoltageColumns.Find(heading, row.Count, options, out _);
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
        if (_columns is null)
        {
            if (!row.IsNumeric)
            {
                _heading = text[..Math.Min(text.Length, MaxHeadingBytes)].ToArray();
                return;
            }

            Begin(line, row.Count);
        }

        if (_columns is { } columns)
        {
            Take(line, row, columns);
        }
    }

    /// <inheritdoc/>
    public void Skipped(long line) => _gap = true;

    /// <inheritdoc/>
    public void Complete()
    {
        if (_block is null && !_stopped)
        {
            Begin(0, 0);
        }

        _block?.Complete();
    }

    private void Begin(long line, int count)
    {
        _columns = VoltageColumns.Find(_heading, count, options, out string known);
        if (_columns is not null)
        {
            _block = SampleInputs.Microvolts(sink, faults, options, clock: null);
            return;
        }

        _stopped = true;
        sink.OnHeader(new CaptureHeader { Format = SampleInputs.Format });
        faults.Report(line, 1, FaultCodes.SignalUnsettled, options.Signal is { } signal
            ? FaultText.SignalMissing(signal, known)
            : FaultText.SignalAmbiguous(known));
    }

    private void Take(long line, NumberRow row, VoltageColumns columns)
    {
        if (!row.TryNumber(columns.Time, columns.TimeDecimals, out long time)
            || !row.TryNumber(columns.Voltage, columns.VoltageDecimals, out long microvolts))
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

        if (_gap)
        {
            _block!.Interrupt(_lastPs - _firstPs, time - _firstPs);
            _gap = false;
        }

        _lastPs = time;
        _block!.Add(SampleInputs.Limit(microvolts), time - _firstPs);
    }
}
