namespace Portwitness.Labels;

/// <summary>
/// Gives each piece to the statement it belongs to, line by line. What is not understood ends the reading of its statement, so
/// that nothing behind it is taken for something it may not be; it goes on at the next clear beginning.
/// </summary>
internal sealed class StatementReader(List<Token> tokens, List<Piece> pieces, LabelBuilder builder)
{
    // No mains has less (from memory); "5V~3A" is a misprint.
    private const int LowestSocketVoltage = 100_000;

    // What is longer is no remark behind a rating.
    private const int MostInParentheses = 64;

    // The statement that takes ratings; it stays open at the end of a line that was read to the end.
    private Statement? _open;

    // What a header on a line of its own says of the ports below it.
    private Direction _section;

    // Whether ratings without a header may be those of an unnamed output here.
    private bool _mayBeUnnamed = true;

    private int _line;
    private bool _isBroken;
    private bool _afterSeparator;
    private bool _afterStrange;
    private Piece? _previous;
    private ProtocolPiece? _protocol;
    private bool _isProtocolRead;

    public void Read()
    {
        int start = 0;
        for (int i = 0; i <= pieces.Count; i++)
        {
            if (i == pieces.Count || pieces[i] is BreakPiece)
            {
                ReadLine(start, i);
                start = i + 1;
                _line++;
            }
        }

        Close();
    }

    private bool AtStart => _previous is null or SectionPiece;

    private void ReadLine(int start, int end)
    {
        (_isBroken, _afterSeparator, _afterStrange, _previous, _protocol) = (false, false, false, null, null);
        if (start == end)
        {
            _mayBeUnnamed = true;
            if (_open is { IsDirectionOnly: false })
            {
                Close();
            }
        }

        for (int i = start; i < end; i++)
        {
            if (pieces[i] is SeparatorPiece separator)
            {
                Separate(separator);
            }
            else if (!_isBroken && !Take(i, end))
            {
                i = NotTaken(i, end);
            }
        }

        if (_isBroken)
        {
            Close();
            _mayBeUnnamed = false;
        }
    }

    private void Separate(SeparatorPiece separator)
    {
        _afterSeparator = true;
        _afterStrange = false;
        if (separator.IsStrong)
        {
            if (_isBroken)
            {
                Close();
                _mayBeUnnamed = false;
            }

            _isBroken = false;
            _previous = null;
        }
    }

    private bool Take(int index, int end)
    {
        Piece piece = pieces[index];
        bool isTaken = piece switch
        {
            HeaderPiece header => TakeHeader(header),
            ModePiece or RangePiece => TakeRating(piece),
            PowerPiece power => TakePower(power),
            MainsPiece mains => TakeMains(mains),
            ProtocolPiece protocol => TakeProtocol(protocol, index, end),
            CombinationPiece combination => IsWhole(index, end) && builder.Add(combination) && CloseAbove(),
            TotalPiece total => MayBegin(piece) && IsWhole(index, end) && builder.Add(total) && CloseAbove(),
            BatteryPiece battery => MayBegin(battery) && IsWhole(index, end) && builder.Add(battery) && CloseAbove(),
            PadPiece pad => MayBegin(piece) && IsWhole(index, end) && builder.Add(pad) && CloseAbove(),
            PerformancePiece performance => MayBegin(piece) && IsWhole(index, end) && builder.Add(performance) && CloseAbove(),
            SectionPiece => TakeSection(index, end),
            RemarkPiece remark => MayBegin(piece) && IsWhole(index, end) && builder.Add(remark) && CloseAbove(),
            _ => false,
        };
        if (isTaken)
        {
            _mayBeUnnamed = piece is RemarkPiece;
            _previous = piece;
            _afterSeparator = false;
        }

        return isTaken;
    }

    // A sign that means nothing here is left out; a word may change the meaning of all that follows.
    private int NotTaken(int index, int end)
    {
        if (_open is not null)
        {
            _open.Incomplete = true;
        }

        int close = index;
        bool isCondition = false;
        Token token = tokens[pieces[index].First];
        if (token.Kind == TokenKind.Open)
        {
            int last = Math.Min(end, index + MostInParentheses);
            while (close < last && !(pieces[close] is UnknownPiece { Token.Kind: TokenKind.Close }))
            {
                // "45W (with C2)" is not said of the port alone.
                isCondition |= pieces[close] is HeaderPiece { Ports.IsEmpty: false } or CombinationPiece;
                close++;
            }

            close = close == last ? end : close;
        }

        // Right behind a port's name a number or a sign may be part of the name, and parentheses say when it holds.
        bool isOfName = _previous is HeaderPiece header
            && (!header.Marked || token.Kind is TokenKind.Number or TokenKind.Open);
        bool isSign = !isOfName && !isCondition && pieces[index] is UnknownPiece
            && token.Kind is not (TokenKind.Word or TokenKind.Plus or TokenKind.Colon);
        if (isSign && close < end && _open is not null && !AtStart)
        {
            _afterStrange = true;
            return close;
        }

        // "20W per port", "5V⎓3A input": the word belongs to what is before it.
        if (_open is { Items.Count: > 0 } open && !_afterSeparator && ReferenceEquals(open.Items[^1].Rating, _previous)
            && (_previous is PowerPiece || token.Term != Term.None || isCondition))
        {
            open.Items.RemoveAt(open.Items.Count - 1);
        }

        _isBroken = true;
        return index;
    }

    private bool TakeHeader(HeaderPiece header)
    {
        bool isClear = AtStart || header.Marked || (!header.Ports.IsEmpty
            && tokens[header.First].Word.Length > 1 && tokens[header.First].Term != Term.Cable);
        bool isSecond = _open is { Items.Count: 0, IsDirectionOnly: false } waiting && waiting.Line == _line && !waiting.Ports.IsEmpty;
        if (!isClear || _afterStrange || isSecond)
        {
            return false;
        }

        Statement? above = _open is { IsDirectionOnly: true } && !header.Ports.IsEmpty ? _open : null;
        if (above is null)
        {
            Close();
        }

        if (header.Direction != Direction.Unsaid)
        {
            _section = Direction.Unsaid;
        }
        else if (above is not null && above.Line != _line)
        {
            _section = above.Direction;
        }

        Direction said = header.Direction != Direction.Unsaid ? header.Direction : above?.Direction ?? _section;
        _open = new Statement(said == Direction.Unsaid ? Direction.Output : said, header.Ports, _line);
        _open.Headers.AddRange(above?.Headers ?? []);
        _open.Headers.Add(header);
        _protocol = header.Protocol is null ? null : new ProtocolPiece(header.Protocol, IsProgrammable: false, IsBehind: false);
        _isProtocolRead = true;
        if (header.Power is { } power)
        {
            _open.Items.Add(new Statement.Item(power, header.PowerProtocol, []));
        }

        return true;
    }

    private bool TakeRating(Piece rating)
    {
        bool isGlued = _afterStrange && tokens[rating.First].SpaceBefore == 0;
        bool isUnclear = rating is RangePiece { AmpsAbove: not null } two
            && (!two.IsClear || _protocol?.Name.Contains("PPS", StringComparison.OrdinalIgnoreCase) == true || _open?.Direction == Direction.Input);
        if (isGlued || isUnclear || !MayContinue())
        {
            return false;
        }

        // "PPS" is of ranges, and of what directly follows it.
        bool isNamed = _protocol is not null && (!_protocol.IsProgrammable || rating is RangePiece || !_isProtocolRead);
        _open!.Items.Add(new Statement.Item(
            rating, isNamed ? _protocol!.Name : null, _protocol is not null && !_isProtocolRead ? [_protocol] : []));
        _isProtocolRead = true;
        _afterStrange = false;
        return true;
    }

    private bool MayContinue()
    {
        if (_open is null && AtStart && _mayBeUnnamed)
        {
            _open = new Statement(Direction.Output, [], _line);
        }

        return _open is not null && !_open.HasMains;
    }

    // A line that begins with a power may be about the product, unless parentheses tie it to the list above.
    private bool TakePower(PowerPiece power)
    {
        bool isTied = tokens[power.First].Kind == TokenKind.Open && power.IsMaximum && !_afterSeparator;
        if (_open is null || _afterStrange || (AtStart && _open.Items.Count > 0 && !isTied))
        {
            return false;
        }

        // "PD 65W": what directly follows a protocol is its own.
        bool isNamed = _protocol is not null && !_isProtocolRead;
        _open.Items.Add(new Statement.Item(power, isNamed ? _protocol!.Name : null, isNamed ? [_protocol!] : []));
        _isProtocolRead = true;
        return true;
    }

    // "Multi-port output:" says nothing but that combinations follow.
    private bool TakeSection(int index, int end)
    {
        bool isFollowed = index + 1 == end || pieces[index + 1] is CombinationPiece;
        if (!isFollowed || !AtStart || _open is { Items.Count: 0 })
        {
            return false;
        }

        Close();
        builder.MarkRead([pieces[index]]);
        return true;
    }

    private bool TakeMains(MainsPiece mains)
    {
        if (_open is null && AtStart && mains.Voltages[0].Minimum < mains.Voltages[^1].Maximum)
        {
            _open = new Statement(Direction.Input, [], _line);
        }

        bool mayBeSocket = _open is { Direction: Direction.Output, Items.Count: 0 } && mains.Voltages[0].Minimum >= LowestSocketVoltage;
        if ((_open is not { Direction: Direction.Input, Ports.IsEmpty: true } && !mayBeSocket) || _afterStrange)
        {
            return false;
        }

        _open!.HasMains = true;
        _open.Items.Add(new Statement.Item(mains, null, []));
        return true;
    }

    private bool TakeProtocol(ProtocolPiece protocol, int index, int end)
    {
        if (protocol.IsBehind)
        {
            bool isTied = _open is { Items: [.., { ProtocolPieces.IsEmpty: true } item] } && ReferenceEquals(item.Rating, _previous)
                && item.Rating is ModePiece or RangePiece && !_afterSeparator;
            if (isTied)
            {
                _open!.Items[^1] = _open.Items[^1] with { Protocol = protocol.Name, ProtocolPieces = [protocol] };
            }

            return isTied;
        }

        // "Lamp: 5V⎓1A", and any unknown word that begins a line, may be a port's name, perhaps a spoilt one.
        bool isUnclear = tokens[protocol.First].Term == Term.None && (AtStart || protocol.IsMarked);
        bool isFollowed = index + 1 < end && (pieces[index + 1] is ModePiece or RangePiece
            || (pieces[index + 1] is PowerPiece power && tokens[power.First].Kind != TokenKind.Open && MayHaveMaximum(protocol)));
        if (isUnclear || !isFollowed || _afterStrange || !MayContinue())
        {
            return false;
        }

        (_protocol, _isProtocolRead) = (protocol, false);
        return true;
    }

    // Of a name that nobody knows a power is only read where a port is named and the name is no plain word.
    private bool MayHaveMaximum(ProtocolPiece protocol) => _open is { Ports.IsEmpty: false }
        && (tokens[protocol.First].Term != Term.None || !protocol.Name.Any(char.IsLower));

    private bool MayBegin(Piece piece) => AtStart || _afterSeparator || tokens[piece.First].SpaceBefore > 1
        || (piece is BatteryPiece && (_previous is BatteryPiece || tokens[piece.First].Kind == TokenKind.Word));

    // A statement that is one piece: no header waits before it, and nothing behind it may change what it says.
    private bool IsWhole(int index, int end)
    {
        bool isWaitedFor = _open is { Items.Count: 0 } && !(_open is { IsDirectionOnly: true, Direction: Direction.Output }
            && pieces[index] is CombinationPiece or TotalPiece);
        return !_afterStrange && !isWaitedFor && EndsClearly(index + 1, end);
    }

    private bool CloseAbove()
    {
        if (_open is { IsDirectionOnly: true })
        {
            builder.MarkRead(_open.Headers);
        }

        Close();
        return true;
    }

    private bool EndsClearly(int next, int end) => next == end || pieces[next] switch
    {
        SeparatorPiece separator => tokens[separator.First].Kind is not (TokenKind.Slash or TokenKind.Word)
            || (next + 1 < end && pieces[next + 1] is CombinationPiece),
        HeaderPiece header => header.Marked || !header.Ports.IsEmpty,
        CombinationPiece or TotalPiece or BatteryPiece or RemarkPiece or PadPiece or PerformancePiece => true,
        _ => false,
    };

    private void Close()
    {
        if (_open is not null)
        {
            builder.Add(_open);
        }

        _open = null;
    }
}
