namespace Portwitness.Labels;

/// <content>Tables of directions and of modes, and lines of tables that nobody knows.</content>
internal sealed partial class Tables
{
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

                CopyDirection(head.Cells[column]);
                Copy(row.Stub);
                _result.Add(Sign(TokenKind.Colon));
                Copy(row.Cells[column], static _ => true);
                _result.Add(Sign(TokenKind.Break));
            }
        }

        _written.UnionWith(head.Cells.SelectMany(Slice).Select(static token => token.Start));
        End(line, next);
        return Below(next);
    }

    // "Port | Voltage | Current" over "USB-C | 9 V | 2.22 A": each row is a mode of its port. 0 when the rows are something else.
    private int OfPortModes(int line, TableRow head)
    {
        (List<TableRow> rows, int next) = Rows(line + 1, head, headHasStub: true, isOfPorts: false);
        bool areLists = rows.Count > 0 && rows.TrueForAll(row => row.Cells is [var one, var other]
            && ((IsPower(one) && IsModes(other)) || (IsModes(one) && IsPower(other))));
        bool areModes = areLists || rows.Count > 0 && rows.TrueForAll(row => row.Cells.Length is 2 or 3 && row.Cells.All(static cell => Length(cell) == 1)
            && _tokens[row.Cells[0].Start.Value].Is(Dimension.Voltage) && _tokens[row.Cells[1].Start.Value].Is(Dimension.Current)
            && (row.Cells.Length == 2 || IsPower(row.Cells[2])));
        if (!areModes)
        {
            return 0;
        }

        Token? input = _tokens[_lines[line]].Find(static token => token.Term is Term.Input or Term.BothWays);
        foreach (TableRow row in rows)
        {
            if (input is not null)
            {
                _result.Add(input);
            }

            Copy(row.Stub);
            _result.Add(Sign(TokenKind.Colon));
            foreach (Range cell in areLists ? [.. row.Cells.OrderBy(IsPower)] : row.Cells)
            {
                // "5V⎓2.4A | 12W": the power is the port's most.
                bool isMaximum = areLists && IsPower(cell);
                _result.AddRange(isMaximum ? [Sign(TokenKind.Open)] : []);
                Copy(cell, static _ => true);
                _result.AddRange(isMaximum ? [Sign(TokenKind.Close)] : []);
            }

            _result.Add(Sign(TokenKind.Break));
        }

        End(line, next);
        return Below(next);
    }

    // "1 port | 65W | 30W | 18W" over "2 ports | 45W | 20W | -": what each gives alone, then what some give together.
    private int OfUses(int line, int next, TableRow head, List<TableRow> rows)
    {
        bool areClear = rows.TrueForAll(row => UseOf(row.Stub) is 0 or 1 || UseOf(row.Stub) == Ports(head, row));
        if (!areClear || rows.Exists(row => Ports(head, row) == 0))
        {
            for (int i = line; i < next; i++)
            {
                Unread(i);
            }

            return Below(next);
        }

        foreach (TableRow row in rows.Where(row => UseOf(row.Stub) == 1))
        {
            for (int column = 0; column < head.Cells.Length; column++)
            {
                if (!IsEmpty(row.Cells[column]) && !IsTotal(head.Cells[column]))
                {
                    Copy(head.Cells[column]);
                    _result.Add(Sign(TokenKind.Colon));
                    Copy(row.Cells[column], static _ => true);
                    _result.Add(Sign(TokenKind.Break));
                }
            }
        }

        WriteCombinations(head, rows.FindAll(row => UseOf(row.Stub) != 1));
        _written.UnionWith(rows.SelectMany(row => Slice(row.Stub)).Select(static token => token.Start));
        End(line, next);
        return Below(next);
    }

    // "Port | Alone | Two | Three" over "C1 | 65W | 45W | 45W": each column is a use of the rows' ports. 0 when the rows are something else.
    private int OfPortUses(int line, TableRow head)
    {
        (List<TableRow> rows, int next) = Rows(line + 1, head, headHasStub: true, isOfPorts: false);
        int[] uses = [.. head.Cells.Select(UseOf)];
        bool areClear = rows.Count > 1 && rows.TrueForAll(row => row.Cells.All(cell => IsEmpty(cell) || IsPower(cell)))
            && uses.Select((use, column) => use < 2 || use == rows.Count(row => !IsEmpty(row.Cells[column]))).All(static isClear => isClear);
        if (!areClear)
        {
            return 0;
        }

        for (int column = 0; column < uses.Length; column++)
        {
            bool isFirst = true;
            foreach (TableRow row in rows.Where(row => !IsEmpty(row.Cells[column])))
            {
                _result.AddRange(isFirst || uses[column] == 1 ? [] : [Sign(TokenKind.Plus)]);
                Copy(row.Stub);
                _result.AddRange(uses[column] == 1 ? [Sign(TokenKind.Colon)] : []);
                Copy(row.Cells[column], static _ => true);
                _result.AddRange(uses[column] == 1 ? [Sign(TokenKind.Break)] : []);
                isFirst = false;
            }

            _result.Add(Sign(TokenKind.Break));
        }

        _written.UnionWith(head.Cells.SelectMany(Slice).Select(static token => token.Start));
        End(line, next);
        return Below(next);
    }

    private int Ports(TableRow head, TableRow row) => Enumerable.Range(0, head.Cells.Length).Count(column => !IsTotal(head.Cells[column]) && !IsEmpty(row.Cells[column]));

    // How many ports are in use, 0 for "simultaneous"; -1 when the words are others.
    private int UseOf(Range stub)
    {
        int count = -1;
        foreach (Token token in Slice(stub))
        {
            int said = token.Term switch
            {
                Term.Alone => 1,
                Term.Two or Term.Three or Term.Four => token.Counts,
                Term.Together or Term.Many => Math.Max(count, 0),
                Term.Port or Term.Use or Term.At or Term.Article => count,
                _ => PortGrammar.IsCount(token) ? token.Value / 1000 : int.MinValue,
            };
            if (said == int.MinValue)
            {
                return -1;
            }

            count = said;
        }

        return count;
    }

    private bool IsModes(Range cell) => IsVoltage(cell) && Slice(cell).Exists(static token => token.Is(Dimension.Current));

    // "Voltage | Current | Power" over "5.0 V | 3.0 A | 15.0 W": each row is a mode. 0 when the rows are something else.
    private int OfModes(int line, List<Range> head)
    {
        Token? direction = _tokens[_lines[line]].Find(static token => token.Term is Term.Input or Term.Output);
        int next = line + 1;
        List<List<Range>> rows = [];
        while (next < _lines.Count && rows.Count < MaxRows)
        {
            List<Range> cells = TableLines.Cells(_tokens, _lines[next]);
            if (TableLines.IsRule(_tokens, _lines[next]))
            {
                next++;
                continue;
            }

            bool isMode = cells.Count == head.Count && cells.Count is >= 2 and <= 4 && cells.TrueForAll(cell => Length(cell) == 1)
                && _tokens[cells[0].Start.Value].Is(Dimension.Voltage) && _tokens[cells[1].Start.Value].Is(Dimension.Current)
                && (cells.Count == 2 || IsPower(cells[2]) || IsEfficiency(head[2], cells[2])) && (cells.Count < 4 || IsEfficiency(head[3], cells[3]));
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
            foreach (Range cell in row.Where((cell, column) => !IsEfficiency(head[column], cell)))
            {
                Copy(cell);
            }

            _result.Add(Sign(direction is null ? TokenKind.Break : TokenKind.Comma));
        }

        // "5 V | 3 A | 15 W | 81.4 %": each on a line of its own behind the modes.
        for (int column = 2; column < head.Count; column++)
        {
            foreach (List<Range> row in rows.Where(row => IsEfficiency(head[column], row[column])))
            {
                _result.Add(Sign(TokenKind.Break));
                Copy(head[column]);
                _result.Add(Sign(TokenKind.Colon));
                Copy(row[column]);
            }
        }

        _result.Add(Sign(TokenKind.Break));
        _text.Together.Add(_tokens[_lines[line].Start.Value].Start.._tokens[_lines[next - 1].End.Value - 1].End);
        return next;
    }

    private bool IsEfficiency(Range head, Range cell) => Slice(head).Exists(static token => token.Term == Term.Efficiency) && Length(cell) == 1
        && _tokens[cell.Start.Value].Is(Dimension.Ratio);

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

        // "Item | Value" changes nothing: its rows say for themselves what they are.
        bool isOfItems = cells.Count == 2 && cells.TrueForAll(cell => Slice(cell).TrueForAll(static token => token.Term == Term.Heading));

        // "Model | TH-30".
        bool isItem = cells.Count == 2 && _tokens[cells[0].Start.Value].Term is Term.Remark or Term.Nothing or Term.Product;
        return cells.Count is > 1 and <= MaxColumns && !isOfItems && !isItem && !HasQuantity(_lines[line])
            && cells.TrueForAll(cell => Slice(cell).Exists(static token => token.Kind == TokenKind.Word || token.Word.Length > 0));
    }

    private bool HasQuantity(Range range) => Slice(range).Exists(static token => token.Kind == TokenKind.Quantity);

    // "Voltage", "Max. power", "Current (A)".
    private bool IsQuantityName(Range cell) => Length(cell) is > 0 and <= 6 && !_tokens[cell.Start.Value].Kind.Equals(TokenKind.Open)
        && Slice(cell).TrueForAll(static token => token.Kind is TokenKind.Open or TokenKind.Close || token.Word is "V" or "A" or "W"
            || token.Term is Term.Heading or Term.Output or Term.Input or Term.MaximumOutput or Term.Maximum or Term.Efficiency
            or Term.And or Term.Article || token.Kind is TokenKind.Slash or TokenKind.Stop);

    private void End(int line, int next)
    {
        _text.Together.Add(_tokens[_lines[line].Start.Value].Start.._tokens[_lines[next - 1].End.Value - 1].End);
        WriteRest(_lines[line].Start.Value, _lines[next - 1].End.Value);
    }

    // "Input", "Charging the bank (input)", "Input/Eingang".
    private bool IsDirection(Range cell) => Length(cell) is > 0 and <= 6
        && Slice(cell).TrueForAll(static token => token.Term is Term.Input or Term.Output or Term.Article
        || token.Kind is TokenKind.Slash or TokenKind.Open or TokenKind.Close)
        && Slice(cell).Where(static token => token.Term is Term.Input
        or Term.Output).DistinctBy(static token => token.Term).Count() == 1;
}
