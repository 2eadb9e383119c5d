namespace Portwitness.Analysis.Conversation;

/// <summary>
/// Keeps lines, and folds what comes again: one line, or a turn of up to four lines, such as request, Accept and PS_RDY of a
/// PPS contract that is kept alive.
/// </summary>
internal sealed class RepeatFolder
{
    /// <summary>Lines that are kept; later ones are counted.</summary>
    public const int Most = 2000;

    private const int LongestTurn = 4;

    private readonly List<TimelineEntry> _lines = [];
    private readonly List<TimelineEntry> _partial = [];
    private readonly Stack<TimelineEntry> _spare = [];
    private int _turn;
    private long _lastUs;

    /// <summary>The lines in order.</summary>
    public IReadOnlyList<TimelineEntry> Lines => _lines;

    /// <summary>Lines beyond <see cref="Most"/>.</summary>
    public long Unlisted { get; private set; }

    /// <summary>A line that was folded into another, free for the next one; null when there is none.</summary>
    public TimelineEntry? Spare() => _spare.TryPop(out TimelineEntry? spare) ? spare : null;

    /// <summary>Takes the next line.</summary>
    public void Add(TimelineEntry entry)
    {
        if (_turn == 0)
        {
            _turn = TurnThatBeginsWith(entry);
        }

        if (_turn > 0 && Same(_lines[^(_turn - _partial.Count)], entry))
        {
            _partial.Add(entry);
            if (_partial.Count == _turn)
            {
                Fold();
            }

            return;
        }

        bool within = _partial.Count > 0;
        Complete();
        if (within)
        {
            Add(entry);
        }
        else
        {
            Keep(entry);
        }
    }

    /// <summary>Keeps the lines of a turn that broke off.</summary>
    public void Complete()
    {
        foreach (TimelineEntry entry in _partial)
        {
            Keep(entry);
        }

        _partial.Clear();
        _turn = 0;
    }

    // Once full, nothing is compared any more: what is counted has no neighbours.
    private int TurnThatBeginsWith(TimelineEntry entry)
    {
        for (int turn = 1; turn <= LongestTurn && turn <= _lines.Count && Unlisted == 0; turn++)
        {
            if (Same(_lines[^turn], entry))
            {
                return turn;
            }
        }

        return 0;
    }

    private void Fold()
    {
        for (int index = 0; index < _turn; index++)
        {
            TimelineEntry line = _lines[_lines.Count - _turn + index];
            line.Repeats++;
            line.LastUs = _partial[index].TimeUs;
            line.Retries += _partial[index].Retries;
            Drop(_partial[index]);
        }

        _lastUs = _partial[^1].TimeUs;
        _partial.Clear();
    }

    private void Keep(TimelineEntry entry)
    {
        if (_lines.Count == Most)
        {
            Unlisted++;
            Drop(entry);
            return;
        }

        entry.GapUs = _lines.Count == 0 ? 0 : entry.TimeUs - _lastUs;
        _lines.Add(entry);
        _lastUs = entry.TimeUs;
    }

    // As many as wait at once, and no more.
    private void Drop(TimelineEntry entry)
    {
        if (_spare.Count <= LongestTurn)
        {
            _spare.Push(entry);
        }
    }

    private static bool Same(TimelineEntry left, TimelineEntry right) =>
        (left.Kind, left.Name, left.Direction, left.Sop, left.Meaning, left.Acknowledged)
        == (right.Kind, right.Name, right.Direction, right.Sop, right.Meaning, right.Acknowledged);
}
