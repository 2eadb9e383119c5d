using Portwitness.Captures.PowerLogs;

namespace Portwitness.Product.Energy;

/// <summary>
/// Follows a charge window by window. Of the energy by time at most some thousand points are kept: when there are too many, every other one goes.
/// </summary>
internal sealed class ChargeFollower
{
    private const long WindowUs = 10_000_000;
    private const long PlateauUs = 60_000_000;
    private const long EndUs = 300_000_000;
    private const int MaxPoints = 4_096;
    private const int PlateauPercent = 95;

    private readonly List<(long TimeUs, long MicrowattHours)> _points = [(0, 0)];
    private readonly long _longestStepUs;
    private readonly long _windowUs;
    private PowerLogRow? _last;
    private EnergySums _sums;
    private EnergySums _window;
    private long _startUs;
    private long _timeUs;
    private long _peak;
    private long? _fallingSinceUs;
    private long? _constantUntilUs;
    private (long TimeUs, long MicrowattHours)? _lowSince;
    private (long TimeUs, long MicrowattHours)? _end;
    private int _every = 1;
    private int _count;

    /// <summary>A follower.</summary>
    /// <param name="longestStepUs">A longer step between rows is a gap.</param>
    public ChargeFollower(long longestStepUs)
    {
        _longestStepUs = longestStepUs;
        _windowUs = Math.Max(WindowUs, Math.Min(longestStepUs, PlateauUs) / LogIntake.UsualSteps * 2);
    }

    /// <summary>Takes the next row.</summary>
    public void Add(in PowerLogRow row)
    {
        if (_last is not { } last)
        {
            (_last, _startUs) = (row, row.TimeUs);
            return;
        }

        long step = row.TimeUs - last.TimeUs;
        _last = row;
        if (step < 0 || step > _longestStepUs || _end is not null)
        {
            return;
        }

        _sums.Add(last, row);
        _window.Add(last, row);
        _timeUs = row.TimeUs - _startUs;
        if (_window.TimeUs >= _windowUs)
        {
            Close();
        }
    }

    /// <summary>What was seen; null without a window.</summary>
    public ChargeCurve? ToCurve()
    {
        (long TimeUs, long MicrowattHours) end = _end ?? (_timeUs, Math.Abs(_sums.MicrowattHours));
        return _peak == 0 || end.TimeUs == 0 ? null : new ChargeCurve
        {
            PeakMilliwatts = _peak,
            MeanMilliwatts = (long)((Int128)end.MicrowattHours * 3_600_000 / end.TimeUs),
            MicrowattHours = end.MicrowattHours,
            ConstantUntilUs = _constantUntilUs,
            EndedAtUs = _end?.TimeUs,
            AtMarks = [.. ChargeCurve.Marks.Select(mark => TimeOf((long)((Int128)end.MicrowattHours * mark / 100)))],
        };
    }

    private void Close()
    {
        long energy = Math.Abs(_sums.MicrowattHours);
        long milliwatts = (long)((Int128)Math.Abs(_window.MicrowattHours) * 3_600_000 / _window.TimeUs);
        long began = _timeUs - _window.TimeUs;
        long energyBefore = energy - Math.Abs(_window.MicrowattHours);
        _peak = Math.Max(_peak, milliwatts);
        Keep(energy);

        // What falls for a minute has left the plateau; a dip has not.
        bool isConstant = milliwatts * 100 >= _peak * PlateauPercent;
        _fallingSinceUs = isConstant ? null : _fallingSinceUs ?? began;
        _constantUntilUs = isConstant ? null : _constantUntilUs ?? (_timeUs - _fallingSinceUs >= PlateauUs ? _fallingSinceUs : null);

        bool isLow = milliwatts * 100 < _peak * ChargeCurve.EndPercent || milliwatts < ChargeCurve.EndMilliwatts;
        _lowSince = isLow ? _lowSince ?? (began, energyBefore) : null;
        _end = _lowSince is { } low && low.TimeUs > 0 && _timeUs - low.TimeUs >= EndUs ? low : null;
        _window = default;
    }

    private void Keep(long energy)
    {
        if (_count++ % _every == 0)
        {
            _points.Add((_timeUs, energy));
        }

        if (_points.Count > MaxPoints)
        {
            for (int i = 1; i < (_points.Count + 1) / 2; i++)
            {
                _points[i] = _points[2 * i];
            }

            _points.RemoveRange((_points.Count + 1) / 2, _points.Count - ((_points.Count + 1) / 2));
            _every *= 2;
        }
    }

    // Between two points in a straight line.
    private long? TimeOf(long energy)
    {
        int at = _points.FindIndex(point => point.MicrowattHours >= energy);
        if (at <= 0)
        {
            return at == 0 ? null : _timeUs;
        }

        ((long fromUs, long from), (long toUs, long to)) = (_points[at - 1], _points[at]);
        return to == from ? toUs : fromUs + (long)((Int128)(toUs - fromUs) * (energy - from) / (to - from));
    }
}
