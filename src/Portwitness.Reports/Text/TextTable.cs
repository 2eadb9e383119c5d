namespace Portwitness.Reports.Text;

/// <summary>Columns set apart by spaces. Cells are never cut or wrapped.</summary>
public sealed class TextTable
{
    private const string Gap = "  ";

    private readonly List<string[]> _rows = [];

    /// <summary>The rows so far, their cells safe to print.</summary>
    public IReadOnlyList<IReadOnlyList<string>> Rows => _rows;

    /// <summary>Adds a row.</summary>
    public void Add(params string[] cells) => _rows.Add([.. cells.Select(VisibleText.Of)]);

    /// <summary>Writes all rows.</summary>
    public void Write(TextWriter writer, string indent)
    {
        int columns = _rows.Count == 0 ? 0 : _rows.Max(row => row.Length);
        int[] widths = new int[columns];
        foreach (string[] row in _rows)
        {
            for (int column = 0; column < row.Length; column++)
            {
                widths[column] = Math.Max(widths[column], VisibleText.Columns(row[column]));
            }
        }

        foreach (string[] row in _rows)
        {
            // A column that is empty in every row takes no room.
            IEnumerable<string> cells = row
                .Select((cell, column) => (cell, width: widths[column]))
                .Where(entry => entry.width > 0)
                .Select(entry => entry.cell + new string(' ', entry.width - VisibleText.Columns(entry.cell)));
            writer.WriteLine((indent + string.Join(Gap, cells)).TrimEnd());
        }
    }
}
