using Portwitness.Text;

namespace Portwitness.Captures.Waveforms;

/// <summary>A row of a table of numbers: its cells without blanks and quotes.</summary>
internal readonly ref struct NumberRow
{
    private readonly ReadOnlySpan<byte> _text;
    private readonly byte _separator;
    private readonly DecimalMark _mark;

    /// <summary>Takes a row apart at semicolons or tabs, or else at commas; where it is not at commas, these may be decimal ones.</summary>
    public NumberRow(ReadOnlySpan<byte> text)
    {
        _text = text;
        _separator = text.Contains((byte)';') ? (byte)';' : text.Contains((byte)'\t') ? (byte)'\t' : (byte)',';
        _mark = _separator != ',' && text.Contains((byte)',') ? DecimalMark.Comma : DecimalMark.Point;
    }

    /// <summary>How many cells there are; a separator at the end begins none.</summary>
    public int Count => _text.Count(_separator) + (_text.Length > 0 && _text[^1] != _separator ? 1 : 0);

    /// <summary>A cell; empty when there is none.</summary>
    public ReadOnlySpan<byte> Cell(int index)
    {
        ReadOnlySpan<byte> rest = _text;
        for (; index > 0; index--)
        {
            int end = rest.IndexOf(_separator);
            if (end < 0)
            {
                return [];
            }

            rest = rest[(end + 1)..];
        }

        int length = rest.IndexOf(_separator);
        return (length < 0 ? rest : rest[..length]).Trim(" \""u8);
    }

    /// <summary>A number in a cell, in steps of so many decimals.</summary>
    public bool TryNumber(int index, int decimals, out long value) =>
        DecimalText.TryRead(Cell(index), decimals, out value, _mark);

    /// <summary>Whether the first two cells are numbers.</summary>
    public bool IsNumeric => TryNumber(0, 0, out _) && TryNumber(1, 0, out _);
}
