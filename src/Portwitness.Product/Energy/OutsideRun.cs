using Portwitness.Captures.PowerLogs;

namespace Portwitness.Product.Energy;

/// <summary>Finds the longest time that the voltage stays beyond a limit.</summary>
/// <param name="limit">In µV.</param>
/// <param name="above">Whether it is beyond above the limit, or below.</param>
internal sealed class OutsideRun(long limit, bool above)
{
    private PowerLogRow _first;
    private PowerLogRow _last;
    private bool _running;
    private long _extreme;
    private long _rows;

    /// <summary>The longest one; null when there was none of two rows.</summary>
    public Outside? Longest { get; private set; }

    /// <summary>Takes the next row; a step that is no gap lies before it.</summary>
    public void Add(in PowerLogRow row)
    {
        if (above ? row.Microvolts <= limit : row.Microvolts >= limit)
        {
            Break();
            return;
        }

        if (!_running)
        {
            (_running, _first, _extreme, _rows) = (true, row, row.Microvolts, 0);
        }

        _last = row;
        _rows++;
        _extreme = above ? Math.Max(_extreme, row.Microvolts) : Math.Min(_extreme, row.Microvolts);
    }

    /// <summary>Says that the rows do not go on.</summary>
    public void Break()
    {
        if (_running && _rows > 1 && _last.TimeUs - _first.TimeUs > (Longest?.LengthUs ?? -1))
        {
            Longest = Current;
        }

        _running = false;
    }

    /// <summary>Says that the output went off. What was beyond only on its way down there, for less than a length, is left out.</summary>
    public void End(long leastUs)
    {
        if (_running && _last.TimeUs - _first.TimeUs < leastUs)
        {
            _running = false;
        }

        Break();
    }

    private Outside Current => new(_first.TimeUs, _last.TimeUs - _first.TimeUs, _extreme, _first.Line);
}

/// <summary>A time that the voltage was beyond a limit.</summary>
/// <param name="StartUs">The log's time of the first row.</param>
/// <param name="LengthUs">From the first row to the last.</param>
/// <param name="Microvolts">The voltage that was farthest out.</param>
/// <param name="Line">The first row's line.</param>
public sealed record Outside(long StartUs, long LengthUs, long Microvolts, long Line);
