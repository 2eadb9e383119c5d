namespace Portwitness.Labels;

/// <content>Lines that rate nothing, and headings that nobody knows.</content>
internal sealed partial class StatementReader
{
    // Where a port is named and not read, ratings that name none may be that one's; a direction that is not read may reach further.
    private void NoteUnread(Piece piece)
    {
        if (piece is HeaderPiece { Direction: Direction.Input or Direction.Both } or DirectionPiece)
        {
            _context.MissDirection();
        }

        if (_context.IsTogether && piece is HeaderPiece { Ports.IsEmpty: false })
        {
            _shares.Miss();
        }

        bool isPort = piece is HeaderPiece { Ports.IsEmpty: false, Direction: not Direction.Input } or CombinationPiece && !_context.IsInput;
        _builder.NamesUnreadPort |= isPort;
        if (piece is HeaderPiece { Ports.IsEmpty: false })
        {
            // What stands at the end of the line may be of this one, too.
            _portsOnLine++;
            _hasOwnPowers = false;
        }
    }

    private void ReadBlank()
    {
        _mayBeUnnamed = true;
        if (_open is { IsDirectionOnly: false })
        {
            Close();
        }

        EndCondition();
    }

    // A line that rates nothing, or a heading that nobody knows.
    private void ReadWords(int start, int end)
    {
        Range range = _pieces[start].First.._pieces[end - 1].End;
        if (_open is not { IsDirectionOnly: true })
        {
            Close();
        }

        if (_kinds[_line] is LineKind.Plain or LineKind.Ports)
        {
            _builder.ListedPorts = _kinds[_line] == LineKind.Ports ? PortLists.Count(_tokens[range]) : _builder.ListedPorts;

            // Below names of ports, values without one may be of any.
            _mayBeUnnamed &= !_tokens[range].Exists(static token => token.Term == Term.PortName);
            _builder.AddRemark(range);
            return;
        }

        Close();
        EndCondition();
        if (IsOverTable(end) && !_tokens[range].Exists(static token => token.Term is Term.Input or Term.BothWays))
        {
            return;
        }

        Suspend(range);
    }

    // "Both ports blorp:" says something of the ports below, and not what it would say without that word.
    private void SuspendIfBroken(int start, int end)
    {
        if (!_isBroken)
        {
            return;
        }

        List<Token> line = _tokens[_pieces[start].First.._pieces[end - 1].End];
        bool isOfPort = !line.Exists(static token => token.Counts > 0 || token.Term is Term.Together or Term.Shared or Term.Many)
            && _pieces.FindIndex(start, end - start, static piece => piece is HeaderPiece { Ports.IsEmpty: false } or CombinationPiece) >= 0;
        bool isTitle = line.TrueForAll(static token => token.Term is Term.Heading or Term.Article or Term.And);
        bool mayRate = isOfPort || isTitle || line.Exists(static token => token.Kind == TokenKind.Quantity);
        if (!mayRate && !IsOverTable(end))
        {
            Suspend(_pieces[start].First.._pieces[end - 1].End);
            _isHeadingMissed = true;
        }
    }

    // "C1: 45W | C2: 20W (both in use)": what stands behind all values is said of all ports of the line.
    private bool EndsWithCondition(int start, int end)
    {
        int first = _pieces[start].First;
        int last = _pieces[end - 1].End - 1;
        int behind = _tokens.FindLastIndex(last, last - first + 1, static token => token.Kind == TokenKind.Quantity) + 1;
        return behind > first && behind <= last
            && _tokens.FindIndex(behind, last - behind + 1, static token => token.Counts > 0 || token.Term is Term.Together or Term.Many) >= 0
            && _tokens.FindIndex(behind, last - behind + 1, static token => token.Term is Term.Each or Term.Total or Term.Shared or Term.PortName) < 0
            && _pieces.FindIndex(start, end - start, static piece => piece is HeaderPiece { Ports.IsEmpty: false }) is >= 0 and var one
            && _pieces.FindIndex(one + 1, end - one - 1, static piece => piece is HeaderPiece { Ports.IsEmpty: false }) >= 0;
    }

    // A title over a table: the table's own heads say whose its cells are, and when.
    private bool IsOverTable(int end)
    {
        int next = end + 1;
        while (next < _pieces.Count && _pieces[next] is not BreakPiece)
        {
            next++;
        }

        return end + 1 < _pieces.Count && _tokens.FindIndex(_pieces[end + 1].First, _pieces[next - 1].End - _pieces[end + 1].First, static token => token.IsMoved) >= 0;
    }

    private void Suspend(Range range)
    {
        EndHeading();
        (_heading, _isHeadingMissed, _mayBeUnnamed) = (range, false, false);
        _context.ReadUnknown();
    }

    // A heading for whose sake nothing was left unread changed nothing.
    private void EndHeading()
    {
        if (_heading is { } heading && !_isHeadingMissed)
        {
            _builder.AddRemark(heading);
        }

        _heading = null;
    }

    private bool HasMeaningBehind(int index, int end)
    {
        for (int i = index; i < end && _pieces[i] is not SeparatorPiece { IsStrong: true }; i++)
        {
            if (_pieces[i] is DirectionPiece or EachPiece or ConditionPiece or HeaderPiece { IsBehind: true } or HeaderPiece
                { Direction: not Direction.Unsaid, Ports.IsEmpty: true, IsMarked: false })
            {
                return true;
            }
        }

        return false;
    }

    // "5V–20V / 3A–5A": whose current is which?
    private bool BeginsRange(int index, int end) => _tokens[_pieces[index].First].Kind == TokenKind.Quantity && index + 1 < end
        && _tokens[_pieces[index + 1].First].Kind is TokenKind.Dash or TokenKind.Tilde;
}
