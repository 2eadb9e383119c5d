namespace Portwitness.Labels;

/// <summary>A row of a table: what stands in front of it, and a cell for each column.</summary>
/// <param name="Stub">In front of the columns; no tokens where nothing is.</param>
/// <param name="Cells">One for each column; no tokens where the column has none.</param>
internal sealed record TableRow(Range Stub, Range[] Cells)
{
    private static readonly Range None = 0..0;

    /// <summary>Gives the cells of a line to the columns of a head; null when it is not certain which is whose.</summary>
    public static TableRow? Align(List<Token> tokens, TableRow head, bool headHasStub, List<Range> cells)
    {
        int columns = head.Cells.Length;
        if (cells.Count < 2 || cells.Exists(cell => cell.End.Value > cell.Start.Value && tokens[cell].TrueForAll(IsUnknown)))
        {
            return null;
        }

        if (cells.Count == columns + 1)
        {
            return new TableRow(cells[0], [.. cells[1..]]);
        }

        if (cells.Count == columns && !headHasStub)
        {
            return new TableRow(None, [.. cells]);
        }

        return cells.Count <= columns && cells.TrueForAll(cell => IsKnown(tokens[cell]))
            ? ByPosition(tokens, head, cells) : null;
    }

    // A word that nobody knows makes a cell wider than its value.
    private static bool IsKnown(List<Token> cell) => cell.Count > 0
        && !cell.Exists(IsUnknown);

    private static bool IsUnknown(Token token) => token.Kind == TokenKind.Word && token.Term == Term.None && !IsNothing(token);

    /// <summary>"n/a".</summary>
    public static bool IsNothing(Token token) => token.Word is "n" or "a" or "N" or "A" or "x" or "n/a" or "N/A";

    // Each cell stands under one head; one in front of all columns is the stub.
    private static TableRow? ByPosition(List<Token> tokens, TableRow head, List<Range> cells)
    {
        Range[] row = [.. head.Cells.Select(static _ => None)];
        int headStart = LineStart(tokens, head.Stub.End.Value > 0 ? head.Stub : head.Cells[0]);
        int rowStart = LineStart(tokens, cells[0]);
        Range stub = None;
        for (int i = 0; i < cells.Count; i++)
        {
            (int start, int end) = Span(tokens, cells[i], rowStart);
            int[] under = [.. Enumerable.Range(0, row.Length).Where(column =>
            {
                (int from, int to) = Span(tokens, head.Cells[column], headStart);
                return start < to && from < end;
            })];
            if (i == 0 && under.Length == 0 && end <= Span(tokens, head.Cells[0], headStart).Start)
            {
                stub = cells[i];
            }
            else if (under is [int only] && row[only].End.Value == 0)
            {
                row[only] = cells[i];
            }
            else
            {
                return null;
            }
        }

        return new TableRow(stub, row);
    }

    private static (int Start, int End) Span(List<Token> tokens, Range cell, int lineStart) =>
        (tokens[cell.Start.Value].Start - lineStart, tokens[cell.End.Value - 1].End - lineStart);

    private static int LineStart(List<Token> tokens, Range firstCell) =>
        firstCell.Start.Value > 0 ? tokens[firstCell.Start.Value - 1].End : 0;
}
