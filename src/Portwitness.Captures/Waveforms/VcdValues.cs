using Portwitness.Captures.Input;
using Portwitness.Text;

namespace Portwitness.Captures.Waveforms;

/// <summary>Times and value changes of a dump (IEEE 1364, 18.2.3.8 and 18.2.4), of which one signal matters.</summary>
internal sealed class VcdValues(FaultLog faults, WaveformOptions options)
{
    /// <summary>The format's name.</summary>
    public const string Format = "vcd";

    private const int MicrovoltDigits = 6;

    private VoltageLevel _voltage = new(options.Levels ?? VoltageLevel.Bmc);
    private CcLine? _cc;
    private byte[] _code = [];
    private VcdTimescale _timescale;
    private Pending _pending;
    private LineLevel _pendingLevel;
    private long? _pendingMicrovolts;
    private long _ticks;
    private long _timePs;
    private long _offPs;
    private long _grid;
    private bool _timed;
    private bool _off;

    private enum Pending
    {
        Nothing,
        Identifier,
        End,
    }

    /// <summary>Begins after the declarations.</summary>
    public void Begin(ICaptureSink sink, byte[] code, VcdTimescale timescale)
    {
        (_code, _timescale) = (code, timescale);
        _cc = new CcLine(sink, Format);
    }

    /// <summary>Takes a word.</summary>
    public void ReadWord(ReadOnlySpan<byte> word, long line, long column)
    {
        if (_pending != Pending.Nothing)
        {
            TakePending(word, line);
            return;
        }

        switch (word[0])
        {
            case (byte)'#':
                TakeTime(word, line, column);
                break;
            case (byte)'0' or (byte)'1' or (byte)'x' or (byte)'X' or (byte)'z' or (byte)'Z' when word.Length > 1:
                if (word[1..].SequenceEqual(_code))
                {
                    Set(LevelOf(word[0]), line);
                }

                break;
            case (byte)'b' or (byte)'B' when word.Length > 1:
                (_pending, _pendingLevel) = (Pending.Identifier, LevelOf(word[^1]));
                break;
            case (byte)'r' or (byte)'R' when DecimalText.TryRead(word[1..], MicrovoltDigits, out long microvolts, DecimalMark.Point):
                (_pending, _pendingLevel) = (Pending.Identifier, LineLevel.Unknown);
                _pendingMicrovolts = microvolts;
                break;
            case (byte)'r' or (byte)'R' or (byte)'s' or (byte)'S':
                (_pending, _pendingLevel) = (Pending.Identifier, LineLevel.Unknown);
                break;
            case (byte)'$':
                TakeCommand(word, line, column);
                break;
            default:
                faults.Report(line, column, FaultCodes.VcdInvalid, FaultText.VcdTokenInvalid(word));
                break;
        }
    }

    /// <summary>Learns that there is no more.</summary>
    public void Complete()
    {
        if (_off)
        {
            _cc!.Interrupt(_offPs, _timePs);
        }

        _cc!.Complete(_timePs, faults);
    }

    private static long CommonDivisor(long one, long other)
    {
        while (other != 0)
        {
            (one, other) = (other, one % other);
        }

        return one;
    }

    private static LineLevel LevelOf(byte value) => value switch
    {
        (byte)'0' => LineLevel.Low,
        (byte)'1' => LineLevel.High,
        (byte)'z' or (byte)'Z' => LineLevel.Released,
        _ => LineLevel.Unknown,
    };

    private void TakePending(ReadOnlySpan<byte> word, long line)
    {
        if (_pending == Pending.End)
        {
            _pending = word.SequenceEqual("$end"u8) ? Pending.Nothing : Pending.End;
            return;
        }

        _pending = Pending.Nothing;
        if (word.SequenceEqual(_code))
        {
            Set(_pendingMicrovolts is { } microvolts ? _voltage.LevelAt(microvolts) : _pendingLevel, line);
        }

        _pendingMicrovolts = null;
    }

    private void TakeTime(ReadOnlySpan<byte> word, long line, long column)
    {
        long ticks = 0;
        bool usable = word.Length is > 1 and < 20;
        foreach (byte digit in word[1..])
        {
            usable &= (uint)(digit - '0') <= 9;
            ticks = unchecked((ticks * 10) + (digit - '0'));
        }

        if (!usable || ticks < 0 || !_timescale.TryConvert(ticks, out long picoseconds))
        {
            faults.Report(line, column, FaultCodes.TimeInvalid, FaultText.VcdTimeInvalid);
        }
        else if (picoseconds < _timePs)
        {
            faults.Report(line, column, FaultCodes.TimeBackwards, FaultText.VcdTimeBackwards);
        }
        else
        {
            (_ticks, _timePs) = (ticks, picoseconds);
            if (!_timed)
            {
                // A recording begins with its first time, however late that is.
                _timed = true;
                _cc!.BeginAt(picoseconds);
            }
        }
    }

    private void TakeCommand(ReadOnlySpan<byte> word, long line, long column)
    {
        if (word.SequenceEqual("$comment"u8))
        {
            _pending = Pending.End;
        }
        else if (word.SequenceEqual("$dumpoff"u8))
        {
            _offPs = _off ? _offPs : _timePs;
            _off = true;
        }
        else if (word.SequenceEqual("$dumpon"u8) && _off)
        {
            _off = false;
            _cc!.Interrupt(_offPs, _timePs);
        }
        else if (!word.SequenceEqual("$end"u8) && !word.SequenceEqual("$dumpon"u8) && !word.SequenceEqual("$dumpvars"u8)
            && !word.SequenceEqual("$dumpall"u8))
        {
            faults.Report(line, column, FaultCodes.VcdInvalid, FaultText.VcdTokenInvalid(word));
        }
    }

    private void Set(LineLevel level, long line)
    {
        if (_off)
        {
            return;
        }

        _cc!.InputLine = line;
        if (_cc.Set(level, _timePs) && _grid != 1)
        {
            // An instrument's samples are farther apart than the unit of the file: all its times are multiples of them.
            _grid = CommonDivisor(_ticks, _grid);
            _cc.ResolutionPs = _timescale.Round(_grid);
        }
    }
}
