using Portwitness.Captures.Input;

namespace Portwitness.Captures.Waveforms;

/// <summary>
/// Reads a value change dump (IEEE 1364, 18.2) of the CC line: cuts it into words, of which one that lies in one piece is
/// not copied and one that does not is held up to a limit.
/// </summary>
internal sealed class VcdReader : IInputReader
{
    private const int MaxWordBytes = 1024;

    private readonly FaultLog _faults;
    private readonly VcdDump _dump;
    private readonly byte[] _held = new byte[MaxWordBytes];
    private int _length;
    private bool _tooLong;
    private long _line;
    private long _lineStart;
    private long _offset;

    /// <summary>A reader of a file whose first byte stands in a line.</summary>
    public VcdReader(ICaptureSink sink, FaultLog faults, WaveformOptions options, long line = 1)
    {
        _faults = faults;
        _line = line;
        _dump = new VcdDump(sink, faults, options);
    }

    /// <summary>Whether an input begins as such a file does: with one of the commands of its header.</summary>
    public static bool IsLikely(ReadOnlySpan<byte> start)
    {
        foreach (byte[] command in VcdDump.HeaderCommands)
        {
            if (start.StartsWith(command) && start.Length > command.Length && start[command.Length] <= ' ')
            {
                return true;
            }
        }

        return false;
    }

    /// <inheritdoc/>
    public void Write(ReadOnlySpan<byte> piece)
    {
        int at = 0;
        while (at < piece.Length && !_dump.IsStopped)
        {
            if (piece[at] <= ' ' && _length == 0 && !_tooLong)
            {
                if (piece[at] == '\n')
                {
                    _line++;
                    _lineStart = _offset + at + 1;
                }

                at++;
                continue;
            }

            int end = at;
            while (end < piece.Length && piece[end] > ' ')
            {
                end++;
            }

            if (end == piece.Length || _length > 0 || _tooLong)
            {
                Hold(piece[at..end], at);
                if (end == piece.Length)
                {
                    break;
                }

                EndHeld(end);
            }
            else
            {
                _dump.ReadWord(piece[at..end], _line, _offset + at - _lineStart + 1);
            }

            at = end;
        }

        _offset += piece.Length;
    }

    /// <inheritdoc/>
    public void Complete()
    {
        EndHeld(0);
        _dump.Complete();
    }

    private void Hold(ReadOnlySpan<byte> part, int at)
    {
        if (_tooLong || _length + part.Length > MaxWordBytes)
        {
            if (!_tooLong)
            {
                _faults.Report(_line, _offset + at - _length - _lineStart + 1, FaultCodes.VcdInvalid, FaultText.VcdTokenTooLong);
            }

            (_tooLong, _length) = (true, 0);
            return;
        }

        part.CopyTo(_held.AsSpan(_length));
        _length += part.Length;
    }

    private void EndHeld(int end)
    {
        if (_length > 0)
        {
            _dump.ReadWord(_held.AsSpan(0, _length), _line, _offset + end - _length - _lineStart + 1);
        }

        (_length, _tooLong) = (0, false);
    }
}
