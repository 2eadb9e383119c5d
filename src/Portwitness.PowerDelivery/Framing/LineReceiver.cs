namespace Portwitness.PowerDelivery.Framing;

/// <summary>
/// Receives frames from the edges of a CC line: BMC at 200 to 450 kbit/s, whose rate it takes from the preamble and follows
/// from there; ordered sets, 4b5b, end of packet (R3.2v1.1, chapter 5). The level of the line does not matter, only when it changes.
/// </summary>
/// <remarks>
/// Every frame is handed on, whole or broken, with the place where it broke. Nothing is allocated while receiving, and
/// the work for an edge is bounded whatever comes. Not safe for several threads at once.
/// </remarks>
public sealed class LineReceiver
{
    /// <summary>Pulses up to this long are taken for glitches: 250 ns. The shortest of BMC is 1,515 ns.</summary>
    public const long DefaultGlitchPs = 250_000;

    // Alternating bits that make a preamble: few after an idle line, more where data may look the same.
    private const int BitsAfterIdle = 6;
    private const int BitsAfterData = 20;
    private const int EdgesOfAnIdleLine = 4;

    // Edges within which a line falls idle after the last bit: it may be driven high for a bit, then low, then released
    // (R3.2v1.1, 5.8.1).
    private const int TrailingEdges = 2;
    private const int BusyEdges = 16;

    private readonly ILineFrameSink _sink;
    private readonly long _glitchPs;
    private readonly PreambleSearch _search = new();
    private readonly BitClock _clock = new();
    private readonly FrameReader _reader = new();
    private State _state;
    private long _held = -1;
    private long _latest;
    private int _glitches;
    private bool _isPreamble;
    private bool _isTold;
    private bool _idleBefore;
    private int _strayEdges;
    private int _enoughBits;
    private FrameBreak _break;
    private int _trailing;

    private enum State
    {
        Searching,
        Reading,
        Breaking,
    }

    /// <summary>A receiver for a recording that begins at a time.</summary>
    /// <param name="sink">Takes the frames.</param>
    /// <param name="startPs">When the recording begins, in picoseconds, 0 or later.</param>
    /// <param name="glitchPs">Pulses shorter than this are left out; 0 for none. In picoseconds.</param>
    public LineReceiver(ILineFrameSink sink, long startPs = 0, long glitchPs = DefaultGlitchPs)
    {
        ArgumentNullException.ThrowIfNull(sink);
        ArgumentOutOfRangeException.ThrowIfNegative(startPs);
        (_sink, _glitchPs, _latest) = (sink, glitchPs, startPs);
        _search.Begin(startPs);
    }

    /// <summary>Takes a change of level.</summary>
    /// <param name="timePs">Picoseconds, not before that of the call before.</param>
    /// <exception cref="ArgumentOutOfRangeException">The time is before that of the call before.</exception>
    public void Edge(long timePs)
    {
        Advance(timePs);
        if (_held >= 0 && timePs - _held < _glitchPs)
        {
            _held = -1;
            _glitches++;
            return;
        }

        Release();
        _held = timePs;
    }

    /// <summary>Says that nothing is known of the line from here until a time, where recording goes on.</summary>
    /// <param name="timePs">Picoseconds, not before that of the call before.</param>
    /// <param name="resumedPs">Picoseconds, not before <paramref name="timePs"/>.</param>
    public void Interrupt(long timePs, long resumedPs)
    {
        Complete(timePs);
        Advance(resumedPs);
        _search.Begin(resumedPs);
        (_isTold, _glitches) = (false, 0);
    }

    /// <summary>Says that the recording ends.</summary>
    /// <param name="timePs">Picoseconds, not before that of the call before.</param>
    public void Complete(long timePs)
    {
        Advance(timePs);
        Release();
        if (_state == State.Searching || !_isPreamble)
        {
            EndSearch();
        }
        else if (_search.IsIdleAt(timePs))
        {
            Tell(FrameBreak.NotEnded);
        }
        else
        {
            Tell(_state == State.Breaking ? _break : FrameBreak.RecordingStopped);
        }

        _state = State.Searching;
    }

    private void Advance(long timePs)
    {
        if (timePs < _latest)
        {
            throw new ArgumentOutOfRangeException(nameof(timePs), timePs, $"Time went back; it was {_latest} ps before.");
        }

        _latest = timePs;
    }

    private void Release()
    {
        if (_held < 0)
        {
            return;
        }

        long edge = _held;
        _held = -1;
        switch (_state)
        {
            case State.Reading when edge - _clock.Start <= PreambleSearch.IdlePs:
                _search.Note(edge);
                Read(edge);
                break;
            case State.Breaking when !_search.IsIdleAt(edge):
                _search.Note(edge);
                GoOnBreaking();
                break;
            case State.Breaking:
            case State.Reading when _isPreamble:
                Tell(FrameBreak.NotEnded);
                Search(edge);
                break;
            default:
                _state = State.Searching;
                Search(edge);
                break;
        }
    }

    private void Search(long edge)
    {
        if (_search.IsIdleAt(edge))
        {
            EndSearch();
            (_isTold, _glitches) = (false, 0);
        }

        if (_search.OnEdge(edge, out long start, out long unitInterval))
        {
            Begin(start, unitInterval);
        }
    }

    private void EndSearch()
    {
        // Noise has more pulses that are too short than others.
        if (!_isTold && _search.BusyEdges >= BusyEdges && _glitches < _search.BusyEdges)
        {
            _sink.OnFrame(new LineFrame
            {
                StartPs = _search.BusyFrom,
                EndPs = _search.LastEdge,
                IdleBefore = _search.IdleBefore,
                StrayEdges = _search.Edges - _search.BusyEdges,
                Glitches = _glitches,
                Break = FrameBreak.PreambleMissing,
                BreakPs = _search.BusyFrom,
            });
        }
    }

    private void Begin(long start, long unitInterval)
    {
        (_state, _isPreamble, _trailing) = (State.Reading, false, 0);
        _idleBefore = _search.IdleBefore;
        _clock.Begin(start, unitInterval);
        _reader.Begin();
        Span<long> edges = stackalloc long[PreambleSearch.Kept];
        int count = _search.CopyAfter(start, edges);
        _strayEdges = Math.Max(_search.Edges - count - 1, 0);
        _enoughBits = _idleBefore && _strayEdges <= EdgesOfAnIdleLine ? BitsAfterIdle : BitsAfterData;
        for (int i = 0; i < count && _state == State.Reading; i++)
        {
            Read(edges[i]);
        }
    }

    private void Read(long edge)
    {
        ClockStep step = _clock.OnEdge(edge);
        if (step == ClockStep.Middle)
        {
            return;
        }

        bool isOver = true;
        FrameBreak why = FrameBreak.EdgeMisplaced;
        if (step != ClockStep.Misplaced)
        {
            isOver = _reader.OnBit(step == ClockStep.One ? 1 : 0, out why);
            if (_reader.SetStart != _clock.PreambleBits)
            {
                _clock.EndPreamble(_reader.SetStart);
            }

            _isPreamble |= _reader.Bits >= _enoughBits;
            isOver |= !_isPreamble && _reader.SetStart >= 0;
        }

        if (!isOver)
        {
            return;
        }

        if (!_isPreamble)
        {
            _state = State.Searching;
        }
        else if (why is FrameBreak.EdgeMisplaced or FrameBreak.SymbolInvalid)
        {
            // The line may fall idle next: then the sender stopped, and what came after the last bit was no more of it.
            (_state, _break) = (State.Breaking, why);
        }
        else
        {
            Tell(why);
        }
    }

    private void GoOnBreaking()
    {
        if (++_trailing <= TrailingEdges)
        {
            return;
        }

        if (_reader.SetStart < 0)
        {
            // A preamble that is disturbed may go on, and the frame be read yet.
            _state = State.Searching;
        }
        else
        {
            Tell(_break);
        }
    }

    private void Tell(FrameBreak why)
    {
        LineQuality quality = _clock.Quality;
        (int Bit, long Ps) at = (_clock.Bits, _clock.Start);
        if (_reader.Set is null && !_reader.Symbols.IsEmpty && why != FrameBreak.RecordingStopped)
        {
            why = FrameBreak.OrderedSetUnknown;
            at = (_clock.PreambleBits, _clock.PreambleEnd);
        }
        else if (why is FrameBreak.SymbolInvalid or FrameBreak.EndedTooEarly)
        {
            at = (_reader.SymbolStart, _clock.StartOf(_reader.SymbolStart));
        }

        _sink.OnFrame(new LineFrame
        {
            StartPs = _clock.FirstStart,
            EndPs = _clock.Start,
            PreambleBits = _clock.PreambleBits,
            IdleBefore = _idleBefore,
            StrayEdges = _strayEdges,
            Glitches = _glitches,
            Set = _reader.Set,
            MatchingSymbols = _reader.Matching,
            Symbols = _reader.Symbols,
            Bytes = _reader.Bytes,
            Break = why,
            BreakBit = why == FrameBreak.None ? 0 : at.Bit,
            BreakPs = why == FrameBreak.None ? 0 : at.Ps,
            Quality = quality,
        });
        _state = State.Searching;
        (_isTold, _glitches) = (true, 0);
        _search.Restart();
    }
}
