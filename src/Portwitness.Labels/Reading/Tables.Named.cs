namespace Portwitness.Labels;

/// <content>Tables whose rows name the ports that are used, and tables of one head for each column.</content>
internal sealed partial class Tables
{
    // "In use | C1 | C2 | Total" over "C1 | 65W | - | 65W" and "C1+C2 | 45W | 20W | 65W": the cells of a row are those of the ports in front of it.
    private bool AreNamedUses(TableRow head, List<TableRow> rows) => rows.Exists(row => IsPort(row.Stub)) && rows.TrueForAll(row => IsNamedUse(head, row));

    private bool IsNamedUse(TableRow head, TableRow row)
    {
        HashSet<string> named = NamesOf(row.Stub);
        int[] columns = [.. Enumerable.Range(0, head.Cells.Length).Where(column => !IsTotal(head.Cells[column]) && !IsEmpty(row.Cells[column]))];
        return named.Count > 0 && named.Count == columns.Length && columns.All(column => IsPower(row.Cells[column]) && named.IsSupersetOf(NamesOf(head.Cells[column])))
            && Slice(row.Stub).TrueForAll(static token => token.Term is Term.PortName or Term.Usb or Term.Port or Term.And or Term.Alone or Term.ConnectorType
                || token.Kind is TokenKind.Plus or TokenKind.Comma);
    }

    private HashSet<string> NamesOf(Range cell) =>
        [.. Slice(cell).Where(static token => token.Term == Term.PortName).Select(static token => PortNames.Key(token.Word))];

    private int OfNamedUses(int line, int next, TableRow head, List<TableRow> rows)
    {
        WriteCombinations(head, rows);
        _written.UnionWith(rows.SelectMany(row => Slice(row.Stub)).Select(static token => token.Start));
        End(line, next);
        return Below(next);
    }

    // "Input | Output C | Output A" over "9V⎓2A | 9V⎓2.22A | 5V⎓3A": each column has a head of its own. 0 when the rows are something else.
    private int OfHeads(int line, List<Range> heads)
    {
        bool areHeads = heads.TrueForAll(IsHeadOfRatings) && heads.DistinctBy(head => string.Join(' ', Slice(head).Select(static token => token.Word))).Count() == heads.Count;
        List<List<Range>> rows = [];
        int next = line + 1;
        while (areHeads && next < _lines.Count && rows.Count < MaxRows && TableLines.Cells(_tokens, _lines[next]) is var cells
            && cells.Count == heads.Count && cells.TrueForAll(cell => IsEmpty(cell) || IsPower(cell) || IsModes(cell)) && cells.Exists(cell => !IsEmpty(cell)))
        {
            rows.Add(cells);
            next++;
        }

        if (rows.Count == 0)
        {
            return 0;
        }

        for (int column = 0; column < heads.Count; column++)
        {
            Copy(heads[column]);
            _result.Add(Sign(TokenKind.Colon));
            foreach (List<Range> row in rows.Where(row => !IsEmpty(row[column])))
            {
                Copy(row[column], static _ => true);
                _result.Add(Sign(TokenKind.Comma));
            }

            _result.Add(Sign(TokenKind.Break));
        }

        End(line, next);
        return Below(next);
    }

    private bool IsHeadOfRatings(Range cell) => Length(cell) is > 0 and <= 5 && _tokens[cell.Start.Value].Term is Term.Input or Term.Output
        && Slice(cell).Skip(1).All(static token => token.Term is Term.PortName or Term.Usb or Term.ConnectorType or Term.Port or Term.Cable
            || token.Kind is TokenKind.Open or TokenKind.Close or TokenKind.Colon || PortGrammar.IsCount(token));
}
