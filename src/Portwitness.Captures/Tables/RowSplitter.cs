namespace Portwitness.Captures.Tables;

/// <summary>
/// Cuts a line into cells at a delimiter, quotes taken off. Cells stay where they are; only one with a doubled quote is
/// copied. A line ends where the line splitter says, so that memory is bounded by the longest line.
/// </summary>
internal sealed class RowSplitter
{
    private readonly Range[] _cells = new Range[TableMapping.MaxColumns];
    private byte[] _text = [];
    private int _length;

    /// <summary>How many cells the line has; those beyond the limit are not counted.</summary>
    public int Count { get; private set; }

    /// <summary>Whether a quote was not closed.</summary>
    public bool IsBroken { get; private set; }

    /// <summary>The delimiter.</summary>
    public byte Delimiter { get; set; } = (byte)',';

    /// <summary>The cell with a number counted from 0, blanks and quotes around it taken off; empty when there is none.</summary>
    public ReadOnlySpan<byte> this[int cell] => cell < Count ? _text.AsSpan(_cells[cell]) : [];

    /// <summary>Where a cell begins, counted from 1.</summary>
    public int ColumnOf(int cell) => cell < Count ? _cells[cell].Start.Value + 1 : _length + 1;

    /// <summary>The delimiter that a line has most of outside of quotes; of equals the earlier of tab, semicolon, comma, bar.</summary>
    public static byte DelimiterOf(ReadOnlySpan<byte> line)
    {
        ReadOnlySpan<byte> delimiters = "\t;,|"u8;
        Span<int> counts = stackalloc int[4];
        counts.Clear();
        bool quoted = false;
        foreach (byte letter in line)
        {
            quoted ^= letter == '"';
            if (!quoted && delimiters.IndexOf(letter) is >= 0 and int which)
            {
                counts[which]++;
            }
        }

        int best = 0;
        for (int which = 1; which < counts.Length; which++)
        {
            best = counts[which] > counts[best] ? which : best;
        }

        // A tab or a semicolon is never part of a number, as a comma may be.
        return counts[0] > 0 ? (byte)'\t' : counts[1] > 0 ? (byte)';' : delimiters[best];
    }

    /// <summary>Takes the next line.</summary>
    public void Split(ReadOnlySpan<byte> line)
    {
        if (_text.Length < line.Length)
        {
            _text = new byte[Math.Max(line.Length, 256)];
        }

        line.CopyTo(_text);
        (_length, Count, IsBroken) = (line.Length, 0, false);
        int start = 0;
        while (Count < _cells.Length)
        {
            int end = Cell(start);
            Count++;
            if (end >= _length)
            {
                return;
            }

            start = end + 1;
        }
    }

    /// <summary>Finds the cell that begins here, and says where it ends.</summary>
    private int Cell(int start)
    {
        ReadOnlySpan<byte> rest = _text.AsSpan(start, _length - start);
        int blanks = Delimiter == '\t' ? rest.IndexOfAnyExcept((byte)' ') : rest.IndexOfAnyExcept((byte)' ', (byte)'\t');
        if (blanks >= 0 && rest[blanks] == '"')
        {
            return Quoted(start + blanks);
        }

        int length = rest.IndexOf(Delimiter);
        length = length < 0 ? rest.Length : length;
        Set(start, start + length);
        return start + length;
    }

    private int Quoted(int quote)
    {
        int write = quote + 1;
        int read = quote + 1;
        while (read < _length && (_text[read] != '"' || (read + 1 < _length && _text[read + 1] == '"')))
        {
            read += _text[read] == '"' ? 1 : 0;
            _text[write++] = _text[read++];
        }

        IsBroken |= read == _length;
        Set(quote + 1, write);
        int rest = read >= _length ? -1 : _text.AsSpan(read, _length - read).IndexOf(Delimiter);
        return rest < 0 ? _length : read + rest;
    }

    private void Set(int start, int end)
    {
        ReadOnlySpan<byte> cell = _text.AsSpan(start, end - start);
        int front = cell.IndexOfAnyExcept((byte)' ', (byte)'\t');
        int length = front < 0 ? 0 : cell.LastIndexOfAnyExcept((byte)' ', (byte)'\t') + 1 - front;
        front = Math.Max(front, 0);
        _cells[Count] = (start + front)..(start + front + length);
    }
}
