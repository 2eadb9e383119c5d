namespace Portwitness.Analysis.Measuring;

/// <summary>One measurement of VBUS.</summary>
/// <param name="TimeUs">Microseconds from the start of the capture.</param>
/// <param name="Millivolts">VBUS.</param>
/// <param name="Milliamperes">Current out of the port at the same time; null when it was not measured.</param>
public readonly record struct Sample(long TimeUs, int Millivolts, int? Milliamperes)
{
    /// <summary>The amount of the current, whichever way the meter counts; null when it was not measured.</summary>
    public int? Load => Milliamperes is { } amperes ? Math.Abs(amperes) : null;
}

/// <summary>Consecutive samples beyond a limit. Between them VBUS may have been anything.</summary>
/// <param name="StartUs">The first of them.</param>
/// <param name="EndUs">The last of them.</param>
/// <param name="Samples">How many.</param>
/// <param name="Extreme">The value that is furthest off, in mV or mA.</param>
/// <param name="LeastMilliamperes">The smallest current among them; null when one has none.</param>
/// <param name="MostMilliamperes">The largest current among them; null when one has none.</param>
public readonly record struct Run(
    long StartUs, long EndUs, int Samples, int Extreme, int? LeastMilliamperes, int? MostMilliamperes)
{
    /// <summary>Fewer samples may each be a moment of its own.</summary>
    public const int LeastSamples = 3;

    /// <summary>Proved to last so long at least.</summary>
    public long DurationUs => EndUs - StartUs;

    /// <summary>Lasts longer than a transient may, with samples enough to call it one deviation.</summary>
    public bool Outlasts(long transientUs) => Samples >= LeastSamples && DurationUs > transientUs;
}

/// <summary>Finds runs of samples beyond a limit and keeps the longest.</summary>
/// <param name="sign">1 where larger is worse, -1 where smaller is.</param>
public sealed class RunTracker(int sign)
{
    private Run _current;

    /// <summary>The one that lasted longest; null when there was none.</summary>
    public Run? Longest { get; private set; }

    /// <summary>The one with the value that was furthest off; null when there was none.</summary>
    public Run? Deepest { get; private set; }

    /// <summary>How many there were.</summary>
    public long Runs { get; private set; }

    /// <summary>There is or was one.</summary>
    public bool IsAny => Runs > 0 || _current.Samples > 0;

    /// <summary>Takes the next sample.</summary>
    public void Add(bool beyond, long timeUs, int value, int? milliamperes)
    {
        if (!beyond)
        {
            if (_current.Samples > 0)
            {
                End();
            }
        }
        else if (_current.Samples == 0)
        {
            _current = new Run(timeUs, timeUs, 1, value, milliamperes, milliamperes);
        }
        else
        {
            _current = new Run(
                _current.StartUs, timeUs, _current.Samples + 1, Worse(_current.Extreme, value),
                _current.LeastMilliamperes is { } least && milliamperes is { } one ? Math.Min(least, one) : null,
                _current.MostMilliamperes is { } most && milliamperes is { } other ? Math.Max(most, other) : null);
        }
    }

    /// <summary>Nothing follows; the run that is not over yet counts as far as it was seen.</summary>
    public void End()
    {
        if (_current.Samples == 0)
        {
            return;
        }

        Runs++;
        if (Deepest is not { } deepest || (deepest.Extreme != _current.Extreme && Worse(deepest.Extreme, _current.Extreme) == _current.Extreme))
        {
            Deepest = _current;
        }

        if (Longest is not { } longest
            || (_current.DurationUs, _current.Samples).CompareTo((longest.DurationUs, longest.Samples)) > 0)
        {
            Longest = _current;
        }

        _current = default;
    }

    /// <summary>Drops the run that is not over yet when it began after a time.</summary>
    public void DropSince(long timeUs)
    {
        if (_current.StartUs >= timeUs)
        {
            _current = default;
        }
    }

    /// <summary>Forgets everything.</summary>
    public void Clear() => (_current, Longest, Deepest, Runs) = (default, null, null, 0);

    private int Worse(int left, int right) => sign > 0 ? Math.Max(left, right) : Math.Min(left, right);
}
