namespace Portwitness.Labels;

/// <content>Tables whose rows name the ports in use.</content>
internal sealed partial class Tables
{
    // "Ports in use | Power" over "C1 only | 100 W" and "C1 and C2 | 65 W / 30 W": a row of one port is its most alone, a row of several what each
    // gives then. 0 when the rows are something else, or none says that it is of one port alone.
    private int OfPortsInUse(int line)
    {
        int next = line + 1;
        List<(List<Range> Ports, List<Range> Powers)> rows = [];
        bool isAloneSaid = false;
        for (; next < _lines.Count && rows.Count < MaxRows; next++)
        {
            if (TableLines.IsRule(_tokens, _lines[next]))
            {
                continue;
            }

            if (TableLines.Cells(_tokens, _lines[next]) is not [var stub, var cell] || PortsOf(stub, out bool isAlone) is not { } ports || PowersOf(cell) is not { } powers
                || powers.Count != ports.Count || (isAlone && ports.Count > 1))
            {
                break;
            }

            isAloneSaid |= isAlone;
            rows.Add((ports, powers));
        }

        if (!isAloneSaid || rows.Count < 2 || rows.TrueForAll(static row => row.Ports.Count == 1))
        {
            return 0;
        }

        foreach ((List<Range> ports, List<Range> powers) in rows)
        {
            for (int i = 0; i < ports.Count; i++)
            {
                _result.AddRange(i > 0 ? [Sign(TokenKind.Plus)] : []);
                Copy(ports[i]);
                _result.AddRange(ports.Count == 1 ? [Sign(TokenKind.Colon)] : []);
                Copy(powers[i], static _ => true);
            }

            _result.Add(Sign(TokenKind.Break));
        }

        // What stands between the names and the values is said by the rows.
        _written.UnionWith(_lines[line..next].SelectMany(Slice).Where(static token => token.Kind is not TokenKind.Quantity && (token.Kind != TokenKind.Word || token.Term != Term.None))
            .Select(static token => token.Start));
        End(line, next);
        return Below(next);
    }

    // The ports of "C1", "C1 only", "C1 and C2", "C1+C2+A"; null for anything else.
    private List<Range>? PortsOf(Range cell, out bool isAlone)
    {
        List<Range> ports = [];
        isAlone = false;
        int start = cell.Start.Value;
        for (int i = start; i <= cell.End.Value; i++)
        {
            bool isEnd = i == cell.End.Value;
            bool isBetween = !isEnd && (_tokens[i].Term is Term.And or Term.Alone or Term.Use or Term.Together or Term.At || _tokens[i].Kind is TokenKind.Plus or TokenKind.Comma or TokenKind.Bullet);
            isAlone |= !isEnd && _tokens[i].Term == Term.Alone;
            if (!isEnd && !isBetween)
            {
                continue;
            }

            if (i > start && !IsPort(start..i))
            {
                return null;
            }

            if (i > start)
            {
                ports.Add(start..i);
            }

            start = i + 1;
        }

        return ports.Count > 0 ? ports : null;
    }

    // "65 W", "65 W / 30 W", "65 W + 30 W"; null for anything else.
    private List<Range>? PowersOf(Range cell)
    {
        List<Range> powers = [];
        for (int i = cell.Start.Value; i < cell.End.Value; i++)
        {
            bool isValue = (i - cell.Start.Value) % 2 == 0;
            if (isValue ? !_tokens[i].Is(Dimension.Power) : _tokens[i].Kind is not (TokenKind.Slash or TokenKind.Plus or TokenKind.Comma or TokenKind.Bullet))
            {
                return null;
            }

            if (isValue)
            {
                powers.Add(i..(i + 1));
            }
        }

        return powers.Count > 0 ? powers : null;
    }
}
