using System.Globalization;

namespace Portwitness.Labels;

/// <summary>Line and column of each index of a text. Lines end with LF, CR LF or CR; a leading byte order mark has no column.</summary>
internal sealed class Places
{
    // A character below this that is not CR is never joined with a neighbour below this.
    private const char FirstCombining = '\u0300';

    private readonly List<int> _lineStarts = [0];

    // Null while columns are just the distance from the start of the line.
    private readonly int[]? _columns;

    public Places(string text)
    {
        for (int i = 0; i < text.Length; i++)
        {
            if (text[i] == '\n' || (text[i] == '\r' && (i + 1 == text.Length || text[i + 1] != '\n')))
            {
                _lineStarts.Add(i + 1);
            }
        }

        if (text.AsSpan().IndexOfAnyExceptInRange('\0', (char)(FirstCombining - 1)) >= 0)
        {
            _columns = Columns(text);
        }
    }

    public Place this[int index]
    {
        get
        {
            int found = _lineStarts.BinarySearch(index);
            int line = found >= 0 ? found : ~found - 1;
            return new Place(line + 1, _columns is null ? index - _lineStarts[line] + 1 : _columns[index]);
        }
    }

    private int[] Columns(string text)
    {
        int[] columns = new int[text.Length];
        int line = 0;
        int column = 0;
        for (int i = 0; i < text.Length;)
        {
            bool plain = text[i] < FirstCombining && text[i] != '\r' && (i + 1 == text.Length || text[i + 1] < FirstCombining);
            int length = plain ? 1 : StringInfo.GetNextTextElementLength(text.AsSpan(i));
            bool isByteOrderMark = i == 0 && text[0] == '\uFEFF';
            bool newLine = line + 1 < _lineStarts.Count && i >= _lineStarts[line + 1];
            (line, column) = newLine ? (line + 1, 1) : (line, isByteOrderMark ? 0 : column + 1);
            columns.AsSpan(i, length).Fill(column);
            i += length;
        }

        return columns;
    }
}
