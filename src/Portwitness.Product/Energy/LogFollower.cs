using Portwitness.Captures.PowerLogs;

namespace Portwitness.Product.Energy;

/// <summary>
/// Follows a log row by row: adds up, notices when the load comes on, and when the discharge ends. It is over when the voltage
/// stays below the stated cut-off, when the output goes off, when the load is taken away, or with the log.
/// </summary>
internal sealed class LogFollower
{
    /// <summary>A dip below the cut-off that is no longer than this is no end (common practice, no source).</summary>
    private const long DipUs = 5_000_000;

    /// <summary>Without a stated current, a load is what draws this much.</summary>
    private const long LeastLoad = 50_000;

    private const int MaxCollapses = 20;

    private readonly ProductLog _log;
    private readonly long _longestStepUs;
    private readonly long _load;
    private readonly List<Collapse> _collapses = [];
    private Tally _tally;
    private PowerLogRow _last;
    private Pause? _pause;
    private Tally? _atFirstCollapse;
    private long _collapseCount;
    private long _highest;
    private bool _begun;
    private bool _loaded;
    private bool _drew;
    private bool _over;

    /// <summary>A follower of what a product file says of a log.</summary>
    public LogFollower(ProductLog log, LogMeter meter, long longestStepUs)
    {
        (_log, _longestStepUs) = (log, longestStepUs);
        _load = log.AtCurrent is { } amps ? amps.Milliamperes * 500L : LeastLoad;
        Plateau = new Plateau(log.Kind == LogKind.Discharge ? log.AtVoltage : null, meter);
    }

    /// <summary>The time under load.</summary>
    public Plateau Plateau { get; }

    /// <summary>What was counted to the end of the discharge, or of the log.</summary>
    public Tally Final => Ending?.Before ?? _tally;

    /// <summary>What was counted when the output went off for the first time; null when it never did.</summary>
    public Tally? AtFirstCollapse => _atFirstCollapse;

    /// <summary>Times that the output went off under load; at most some are listed.</summary>
    public IReadOnlyList<Collapse> Collapses => _collapses;

    /// <summary>How many there were.</summary>
    public long CollapseCount => _collapseCount;

    /// <summary>Whether a load was ever on.</summary>
    public bool EverLoaded { get; private set; }

    /// <summary>How it ended.</summary>
    public LogEnd End => Ending?.Kind ?? LogEnd.LogEnded;

    /// <summary>When, in the log's time.</summary>
    public long EndUs => Ending?.First.TimeUs ?? _last.TimeUs;

    // A voltage that has not stayed below the cut-off for long has ended nothing.
    private Pause? Ending => _pause is { Kind: LogEnd.CutOff } && !_over ? null : _pause;

    /// <summary>Takes the next row.</summary>
    public void Add(in PowerLogRow row)
    {
        if (_over)
        {
            return;
        }

        if (!_begun)
        {
            (_begun, _last) = (true, row);
        }

        Tally before = _tally;
        bool goesOn = _tally.Step(_last, row, _longestStepUs);
        _tally.Look(row);
        if (_log.Kind == LogKind.Discharge)
        {
            Watch(row, before, goesOn);
        }

        _last = row;
    }

    /// <summary>Says that there are no more rows.</summary>
    public void Complete()
    {
        if (End is LogEnd.CutOff or LogEnd.OutputOff)
        {
            Plateau.End();
        }

        Plateau.Break();
    }

    private void Watch(in PowerLogRow row, in Tally before, bool goesOn)
    {
        _highest = Math.Max(_highest, row.Microvolts);
        bool isOff = row.Microvolts < (_log.AtVoltage is { } nominal ? nominal.Millivolts * 500L : _highest / 2);
        bool isBelow = row.Microvolts < (_log.CutOff?.Millivolts ?? int.MinValue) * 1000L;
        bool draws = Math.Abs(row.Microamperes) >= _load;
        bool isLoaded = !isOff && !isBelow && draws;
        if (!isOff)
        {
            ComeBack(row);
        }

        if (isLoaded)
        {
            _pause = null;
            Plateau.Add(row, goesOn && _loaded);
            EverLoaded = true;
        }
        else if (_loaded)
        {
            Begin(row, before, isOff ? LogEnd.OutputOff : isBelow ? LogEnd.CutOff : LogEnd.LoadOff);
        }
        else if (_pause is { Kind: LogEnd.CutOff } pause)
        {
            GoOn(pause, row, isOff, isBelow, goesOn);
        }

        (_loaded, _drew) = (isLoaded, draws);
    }

    private void Begin(in PowerLogRow row, Tally before, LogEnd kind)
    {
        before.LeaveOpen(row.TimeUs - _last.TimeUs);
        _pause = new Pause(kind, row, row.TimeUs, before);
        if (kind == LogEnd.OutputOff)
        {
            Collapse(row, before);
        }
    }

    // Below the cut-off: the output may still go off, or the load be taken away. A gap does not say that it stayed there.
    private void GoOn(Pause pause, in PowerLogRow row, bool isOff, bool isBelow, bool goesOn)
    {
        if (isOff && _drew)
        {
            _pause = pause with { Kind = LogEnd.OutputOff };
            Collapse(row, pause.Before);
        }
        else if (!isOff && !isBelow)
        {
            _pause = pause with { Kind = LogEnd.LoadOff };
        }
        else if (!goesOn)
        {
            _pause = pause with { SinceUs = row.TimeUs };
        }
        else
        {
            _over = row.TimeUs - pause.SinceUs >= DipUs;
        }
    }

    private void Collapse(in PowerLogRow row, in Tally before)
    {
        _atFirstCollapse ??= before;
        if (++_collapseCount <= MaxCollapses)
        {
            _collapses.Add(new Collapse(row.TimeUs, row.Line, _last.Microvolts, Math.Abs(_last.Microamperes), null));
        }
    }

    // The output is back, whether the load is or not.
    private void ComeBack(in PowerLogRow row)
    {
        if (_pause is { Kind: LogEnd.OutputOff } && _collapseCount <= MaxCollapses && _collapses[^1] is { OffUs: null } off)
        {
            _collapses[^1] = off with { OffUs = Math.Max(0, row.TimeUs - off.AtUs) };
        }
    }

    /// <summary>The load is not on, or does not get its voltage.</summary>
    /// <param name="Kind">What it would be the end by.</param>
    /// <param name="First">The first row.</param>
    /// <param name="SinceUs">Since then the voltage is known to stay below the cut-off.</param>
    /// <param name="Before">What was counted before.</param>
    private sealed record Pause(LogEnd Kind, PowerLogRow First, long SinceUs, Tally Before);
}
