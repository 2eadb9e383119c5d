namespace Portwitness.Labels;

/// <summary>
/// Tables are read as if each port were printed with its ratings in one line: the tokens of a table are put in that order, with
/// their places. A table has a head of ports over columns of ratings, or a head of voltages over rows of ports. Where a cell's
/// column is not certain the table ends.
/// </summary>
internal sealed partial class Tables
{
    private const int MaxColumns = 12;
    private const int MaxRows = 40;
    private const int MaxInCell = 24;

    private readonly List<Token> _tokens;
    private readonly FoldedText _text;
    private readonly List<Range> _lines;
    private readonly List<Token> _result = [];
    private readonly HashSet<int> _written = [];

    private Tables(List<Token> tokens, FoldedText text) => (_tokens, _text, _lines) = (tokens, text, TableLines.Lines(tokens));

    public static List<Token> Unfold(List<Token> tokens, FoldedText text)
    {
        bool mayHaveTable = tokens.Exists(static token => token.SpaceBefore > 1 || token.Kind == TokenKind.Bar)
            && tokens.Exists(static token => token.Kind == TokenKind.Break);
        return mayHaveTable ? new Tables(tokens, text).Unfold() : tokens;
    }

    private List<Token> Unfold()
    {
        bool isFound = false;
        for (int line = 0; line < _lines.Count;)
        {
            int next = Table(line);
            next = next == line ? Unknown(line) : next;
            isFound |= next > line;
            if (next == line)
            {
                _result.AddRange(_tokens[_lines[line]]);
                Break(line);
                next++;
            }

            line = next;
        }

        return isFound ? _result : _tokens;
    }

    // The line behind the table that begins at a line; the same line when none does.
    private int Table(int line)
    {
        List<Range> cells = TableLines.Cells(_tokens, _lines[line]);
        if (cells.Count is < 2 or > MaxColumns || cells.Exists(cell => Length(cell) > MaxInCell))
        {
            return line;
        }

        if (cells.Count == 2 && !HasQuantity(_lines[line]) && OfPortsInUse(line) is > 0 and var used)
        {
            return used;
        }

        if (OfHeads(line, cells) is > 0 and var over)
        {
            return over;
        }

        // "Output: C1 | C2": the direction is said of all columns, and is no column of its own.
        Range direction = DirectionOf(cells[0]);
        if (Length(direction) > 0)
        {
            cells[0] = direction.End..cells[0].End;
        }

        bool hasStub = !IsPort(cells[0]) && !IsRatingHead(cells[0]);
        TableRow head = new(hasStub ? cells[0] : direction, [.. cells.Skip(hasStub ? 1 : 0)]);
        if (hasStub && head.Cells.All(IsDirection))
        {
            return OfDirections(line, head);
        }

        if (hasStub && head.Cells.All(IsQuantityName) && OfPortModes(line, head) is > 0 and var below)
        {
            return below;
        }

        if (cells.TrueForAll(IsQuantityName) && OfModes(line, cells) is > 0 and var behind)
        {
            return behind;
        }

        if (hasStub && head.Cells.Length > 1 && head.Cells.All(cell => UseOf(cell) >= 0) && OfPortUses(line, head) is > 0 and var under)
        {
            return under;
        }

        bool isOfPorts = head.Cells.Count(IsPort) >= 2 && head.Cells.All(cell => IsPort(cell) || IsTotal(cell));
        bool isOfRatings = head.Cells.All(IsRatingHead) && head.Cells.Any(IsVoltage);
        if (!isOfPorts && !isOfRatings)
        {
            return line;
        }

        (List<TableRow> rows, int next) = Rows(line + 1, head, hasStub, isOfPorts);
        if (rows.Count == 0 && isOfPorts)
        {
            // Under names of ports without certain columns nothing is anybody's, not even the last one's.
            _result.AddRange(_tokens[_lines[line]]);
            _result.Add(Sign(TokenKind.Break));
            _result.Add(Sign(TokenKind.Break));
            return Below(line + 1);
        }

        if (rows.Count == 0)
        {
            return line;
        }

        if (isOfPorts && AreNamedUses(head, rows))
        {
            return OfNamedUses(line, next, head, rows);
        }

        if (isOfPorts && rows.Exists(row => IsPort(row.Stub)))
        {
            return line;
        }

        if (isOfPorts && rows.TrueForAll(row => UseOf(row.Stub) >= 0 && row.Cells.All(cell => IsEmpty(cell) || IsPower(cell))))
        {
            return OfUses(line, next, head, rows);
        }

        if (isOfPorts && rows.Count(row => Length(row.Stub) == 0 && row.Cells.Any(IsPower)) > 1 && !AreCombinations(rows))
        {
            // Several powers under one port, and not each row a combination: which of them is its own?
            for (int i = line; i < next; i++)
            {
                Unread(i);
            }

            return Below(next);
        }

        if (isOfPorts && AreCombinations(rows))
        {
            WriteCombinations(head, rows);
        }
        else if (isOfPorts)
        {
            WritePorts(head, rows);
        }
        else
        {
            WriteRatings(head, rows);
        }

        End(line, next);
        return Below(next);
    }

    private bool IsPower(Range cell) => Length(cell) is 1 or 2 && _tokens[cell.Start.Value].Is(Dimension.Power);

    private (List<TableRow> Rows, int Next) Rows(int line, TableRow head, bool headHasStub, bool isOfPorts)
    {
        List<TableRow> rows = [];
        int next = line;
        for (; next < _lines.Count && rows.Count < MaxRows; next++)
        {
            if (TableLines.IsRule(_tokens, _lines[next]))
            {
                continue;
            }

            // "C1 | 5 V | 3 A" over " | 9 V | 3 A": the name is printed once.
            List<Range> cells = TableLines.Cells(_tokens, _lines[next]);
            bool isSameName = !isOfPorts && headHasStub && rows.Count > 0 && cells.Count == head.Cells.Length && BeginsWithBar(next) && !BeginsWithBar(line - 1);
            TableRow? row = isSameName ? new TableRow(rows[^1].Stub, [.. cells]) : TableRow.Align(_tokens, head, headHasStub, cells);
            bool fits = row is not null && Length(row.Stub) <= MaxInCell && row.Cells.All(cell => Length(cell) <= MaxInCell)
                && (isOfPorts ? !IsTotal(row.Stub) && (!IsPort(row.Stub) || IsNamedUse(head, row!))
                && !IsValue(row.Stub) : IsPort(row.Stub));
            if (!fits)
            {
                break;
            }

            rows.Add(row!);
        }

        return (rows, next);
    }

    private bool BeginsWithBar(int line) => Length(_lines[line]) > 0 && _tokens[_lines[line].Start.Value].Kind == TokenKind.Bar;

    private List<Token> Slice(Range range) => _tokens[range];

    private static int Length(Range range) => range.End.Value - range.Start.Value;

    private bool IsPort(Range cell) => Length(cell) is > 0 and <= 5 && PortGrammar.IsPort(Slice(cell));

    // The words of direction in front of a port's name, or "Ports:"; empty when a cell does not begin so.
    private Range DirectionOf(Range cell)
    {
        int end = cell.Start.Value;
        while (end < cell.End.Value
            && (_tokens[end].Term is Term.Input or Term.Output || _tokens[end].Kind is TokenKind.Colon or TokenKind.Slash
                || (_tokens[end].Term is Term.Port or Term.Heading && end + 1 < cell.End.Value && _tokens[end + 1].Kind == TokenKind.Colon)))
        {
            end++;
        }

        return end > cell.Start.Value && IsPort(end..cell.End) ? cell.Start..end : cell.Start..cell.Start;
    }

    private bool IsTotal(Range cell) => Length(cell) is 1 or 2 && _tokens[cell.Start.Value].Term == Term.Total;

    private bool IsVoltage(Range cell) => Length(cell) > 0 && Slice(cell).Exists(static token => token.Is(Dimension.Voltage));

    // "65W" or "3A" in front of a row is the first column's: the head's first cell is then no stub, and which column is which is open.
    private bool IsValue(Range cell) => !IsCombination(cell)
        && Slice(cell).Exists(static token => token.Is(Dimension.Power) || token.Is(Dimension.Current));

    private bool IsCombination(Range cell) => Slice(cell).Exists(static token => token.Kind == TokenKind.Plus);

    // "5V", "PPS 3.3-11V", "Max".
    private bool IsRatingHead(Range cell) => Length(cell) is > 0 and <= 5 && Slice(cell).TrueForAll(static token =>
            token.Is(Dimension.Voltage) || token.Kind is TokenKind.Number or TokenKind.Dash or TokenKind.Tilde or TokenKind.Direct
            || token.Term is Term.Programmable or Term.PowerDelivery or Term.Maximum or Term.MaximumOutput)
        && (IsVoltage(cell) || _tokens[cell.Start.Value].Term is Term.Maximum or Term.MaximumOutput);

    // "-", "—", "/", "n/a".
    private bool IsEmpty(Range cell) => Length(cell) == 0 || Slice(cell).TrueForAll(static token =>
        token.Kind is TokenKind.Dash or TokenKind.Direct or TokenKind.Slash || IsNothing(token));

    private static bool IsNothing(Token token) => TableRow.IsNothing(token);
}
