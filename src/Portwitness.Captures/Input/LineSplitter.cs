namespace Portwitness.Captures.Input;

/// <summary>
/// Cuts the input into lines, whatever pieces it comes in. A line that lies in one piece is not copied; one that does
/// not is held up to the limit. A longer one is reported once and skipped without being held.
/// </summary>
internal sealed class LineSplitter(FaultLog faults)
{
    private const int Limit = CaptureLimits.MaximumLineBytes;

    private byte[] _held = [];
    private int _length;
    private bool _skipping;

    /// <summary>The line that the next byte belongs to, counted from 1.</summary>
    public long Line { get; private set; } = 1;

    /// <summary>The column of the next byte, counted from 1; meaningful while nothing is skipped.</summary>
    public long Column => _length + 1;

    public void Write(ReadOnlySpan<byte> piece, ILineReader? reader)
    {
        while (!piece.IsEmpty)
        {
            int end = piece.IndexOf((byte)'\n');
            if (end < 0)
            {
                Hold(piece, reader);
                return;
            }

            End(piece[..end], reader);
            piece = piece[(end + 1)..];
        }
    }

    public void Complete(ILineReader? reader)
    {
        if (_length > 0)
        {
            End([], reader);
        }
    }

    private void Hold(ReadOnlySpan<byte> piece, ILineReader? reader)
    {
        if (_skipping)
        {
            return;
        }

        // One byte more than the limit is held, because it may be the CR of the line's end.
        if (_length + piece.Length > Limit + 1)
        {
            _length = 0;
            _skipping = true;
            ReportTooLong(reader);
            return;
        }

        if (_length + piece.Length > _held.Length)
        {
            Array.Resize(ref _held, Math.Min(Limit + 1, Math.Max(_length + piece.Length, 2 * _held.Length)));
        }

        piece.CopyTo(_held.AsSpan(_length));
        _length += piece.Length;
    }

    private void End(ReadOnlySpan<byte> tail, ILineReader? reader)
    {
        if (_length == 0 && !_skipping)
        {
            Deliver(tail, reader);
        }
        else
        {
            Hold(tail, reader);
            if (!_skipping)
            {
                Deliver(_held.AsSpan(0, _length), reader);
            }
        }

        _length = 0;
        _skipping = false;
        Line++;
    }

    private void Deliver(ReadOnlySpan<byte> text, ILineReader? reader)
    {
        if (text.EndsWith("\r"u8))
        {
            text = text[..^1];
        }

        if (text.Length > Limit)
        {
            ReportTooLong(reader);
        }
        else if (text.ContainsAnyExcept(" \t\r"u8))
        {
            reader?.Read(Line, text);
        }
    }

    private void ReportTooLong(ILineReader? reader)
    {
        faults.Report(Line, Limit + 1, FaultCodes.LineTooLong, FaultText.LineTooLong);
        reader?.Skipped(Line);
    }
}
