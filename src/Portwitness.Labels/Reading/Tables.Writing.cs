namespace Portwitness.Labels;

/// <content>The tokens in the order of their meaning.</content>
internal sealed partial class Tables
{
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
        // "Alone | 65W | 30W".
        bool isAlone = Length(head) > 0 && Slice(head).Exists(static token => token.Term == Term.Alone)
            && Slice(head).TrueForAll(static token => token.Term is Term.Alone or Term.Use or Term.Port or Term.At);
        if (isAlone)
        {
            _written.UnionWith(Slice(head).Select(static token => token.Start));
            Copy(cell, static _ => true);
            _result.Add(Sign(TokenKind.Comma));
            return;
        }

        int start = _result.Count;
        Copy(isPower ? head.Start.Value..(head.Start.Value + 1) : head);
        if (isPower)
        {
            _result[start] = _result[start] with { Term = Term.Maximum };
        }

        Copy(cell, static _ => true);
        _result.Add(Sign(TokenKind.Comma));
    }

    private void WriteCombinations(TableRow head, List<TableRow> rows)
    {
        foreach (TableRow row in rows)
        {
            int[] columns = [.. Enumerable.Range(0, head.Cells.Length).Where(column => !IsEmpty(row.Cells[column]) && !IsTotal(head.Cells[column]))];
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

            int total = Array.FindIndex(head.Cells, IsTotal);
            if (total >= 0 && columns.Length > 1 && !IsEmpty(row.Cells[total]))
            {
                _result.Add(Sign(TokenKind.Open));
                Copy(head.Cells[total]);
                Copy(row.Cells[total]);
                _result.Add(Sign(TokenKind.Close));
            }
            else if (total >= 0 && columns.Length == 1 && !IsEmpty(row.Cells[total])
                && _tokens[row.Cells[total].Start.Value].Value == _tokens[row.Cells[columns[0]].Start.Value].Value)
            {
                // The power of the only port, once more.
                _written.UnionWith(Slice(row.Cells[total]).Select(static token => token.Start));
            }

            _result.Add(Sign(TokenKind.Break));
        }
    }

    // "65W | - | -" over "45W | 20W | -": each row is what the ports give that are used together.
    private bool AreCombinations(List<TableRow> rows) => rows.Count > 1
        && rows.TrueForAll(row => Length(row.Stub) == 0 && row.Cells.All(cell => IsEmpty(cell) || IsPower(cell)))
        && rows.Exists(row => row.Cells.Any(IsEmpty)) && rows.Exists(row => row.Cells.Count(cell => !IsEmpty(cell)) > 1);

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

    // "Output" over the names of the rows is said of all of them.
    private void CopyDirection(TableRow head) => CopyDirection(head.Stub);

    private void CopyDirection(Range head)
    {
        bool isFound = false;
        Copy(head, token => !isFound && (isFound = token.Term is Term.Input or Term.Output));
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
}
