using Portwitness.Captures.PowerLogs;
using Portwitness.PowerDelivery.Units;

namespace Portwitness.Product.Energy;

/// <summary>
/// Follows the power of a load from when it comes on until it goes off or is taken away: windows of ten seconds, of which the last fifteen minutes are
/// kept. Memory does not grow with the log.
/// </summary>
internal sealed class SustainFollower
{
    private const long Second = 1_000_000;
    private const long Minute = 60 * Second;
    private const long WindowUs = 10 * Second;
    private const long KeptUs = 15 * Minute;
    private const long SteadyUs = 5 * Minute;
    private const long LeastForSteadyUs = 10 * Minute;

    // "for half a minute": a dip is no fall.
    private const int WindowsOfAFall = 3;
    private const int FallPpm = 20_000;
    private const int SteadyPpm = 50_000;
    private const int SteadyMillikelvins = 1_000;

    // A load that draws half of what it was set to is on.
    private const long LeastLoad = 50_000;

    private readonly Queue<Window> _kept = new();
    private readonly long?[] _atMarks = new long?[SustainedPower.Marks.Length];
    private readonly long _longestStepUs;
    private readonly long _windowUs;
    private readonly long _load;
    private readonly long _off;
    private PowerLogRow? _last;
    private WindowSum _open;
    private WindowSum _firstMinute;
    private EnergySums _sums;
    private EnergySums _untilFall;
    private long _startUs;
    private long _forUs;
    private Window? _level;
    private Window? _falling;
    private long? _lowSinceUs;
    private long _fellAtUs;
    private int _fallingWindows;
    private bool _ended;

    /// <summary>A follower of a load at a voltage.</summary>
    /// <param name="at">What the output is to have.</param>
    /// <param name="drawn">What the load was set to; null when it is not stated.</param>
    /// <param name="longestStepUs">A longer step between rows is a gap.</param>
    public SustainFollower(Voltage at, Current? drawn, long longestStepUs)
    {
        (_off, _load, _longestStepUs) = (at.Millivolts * 500L, drawn is { } amperes ? amperes.Milliamperes * 500L : LeastLoad, longestStepUs);
        _windowUs = Math.Max(WindowUs, Math.Min(longestStepUs, Minute) / LogIntake.UsualSteps * 2);
    }

    private PowerFall Fall { get; set; }

    private long? FellAtUs { get; set; }

    private (long Microvolts, long Microamperes) AtFall { get; set; }

    private int? SurfaceAtFall { get; set; }

    private long? RecoveredAtUs { get; set; }

    private (int Millidegrees, long AtUs)? Hottest { get; set; }

    /// <summary>Takes the next row.</summary>
    public void Add(in PowerLogRow row)
    {
        if (_ended)
        {
            return;
        }

        bool isOff = row.Microvolts < _off;
        bool draws = Math.Abs(row.Microamperes) >= _load;
        if (_last is not { } last)
        {
            if (!isOff && draws)
            {
                (_startUs, _last) = (row.TimeUs, row);
                Look(row);
            }

            return;
        }

        long step = row.TimeUs - last.TimeUs;
        if (isOff || !draws || step < 0 || step > _longestStepUs)
        {
            End(isOff);
            return;
        }

        _open.Add(last, row);
        _sums.Add(last, row);
        Look(row);
        (_last, _forUs) = (row, row.TimeUs - _startUs);
        _lowSinceUs = IsLow(row) ? _lowSinceUs ?? _forUs : null;
        if (_open.TimeUs >= _windowUs)
        {
            Close();
        }
    }

    /// <summary>What was seen; null when no load was on for a minute.</summary>
    public SustainedPower? ToPower()
    {
        if (!_ended)
        {
            End(wentOff: false);
        }

        if (_level is not { } level)
        {
            return null;
        }

        Window[] lastMinutes = [.. _kept.Where(window => window.EndUs > _forUs - SteadyUs)];
        bool isLong = _forUs >= LeastForSteadyUs && lastMinutes.Length > 1;
        EnergySums until = FellAtUs is null ? _sums : _untilFall;
        return new SustainedPower
        {
            StartUs = _startUs,
            ForUs = _forUs,
            FirstMilliwatts = level.Milliwatts,
            AtMarks = [.. _atMarks],
            SteadyMilliwatts = isLong ? (long)lastMinutes.Average(static window => window.Milliwatts) : null,
            IsPowerSteady = isLong ? lastMinutes.Min(static window => window.Milliwatts) * 1_000_000m >= lastMinutes.Max(static window => window.Milliwatts) * (1_000_000m - SteadyPpm) : null,
            Fall = Fall,
            FellAtUs = FellAtUs,
            AtFall = AtFall,
            RecoveredAtUs = RecoveredAtUs,
            UntilFall = (Math.Abs(until.MicroampereHours), Math.Abs(until.MicrowattHours)),
            Temperatures = Temperatures(),
        };
    }

    private SurfaceTemperatures? Temperatures()
    {
        if (Hottest is not { } hottest || _kept.LastOrDefault() is not { Surface: { } surface } last)
        {
            return null;
        }

        int[] surfaces = [.. _kept.Select(static window => window.Surface).OfType<int>()];
        bool? isSteady = _forUs >= KeptUs && surfaces.Length == _kept.Count ? surfaces.Max() - surfaces.Min() <= SteadyMillikelvins : null;
        return new SurfaceTemperatures(hottest.Millidegrees, hottest.AtUs, surface, last.Room, SurfaceAtFall, isSteady);
    }

    private void Look(in PowerLogRow row)
    {
        if (row.SurfaceMillidegrees is { } surface && !(Hottest?.Millidegrees >= surface))
        {
            Hottest = (surface, row.TimeUs - _startUs);
        }
    }

    private void Close()
    {
        Window window = _open.ToWindow(_forUs);
        _kept.Enqueue(window);
        while (_kept.Peek().EndUs <= _forUs - KeptUs)
        {
            _kept.Dequeue();
        }

        for (int mark = 0; mark < _atMarks.Length; mark++)
        {
            _atMarks[mark] ??= window.EndUs >= SustainedPower.Marks[mark] * Minute ? window.Milliwatts : null;
        }

        if (_level is null)
        {
            _firstMinute.Add(_open);
            _level = window.EndUs >= Minute ? _firstMinute.ToWindow(_forUs) : null;
        }
        else
        {
            Watch(_level, window);
        }

        _open = default;
    }

    private bool IsLow(in PowerLogRow row) => _level is { } level
        && (decimal)row.Microvolts * Math.Abs(row.Microamperes) / 1_000_000_000m < level.Milliwatts * (1_000_000m - FallPpm) / 1_000_000m;

    // The load that draws less at the same voltage is none of the source's doing; one of constant resistance draws less because the voltage fell.
    private void Watch(Window level, Window window)
    {
        if (window.Milliwatts * 1_000_000m >= level.Milliwatts * (1_000_000m - FallPpm))
        {
            RecoveredAtUs ??= Fall is PowerFall.Voltage or PowerFall.Current ? window.EndUs : null;
            (_falling, _fallingWindows) = (null, 0);
            return;
        }

        if (Fall != PowerFall.None)
        {
            return;
        }

        if (_falling is null)
        {
            (_falling, _untilFall, _fellAtUs) = (window, _sums, _lowSinceUs ?? window.EndUs);
        }

        if (++_fallingWindows == WindowsOfAFall)
        {
            bool isOfVoltage = (level.Microvolts - window.Microvolts) * 1_000_000m > level.Microvolts * (decimal)FallPpm / 2;
            (Fall, FellAtUs, AtFall, SurfaceAtFall) = (
                isOfVoltage ? PowerFall.Voltage : PowerFall.Current, _fellAtUs, (window.Microvolts, window.Microamperes), _falling.Surface);
        }
    }

    private void End(bool wentOff)
    {
        _ended = true;
        if (wentOff && Fall == PowerFall.None && _level is { } level)
        {
            (Fall, FellAtUs, AtFall, _untilFall, SurfaceAtFall) = (PowerFall.Off, _forUs, (level.Microvolts, level.Microamperes), _sums, _kept.LastOrDefault()?.Surface);
        }
    }

    /// <summary>Means of one window.</summary>
    private sealed record Window(long EndUs, long Milliwatts, long Microvolts, long Microamperes, int? Surface, int? Room);

    /// <summary>Sums of a window, in which values run in straight lines between rows.</summary>
    private struct WindowSum
    {
        private Int128 _power;
        private Int128 _volts;
        private Int128 _amperes;
        private long _surface;
        private long _room;
        private int _surfaces;
        private int _rooms;

        public long TimeUs { get; private set; }

        public void Add(in PowerLogRow from, in PowerLogRow to)
        {
            long time = to.TimeUs - from.TimeUs;
            (long one, long other) = (Math.Abs(from.Microamperes), Math.Abs(to.Microamperes));
            TimeUs += time;
            _power += ((Int128)from.Microvolts * one + (Int128)to.Microvolts * other) / 2 * time;
            _volts += ((Int128)from.Microvolts + to.Microvolts) / 2 * time;
            _amperes += ((Int128)one + other) / 2 * time;
            (_surface, _surfaces) = to.SurfaceMillidegrees is { } surface ? (_surface + surface, _surfaces + 1) : (_surface, _surfaces);
            (_room, _rooms) = to.RoomMillidegrees is { } room ? (_room + room, _rooms + 1) : (_room, _rooms);
        }

        public void Add(in WindowSum other)
        {
            TimeUs += other.TimeUs;
            (_power, _volts, _amperes) = (_power + other._power, _volts + other._volts, _amperes + other._amperes);
            (_surface, _surfaces, _room, _rooms) = (_surface + other._surface, _surfaces + other._surfaces, _room + other._room, _rooms + other._rooms);
        }

        public readonly Window ToWindow(long endUs) => new(
            endUs, TimeUs == 0 ? 0 : (long)(_power / TimeUs / 1_000_000_000), TimeUs == 0 ? 0 : (long)(_volts / TimeUs), TimeUs == 0 ? 0 : (long)(_amperes / TimeUs),
            _surfaces == 0 ? null : (int)(_surface / _surfaces), _rooms == 0 ? null : (int)(_room / _rooms));
    }
}
