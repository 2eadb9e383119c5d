using Portwitness.Analysis.Plots;
using Portwitness.Captures;
using Portwitness.Captures.PowerLogs;

namespace Portwitness.Product.Energy;

/// <summary>
/// Takes the bytes of one log. The usual step is the median of the first 1,000 steps forward; one that is more than five times as
/// long, or longer than an hour, is a gap, unless the product file says what is. Memory does not grow with the log.
/// </summary>
public sealed class LogIntake : IPowerLogSink, IDisposable
{
    /// <summary>A step that is longer is a gap whatever is stated; sums are bounded by it.</summary>
    public const long MaxStepUs = 3_600_000_000;

    /// <summary>So many usual steps are no gap yet (common practice, no source).</summary>
    public const int UsualSteps = 5;

    private const int Sample = 1_000;

    private readonly ProductLog _log;
    private readonly LogMeter _meter;
    private readonly PowerLogReader _reader;
    private readonly List<PowerLogRow> _held = [];
    private readonly List<CaptureFault> _faults = [];
    private readonly Trace _trace = new();
    private LogFollower? _follower;
    private SustainFollower? _sustain;
    private ChargeFollower? _charge;
    private long _longestStepUs;
    private long _rows;

    /// <summary>An intake for a log of a product file.</summary>
    public LogIntake(ProductLog log)
    {
        ArgumentNullException.ThrowIfNull(log);
        _log = log;
        _meter = new LogMeter(log.MeasuredAt, log.Accuracy);
        _reader = new PowerLogReader(this, log.Columns, log.Temperatures);
    }

    /// <summary>Takes the next piece.</summary>
    public void Write(ReadOnlySpan<byte> piece) => _reader.Write(piece);

    /// <inheritdoc/>
    public void OnRow(in PowerLogRow row)
    {
        _rows++;
        _trace.Add(row.TimeUs, Thousandth(row.Microvolts), Thousandth(row.Microamperes));
        if (_follower is not null)
        {
            _follower.Add(row);
            _sustain?.Add(row);
            _charge?.Add(row);
            return;
        }

        _held.Add(row);
        if (_held.Count > Sample)
        {
            Begin();
        }
    }

    /// <inheritdoc/>
    public void OnFault(CaptureFault fault) => _faults.Add(fault);

    /// <summary>Says that there is no more, and gives what was learned.</summary>
    public MeasuredLog Complete()
    {
        _reader.Complete();
        _reader.Dispose();
        LogFollower follower = _follower ?? Begin();
        follower.Complete();
        return MeasuredLogs.Of(_log, _meter, follower) with
        {
            Rows = _rows,
            LongestStepUs = _longestStepUs,
            UnitsAssumed = _reader.UnitsAssumed,
            Faults = [.. _faults],
            Trace = _trace.Spans,
            Sustained = _sustain?.ToPower(),
            Charging = _charge?.ToCurve(),
        };
    }

    /// <inheritdoc/>
    public void Dispose() => _reader.Dispose();

    private LogFollower Begin()
    {
        _longestStepUs = Math.Min(MaxStepUs, _log.LongestStepUs ?? (UsualStep() is { } usual ? UsualSteps * usual : MaxStepUs));
        _follower = new LogFollower(_log, _meter, _longestStepUs);
        _sustain = _log is { Kind: LogKind.Discharge, AtVoltage: { } at } ? new SustainFollower(at, _log.AtCurrent, _longestStepUs) : null;
        _charge = _log.Kind == LogKind.Charge ? new ChargeFollower(_longestStepUs) : null;
        foreach (PowerLogRow row in _held)
        {
            _follower.Add(row);
            _sustain?.Add(row);
            _charge?.Add(row);
        }

        _held.Clear();
        return _follower;
    }

    private static int Thousandth(long millionths) => (int)Math.Clamp(millionths / 1000, int.MinValue, int.MaxValue);

    // Coarse clocks give many rows the same time.
    private long? UsualStep()
    {
        List<long> steps = [];
        for (int row = 1; row < _held.Count; row++)
        {
            long step = _held[row].TimeUs - _held[row - 1].TimeUs;
            if (step > 0)
            {
                steps.Add(Math.Min(step, MaxStepUs));
            }
        }

        steps.Sort();
        return steps.Count == 0 ? null : steps[steps.Count / 2];
    }
}
