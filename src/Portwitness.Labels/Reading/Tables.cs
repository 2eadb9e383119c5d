namespace Portwitness.Labels;

/// <summary>
/// Tables are read as if each port were printed with its ratings in one line: the tokens of a table are put in that order, with
/// their places. A table has a head of ports over columns of ratings, or a head of voltages over rows of ports. Where a cell's
/// column is not certain the table ends.
/// </summary>
internal sealed class Tables
{
    private const int MostColumns = 12;
    private const int MostRows = 40;
    private const int MostInCell = 24;

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
        if (cells.Count is < 2 or > MostColumns || cells.Exists(cell => Length(cell) > MostInCell))
        {
            return line;
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

        if (cells.TrueForAll(IsQuantityName) && OfModes(line, cells) is > 0 and var behind)
        {
            return behind;
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

    // "Port | Input | Output": each cell is what its row's port takes or gives.
    private int OfDirections(int line, TableRow head)
    {
        (List<TableRow> rows, int next) = Rows(line + 1, head, headHasStub: true, isOfPorts: false);
        if (rows.Count == 0)
        {
            return line;
        }

        foreach (TableRow row in rows)
        {
            for (int column = 0; column < head.Cells.Length; column++)
            {
                if (IsEmpty(row.Cells[column]))
                {
                    continue;
                }

                Copy(head.Cells[column]);
                Copy(row.Stub);
                _result.Add(Sign(TokenKind.Colon));
                Copy(row.Cells[column], static _ => true);
                _result.Add(Sign(TokenKind.Break));
            }
        }

        End(line, next);
        return Below(next);
    }

    // "Voltage | Current | Power" over "5.0 V | 3.0 A | 15.0 W": each row is a mode. 0 when the rows are something else.
    private int OfModes(int line, List<Range> head)
    {
        Token? direction = _tokens[_lines[line]].Find(static token => token.Term is Term.Input or Term.Output);
        int next = line + 1;
        List<List<Range>> rows = [];
        while (next < _lines.Count && rows.Count < MostRows)
        {
            List<Range> cells = TableLines.Cells(_tokens, _lines[next]);
            if (TableLines.IsRule(_tokens, _lines[next]))
            {
                next++;
                continue;
            }

            bool isMode = cells.Count == head.Count && cells.Count is 2 or 3 && cells.TrueForAll(cell => Length(cell) == 1)
                && _tokens[cells[0].Start.Value].Is(Dimension.Voltage) && _tokens[cells[1].Start.Value].Is(Dimension.Current)
                && (cells.Count == 2 || IsPower(cells[2]));
            if (!isMode)
            {
                break;
            }

            rows.Add(cells);
            next++;
        }

        if (rows.Count == 0)
        {
            return 0;
        }

        if (direction is not null)
        {
            _written.Add(direction.Start);
            _result.Add(direction);
            _result.Add(Sign(TokenKind.Colon));
        }

        foreach (List<Range> row in rows)
        {
            row.ForEach(cell => Copy(cell));
            _result.Add(Sign(direction is null ? TokenKind.Break : TokenKind.Comma));
        }

        _result.Add(Sign(TokenKind.Break));
        _text.Together.Add(_tokens[_lines[line].Start.Value].Start.._tokens[_lines[next - 1].End.Value - 1].End);
        return next;
    }

    private bool IsQuantityName(Range cell) => Length(cell) is > 0 and <= 3
        && Slice(cell).TrueForAll(static token => token.Term is Term.Heading or Term.Output or Term.Input or Term.MaximumOutput);

    // Rows below a table that are none of its rows: nobody knows whose their cells are.
    private int Below(int line)
    {
        while (line < _lines.Count && IsRow(line))
        {
            Unread(line);
            line++;
        }

        return line;
    }

    private bool IsRow(int line) => TableLines.Cells(_tokens, _lines[line]).Count > 1 && HasQuantity(_lines[line])
        && !IsCombination(_lines[line]) && (_tokens[_lines[line].Start.Value].Kind != TokenKind.Word
            || _tokens[_lines[line].Start.Value].Term is Term.PortName or Term.Usb or Term.None or Term.Programmable);

    // Nothing of the line is anybody's.
    private void Unread(int line)
    {
        if (Length(_lines[line]) > 0)
        {
            int start = _tokens[_lines[line].Start.Value].Start;
            _result.Add(new Token { Kind = TokenKind.Unclear, Start = start, End = start, SpaceBefore = 0 });
        }

        _result.AddRange(_tokens[_lines[line]]);
        Break(line);
    }

    // Lines under a head of words that nobody knows: each cell may be anything's.
    private int Unknown(int line)
    {
        bool isHead = IsUnknownHead(line);
        int next = line + 1;
        while (isHead && next < _lines.Count && TableLines.IsRule(_tokens, _lines[next]))
        {
            next++;
        }

        int first = next;
        while (isHead && next < _lines.Count && TableLines.Cells(_tokens, _lines[next]).Count > 1 && HasQuantity(_lines[next]))
        {
            next++;
        }

        if (next == first)
        {
            return line;
        }

        for (int i = line; i < next; i++)
        {
            Unread(i);
        }

        return next;
    }

    // Cells of words, without a quantity.
    private bool IsUnknownHead(int line)
    {
        List<Range> cells = TableLines.Cells(_tokens, _lines[line]);
        return cells.Count is > 1 and <= MostColumns && !HasQuantity(_lines[line])
            && cells.TrueForAll(cell => Slice(cell).Exists(static token => token.Kind == TokenKind.Word || token.Word.Length > 0));
    }

    private bool HasQuantity(Range range) => Slice(range).Exists(static token => token.Kind == TokenKind.Quantity);

    // "65W | - | -" over "45W | 20W | -": each row is what the ports give that are used together.
    private bool AreCombinations(List<TableRow> rows) => rows.Count > 1
        && rows.TrueForAll(row => Length(row.Stub) == 0 && row.Cells.All(cell => IsEmpty(cell) || IsPower(cell)))
        && rows.Exists(row => row.Cells.Any(IsEmpty)) && rows.Exists(row => row.Cells.Count(cell => !IsEmpty(cell)) > 1);

    private bool IsPower(Range cell) => Length(cell) is 1 or 2 && _tokens[cell.Start.Value].Is(Dimension.Power);

    private void WriteCombinations(TableRow head, List<TableRow> rows)
    {
        foreach (TableRow row in rows)
        {
            int[] columns = [.. Enumerable.Range(0, head.Cells.Length).Where(column => !IsEmpty(row.Cells[column]))];
            for (int i = 0; i < columns.Length; i++)
            {
                if (i > 0)
                {
                    _result.Add(Sign(TokenKind.Plus));
                }

                Copy(head.Cells[columns[i]]);
                if (columns.Length == 1)
                {
                    _result.Add(Sign(TokenKind.Colon));
                }

                Copy(row.Cells[columns[i]]);
            }

            _result.Add(Sign(TokenKind.Break));
        }
    }

    private void End(int line, int next)
    {
        _text.Together.Add(_tokens[_lines[line].Start.Value].Start.._tokens[_lines[next - 1].End.Value - 1].End);
        WriteRest(_lines[line].Start.Value, _lines[next - 1].End.Value);
    }

    // What stands over no cell, and words that say nothing known, are not lost: they are on a line of their own, to be unread.
    // The empty line behind them makes what follows nobody's.
    private void WriteRest(int start, int end)
    {
        Copy(start..end, token => !_written.Contains(token.Start) && token.Kind is not
            (TokenKind.Bar or TokenKind.Dash or TokenKind.Direct or TokenKind.Slash or TokenKind.Colon or TokenKind.Plus or TokenKind.Break
                or TokenKind.Equals or TokenKind.Bullet)
            && token.Term is not (Term.Heading or Term.Together or Term.Port or Term.Use or Term.Input or Term.Output) && !IsNothing(token));
        _result.Add(Sign(TokenKind.Break));
        _result.Add(Sign(TokenKind.Break));
    }

    private (List<TableRow> Rows, int Next) Rows(int line, TableRow head, bool headHasStub, bool isOfPorts)
    {
        List<TableRow> rows = [];
        int next = line;
        for (; next < _lines.Count && rows.Count < MostRows; next++)
        {
            if (TableLines.IsRule(_tokens, _lines[next]))
            {
                continue;
            }

            TableRow? row = TableRow.Align(_tokens, head, headHasStub, TableLines.Cells(_tokens, _lines[next]));
            bool fits = row is not null && Length(row.Stub) <= MostInCell && row.Cells.All(cell => Length(cell) <= MostInCell)
                && (isOfPorts ? !IsTotal(row.Stub) && !IsPort(row.Stub) && !IsValue(row.Stub) : IsPort(row.Stub));
            if (!fits)
            {
                break;
            }

            rows.Add(row!);
        }

        return (rows, next);
    }

    private void WritePorts(TableRow head, List<TableRow> rows)
    {
        bool hasRatings = rows.Exists(row => !IsCombination(row.Stub));
        for (int column = 0; column < head.Cells.Length; column++)
        {
            if (!hasRatings || IsTotal(head.Cells[column]))
            {
                continue;
            }

            CopyDirection(head);
            Copy(head.Cells[column]);
            _result.Add(Sign(TokenKind.Colon));
            foreach (TableRow row in rows.Where(row => !IsCombination(row.Stub)))
            {
                WriteRating(row.Stub, row.Cells[column]);
            }

            _result.Add(Sign(TokenKind.Break));
        }

        foreach (TableRow row in rows.Where(row => IsCombination(row.Stub)))
        {
            WriteCombination(head, row);
        }
    }

    // "C1+C2 | 45W | 20W | -": as "C1+C2: C1 45W, C2 20W".
    private void WriteCombination(TableRow head, TableRow row)
    {
        Copy(row.Stub);
        _result.Add(Sign(TokenKind.Colon));
        bool isFirst = true;
        for (int column = 0; column < head.Cells.Length; column++)
        {
            if (IsEmpty(row.Cells[column]))
            {
                continue;
            }

            bool isTotal = IsTotal(head.Cells[column]);
            if (isTotal || !isFirst)
            {
                _result.Add(Sign(isTotal ? TokenKind.Open : TokenKind.Comma));
            }

            Copy(head.Cells[column]);
            Copy(row.Cells[column]);
            if (isTotal)
            {
                _result.Add(Sign(TokenKind.Close));
            }

            isFirst = false;
        }

        _result.Add(Sign(TokenKind.Break));
    }

    private void WriteRatings(TableRow head, List<TableRow> rows)
    {
        foreach (TableRow row in rows)
        {
            CopyDirection(head);
            Copy(row.Stub);
            _result.Add(Sign(TokenKind.Colon));
            for (int column = 0; column < head.Cells.Length; column++)
            {
                WriteRating(head.Cells[column], row.Cells[column]);
            }

            _result.Add(Sign(TokenKind.Break));
        }
    }

    private void WriteRating(Range head, Range cell)
    {
        if (IsEmpty(cell))
        {
            return;
        }

        // "Power | 65W": the port's maximum, as "Max | 65W".
        bool isPower = Length(head) > 0 && _tokens[head.Start.Value].Term is Term.Heading or Term.MaximumOutput or Term.Maximum
            && _tokens[cell.Start.Value].Is(Dimension.Power);
        int start = _result.Count;
        Copy(isPower ? head.Start.Value..(head.Start.Value + 1) : head);
        if (isPower)
        {
            _result[start] = _result[start] with { Term = Term.Maximum };
        }

        Copy(cell, static _ => true);
        _result.Add(Sign(TokenKind.Comma));
    }

    private void Copy(Range range) => Copy(range, static token => token.Kind != TokenKind.Colon);

    // The tokens of a range that are wanted; what does not stand right behind the one before it is moved.
    private void Copy(Range range, Func<Token, bool> isWanted)
    {
        bool follows = false;
        for (int i = range.Start.Value; i < range.End.Value; i++)
        {
            Token token = _tokens[i];
            bool isCopied = isWanted(token);
            if (isCopied)
            {
                _written.Add(token.Start);
                _result.Add(follows ? token : token with { IsMoved = true, SpaceBefore = 1 });
            }

            follows = isCopied;
        }
    }

    private void CopyDirection(TableRow head)
    {
        // "Output" over the names of the rows is said of all of them.
        bool isFound = false;
        Copy(head.Stub, token => !isFound && (isFound = token.Term is Term.Input or Term.Output));
    }

    private void Break(int line)
    {
        int end = _lines[line].End.Value;
        if (end < _tokens.Count)
        {
            _result.Add(_tokens[end]);
        }
    }

    // A sign that is not printed, but said by the lines of the table.
    private Token Sign(TokenKind kind)
    {
        int at = _result.Count > 0 ? _result[^1].End : 0;
        return new Token { Kind = kind, Start = at, End = at, SpaceBefore = 0 };
    }

    private List<Token> Slice(Range range) => _tokens[range];

    private static int Length(Range range) => range.End.Value - range.Start.Value;

    private bool IsPort(Range cell) => Length(cell) is > 0 and <= 5 && PortGrammar.IsPort(Slice(cell));

    private bool IsDirection(Range cell) => Length(cell) is > 0 and <= 3
        && Slice(cell).TrueForAll(static token => token.Term is Term.Input or Term.Output || token.Kind == TokenKind.Slash);

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
