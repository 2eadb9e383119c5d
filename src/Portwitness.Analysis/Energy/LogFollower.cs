using Portwitness.Captures.PowerLogs;

namespace Portwitness.Analysis.Energy;

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

    private const int MostCollapses = 20;

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
    public Tally Final => _pause?.Before ?? _tally;

    /// <summary>What was counted when the output went off for the first time; null when it never did.</summary>
    public Tally? AtFirstCollapse => _atFirstCollapse;

    /// <summary>Times that the output went off under load; at most some are listed.</summary>
    public IReadOnlyList<Collapse> Collapses => _collapses;

    /// <summary>How many there were.</summary>
    public long CollapseCount => _collapseCount;

    /// <summary>Whether a load was ever on.</summary>
    public bool EverLoaded { get; private set; }

    /// <summary>How it ended.</summary>
    public LogEnd End => _pause?.Kind ?? LogEnd.LogEnded;

    /// <summary>When, in the log's time.</summary>
    public long EndUs => _pause?.First.TimeUs ?? _last.TimeUs;

    /// <summary>Takes the next row.</summary>
    public void Take(in PowerLogRow row)
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
        if (_pause?.Kind is LogEnd.CutOff or LogEnd.OutputOff)
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
        bool isLoaded = !isOff && !isBelow && Math.Abs(row.Microamperes) >= _load;
        if (isLoaded)
        {
            Resume(row);
            Plateau.Take(row, goesOn && _loaded);
            EverLoaded = true;
        }
        else if (_loaded)
        {
            Begin(row, before, isOff ? LogEnd.OutputOff : isBelow ? LogEnd.CutOff : LogEnd.LoadOff);
        }
        else if (_pause is { Kind: LogEnd.CutOff } pause && row.TimeUs - pause.First.TimeUs >= DipUs)
        {
            _over = true;
        }

        _loaded = isLoaded;
    }

    private void Begin(in PowerLogRow row, Tally before, LogEnd kind)
    {
        before.LeaveOpen(row.TimeUs - _last.TimeUs);
        _pause = new Pause(kind, row, before);
        if (kind != LogEnd.OutputOff)
        {
            return;
        }

        _atFirstCollapse ??= before;
        if (++_collapseCount <= MostCollapses)
        {
            _collapses.Add(new Collapse(row.TimeUs, row.Line, _last.Microvolts, Math.Abs(_last.Microamperes), null));
        }
    }

    private void Resume(in PowerLogRow row)
    {
        if (_pause is { Kind: LogEnd.OutputOff } pause && _collapseCount <= MostCollapses)
        {
            _collapses[^1] = _collapses[^1] with { OffUs = Math.Max(0, row.TimeUs - pause.First.TimeUs) };
        }

        _pause = null;
    }

    private sealed record Pause(LogEnd Kind, PowerLogRow First, Tally Before);
}
