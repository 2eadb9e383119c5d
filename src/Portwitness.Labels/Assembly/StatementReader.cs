using System.Collections.Immutable;

namespace Portwitness.Labels;

/// <summary>
/// Gives each piece to the statement it belongs to, line by line. What is not understood ends the reading of its statement, so
/// that nothing behind it is taken for something it may not be; it goes on at the next clear beginning.
/// </summary>
internal sealed class StatementReader
{
    // No mains has less (from memory); "5V~3A" is a misprint.
    private const int LowestSocketVoltage = 100_000;

    // No port gives less: PPS begins at 3.3 V (R3.2v1.1, table 10-16), and "1" at the end of a line may belong to "2V" below.
    private const int LowestPortVoltage = 3000;

    // What a car has, and no USB port takes as a range without a current.
    private const int LowestVehicleVoltage = 10_000;

    // An adapter for USB takes less; from here on it is a strip with sockets (common practice, no source).
    private const int LowestStripCurrent = 6000;
    private const int LowestStripPower = 1_000_000;

    // What is longer is no remark behind a rating.
    private const int MostInParentheses = 64;

    private readonly List<Token> _tokens;
    private readonly List<Piece> _pieces;
    private readonly LineKind[] _kinds;
    private readonly LabelBuilder _builder;
    private readonly Context _context = new();
    private readonly SharedLines _shares;
    private readonly InformationSheet _sheet;

    // The statement that takes ratings; it stays open at the end of a line that was read to the end.
    private Statement? _open;

    // Whether ratings without a header may be those of an unnamed output here.
    private bool _mayBeUnnamed = true;

    // The unknown heading above, and whether something was not read for its sake.
    private Range? _heading;
    private bool _isHeadingMissed;

    private int _line;
    private int _portsOnLine;
    private bool _hasOwnPowers;
    private bool _isBroken;
    private bool _afterSeparator;
    private bool _afterStrange;
    private Piece? _previous;
    private ProtocolPiece? _protocol;
    private bool _isProtocolRead;
    private bool _isProtocolOfModes;

    public StatementReader(List<Token> tokens, List<Piece> pieces, LineKind[] kinds, LabelBuilder builder)
    {
        (_tokens, _pieces, _kinds, _builder) = (tokens, pieces, kinds, builder);
        _shares = new SharedLines(builder);
        _sheet = new InformationSheet(builder);
    }

    private bool AtStart => _previous is null or ConditionPiece;

    public void Read()
    {
        int start = 0;
        for (int i = 0; i <= _pieces.Count; i++)
        {
            if (i == _pieces.Count || _pieces[i] is BreakPiece)
            {
                ReadLine(start, i);
                start = i + 1;
                _line++;
            }
        }

        Close();
        EndCondition();
        EndHeading();
    }

    private void ReadLine(int start, int end)
    {
        (_isBroken, _afterSeparator, _afterStrange, _previous, _protocol, _isProtocolOfModes) = (false, false, false, null, null, false);
        (_portsOnLine, _hasOwnPowers) = (0, true);
        _context.BeginLine();
        if (start == end)
        {
            ReadBlank();
            return;
        }

        if (_kinds[_line] == LineKind.Unclear)
        {
            Close();
            EndCondition();
            _mayBeUnnamed = false;
            return;
        }

        if (_kinds[_line] != LineKind.Rating)
        {
            ReadWords(start, end);
            return;
        }

        for (int i = start; i < end; i++)
        {
            if (_pieces[i] is SeparatorPiece separator)
            {
                Separate(separator);
            }
            else if (_isBroken || !Take(i, end))
            {
                NoteUnread(_pieces[i]);
                i = _isBroken ? i : NotTaken(i, end);
            }
        }

        // "C1: 1" over "2V⎓2.5A": a number that is left over may belong to what is below.
        if (_isBroken || (_afterStrange && _pieces[end - 1] is UnknownPiece { Token.Kind: TokenKind.Number }))
        {
            Close();
            _mayBeUnnamed = false;
        }

        // A condition holds for the lines below only where nothing stands behind it.
        if (_context.Condition is not null && _context.ConditionLine == _line && _pieces[end - 1] is not ConditionPiece)
        {
            Close();
            EndCondition();
            SuspendIfBroken(start, end);
        }
    }

    // Where a port is named and not read, ratings that name none may be that one's; a direction that is not read may reach further.
    private void NoteUnread(Piece piece)
    {
        if (piece is HeaderPiece { Direction: Direction.Input or Direction.Both } or DirectionPiece)
        {
            _context.MissDirection();
        }

        bool isPort = piece is HeaderPiece { Ports.IsEmpty: false, Direction: not Direction.Input } or CombinationPiece && !_context.IsInput;
        _builder.NamesUnreadPort |= isPort;
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

        if (_kinds[_line] == LineKind.Plain)
        {
            _builder.AddRemark(range);
            return;
        }

        Close();
        EndCondition();
        Suspend(range);
    }

    // "Both ports blorp:" says something of the ports below, and not what it would say without that word.
    private void SuspendIfBroken(int start, int end)
    {
        bool hasPort = _pieces.FindIndex(start, end - start, static piece => piece is HeaderPiece { Ports.IsEmpty: false } or CombinationPiece) >= 0;
        if (_isBroken && !hasPort)
        {
            Suspend(_pieces[start].First.._pieces[end - 1].End);
            _isHeadingMissed = true;
        }
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
        }

        // Behind the end of a sentence something may begin, unless a word in it may have said something of that.
        if (separator.IsStrong || (separator.IsSentence && !_isBroken))
        {
            _previous = null;
        }
    }

    private bool Take(int index, int end)
    {
        Piece piece = _pieces[index];
        bool isTaken = piece switch
        {
            HeaderPiece header => TakeHeader(header, index, end),
            ModePiece or RangePiece or ModeListPiece => TakeRating(piece),
            PowerPiece power => TakePower(power, index, end),
            MainsPiece mains => TakeMains(mains),
            SupplyPiece supply => TakeSupply(supply),
            RowPiece row => TakeRow(row, index, end),
            ProtocolPiece protocol => TakeProtocol(protocol, index, end),
            DirectionPiece direction => TakeDirection(direction, index, end),
            EachPiece => TakeEach(piece),
            ConditionPiece condition => TakeCondition(condition, index, end),
            CombinationPiece combination => IsWhole(index, end) && TakeCombination(combination) && CloseAbove(),
            SplitPiece split => _context.IsTogether && IsWhole(index, end) && _builder.Add(split, _context.Condition!.Count) && CloseAbove(),
            TotalPiece total => TakeTotal(total, index, end),
            BatteryPiece battery => MayBegin(battery) && IsWhole(index, end) && _builder.Add(battery) && CloseAbove(),
            PadPiece pad => MayBegin(piece) && IsWhole(index, end) && !_context.IsUnknown && _builder.Add(pad) && CloseAbove(),
            PerformancePiece performance => MayBegin(piece) && IsWhole(index, end) && _builder.Add(performance) && CloseAbove(),
            RemarkPiece remark => TakeRemark(remark, index, end),
            UnknownPiece unknown => TakeParenthesis(unknown, index, end),
            _ => false,
        };
        if (isTaken)
        {
            _mayBeUnnamed = piece is RemarkPiece;
            _previous = piece is RemarkPiece && _previous is not null ? _previous : piece;
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
        Token token = _tokens[_pieces[index].First];
        if (token.Kind == TokenKind.Open)
        {
            int last = Math.Min(end, index + MostInParentheses);
            while (close < last && !(_pieces[close] is UnknownPiece { Token.Kind: TokenKind.Close }))
            {
                // "45W (with C2)" is not said of the port alone, nor "8A (2.4A max per port)" of one port.
                isCondition |= _pieces[close] is HeaderPiece or CombinationPiece or ConditionPiece or EachPiece or RowPiece
                    || (_pieces[close] is UnknownPiece { Token: var inside } && (inside.Is(Dimension.Current) || inside.Is(Dimension.Voltage)));
                close++;
            }

            close = close == last ? end : close;
        }

        // Right behind a port's name a number or a sign may be part of the name, and parentheses say when it holds.
        bool isOfName = _previous is HeaderPiece header && (!header.IsMarked || token.Kind is TokenKind.Number or TokenKind.Open);
        bool isSign = !isOfName && !isCondition && _pieces[index] is UnknownPiece or SupplyPiece
            && token.Kind is not (TokenKind.Word or TokenKind.Plus or TokenKind.Colon) && !BeginsRange(index, end);
        if (isSign && close < end && _open is not null && !AtStart)
        {
            _afterStrange = true;
            return close;
        }

        // "5V/9V⎓3A blorp /2A": one current for all of a list, or is that one of several?
        if (_previous is ModeListPiece list && _open is not null)
        {
            _open.Items.RemoveAll(item => list.Modes.Contains(item.Rating));
        }

        // "5V⎓3A blorp input": what is said behind may be said of all before it.
        if (_open is { Line: var line } && line == _line && HasMeaningBehind(index, end))
        {
            _open.Items.Clear();
        }

        // "20W per port", "5V⎓3A input": the word belongs to what is before it.
        if (_open is { Items.Count: > 0 } open && !_afterSeparator && ReferenceEquals(open.Items[^1].Rating, _previous)
            && (_previous is PowerPiece || token.Term != Term.None || isCondition))
        {
            open.Items.RemoveAt(open.Items.Count - 1);
        }

        bool isHeading = AtStart && token.Kind == TokenKind.Word && !_afterSeparator && _pieces[index] is UnknownPiece or ProtocolPiece or ConditionPiece
            && _pieces.FindIndex(index, end - index, static piece => piece is HeaderPiece { Ports.IsEmpty: false, Direction: Direction.Unsaid }) > index;
        if (isHeading)
        {
            // "Charging: USB-C1: 5V⎓3A": the ports below are under it too.
            Close();
            Suspend(_pieces[index].First.._pieces[index].End);
            _isHeadingMissed = true;
        }

        _isBroken = true;
        return index;
    }

    private bool HasMeaningBehind(int index, int end)
    {
        for (int i = index; i < end && _pieces[i] is not SeparatorPiece { IsStrong: true }; i++)
        {
            if (_pieces[i] is DirectionPiece or EachPiece or ConditionPiece or HeaderPiece { Direction: not Direction.Unsaid, Ports.IsEmpty: true, IsMarked: false })
            {
                return true;
            }
        }

        return false;
    }

    // "5V–20V / 3A–5A": whose current is which?
    private bool BeginsRange(int index, int end) => _tokens[_pieces[index].First].Kind == TokenKind.Quantity && index + 1 < end
        && _tokens[_pieces[index + 1].First].Kind is TokenKind.Dash or TokenKind.Tilde;

    private bool TakeHeader(HeaderPiece header, int index, int end)
    {
        bool isSaid = header.Direction != Direction.Unsaid;
        bool isOfLine = isSaid && header.Ports.IsEmpty && !_context.LinePorts.IsEmpty && _open?.Line == _line
            && index + 1 < end && _pieces[index + 1] is ModePiece or ModeListPiece or RangePiece or SupplyPiece or PowerPiece or ProtocolPiece;
        Token first = _tokens[header.First];
        bool isBeforeValue = index + 1 < end && _pieces[index + 1] is PowerPiece or ModePiece or ModeListPiece;
        bool isClear = AtStart || header.IsMarked || isOfLine
            || (!header.Ports.IsEmpty && first.Term != Term.Cable && (first.Word.Length > 1 || (_afterSeparator && isBeforeValue)));
        bool isKind = _open is { Ports: ["USB"], Items.Count: 0 } && _open.Line == _line && !header.Ports.IsEmpty;
        bool isWaiting = _open is { Items.Count: 0, IsDirectionOnly: false } waiting && waiting.Line == _line && !waiting.Ports.IsEmpty && !isKind;
        isClear |= isKind;
        bool isMissed = _context.IsUnknown && !isSaid;
        _isHeadingMissed |= isMissed;
        if (!isClear || _afterStrange || (isWaiting && !isOfLine) || isMissed)
        {
            return false;
        }

        Statement? above = _open is { IsDirectionOnly: true } && !header.Ports.IsEmpty ? _open : null;
        if (_context.DirectionOf(header, above) is not { } direction)
        {
            return false;
        }

        List<Piece> headers = [.. above?.Headers ?? (isWaiting || isKind ? _open!.Headers : [])];
        ImmutableArray<string> ports = isOfLine ? _context.LinePorts : header.Ports;
        if (above is null && !isWaiting)
        {
            Close();
        }

        if (isSaid)
        {
            EndHeading();
            if (header.Ports.IsEmpty && !isOfLine)
            {
                EndCondition();
            }
        }

        _context.Read(header, above, _line, isLast: index + 1 == end);
        _hasOwnPowers &= _portsOnLine == 0 || _previousHadPower;
        _portsOnLine += ports.IsEmpty ? 0 : 1;
        _open = new Statement(direction, ports, _line) { IsDirectionSaid = isSaid || above is not null, IsJoined = header is { IsJoined: true, IsForEach: false } };
        _open.Headers.AddRange(headers);
        _open.Headers.Add(header);
        _protocol = header.Protocol is null ? null : new ProtocolPiece(header.Protocol, IsProgrammable: false, IsBehind: false);
        _isProtocolRead = true;
        if (header.Power is { } power)
        {
            _open.Items.Add(new Statement.Item(power, header.PowerProtocol, []));
        }

        return true;
    }

    private bool _previousHadPower;

    private bool TakeRating(Piece rating)
    {
        bool isGlued = _afterStrange && _tokens[rating.First].SpaceBefore == 0;
        bool isUnclear = rating is RangePiece { AmpsAbove: not null } two
            && (!two.IsClear || _protocol?.Name.Contains("PPS", StringComparison.OrdinalIgnoreCase) == true || _open?.Direction == Direction.Input);
        bool isLow = rating is ModePiece { Volts.Value: < LowestPortVoltage } or RangePiece { Minimum: < LowestPortVoltage };
        if (isGlued || isUnclear || isLow || !MayContinue())
        {
            return false;
        }

        IEnumerable<Piece> ratings = rating is ModeListPiece list ? list.Modes : [rating];
        foreach (Piece one in ratings)
        {
            // "PPS" is of ranges, and of what directly follows it; "PPS:" over modes is of all of them.
            _isProtocolOfModes |= _protocol is { IsMarked: true } && !_isProtocolRead && one is ModePiece;
            bool isNamed = _protocol is not null
                && (!_protocol.IsProgrammable || one is RangePiece || !_isProtocolRead || _isProtocolOfModes);
            _open!.Items.Add(new Statement.Item(one, isNamed ? _protocol!.Name : null, _protocol is not null && !_isProtocolRead ? [_protocol] : []));
            _isProtocolRead = true;
        }

        if (_open is { Direction: Direction.Input, Ports.IsEmpty: true } && rating is RangePiece { Minimum: >= LowestVehicleVoltage } or ModePiece { Volts.Value: >= LowestVehicleVoltage })
        {
            _context.ReadSupply();
        }

        _afterStrange = false;
        return true;
    }

    private bool MayContinue()
    {
        _isHeadingMissed |= _context.IsUnknown && _open is null;
        if (_open is null && AtStart && _mayBeUnnamed && !_context.IsUnknown && !_context.IsTogether)
        {
            _open = new Statement(_context.IsInput ? Direction.Input : Direction.Output, [], _line);
        }

        return _open is not null && !_open.HasMains;
    }

    // A line that begins with a power may be about the product, unless parentheses tie it to the list above. Behind several ports on a line
    // a maximum is the last one's only where volts times amperes say so, or each of the others has its own.
    private bool TakePower(PowerPiece power, int index, int end)
    {
        bool isTied = _tokens[power.First].Kind == TokenKind.Open && power.IsMaximum && !_afterSeparator;
        if (_open is null || _afterStrange || (AtStart && _open.Items.Count > 0 && !isTied && !_afterSeparator))
        {
            return false;
        }

        // "C1/C2: 65W / 30W": one power for several ports has no other behind it.
        bool isOneOfSeveral = _open is { Ports.Length: > 1, Items.Count: 0 } && HasPowerBehind(power.End);
        bool mayBeOfAll = _portsOnLine > 1 && !_hasOwnPowers && index + 1 == end && _open.Items.Count > 0 && (_protocol is null || _isProtocolRead);
        if (isOneOfSeveral || (mayBeOfAll && !Ratings.Reaches(_open, power)))
        {
            return false;
        }

        // "PD 65W": what directly follows a protocol is its own.
        bool isNamed = _protocol is not null && !_isProtocolRead;
        _open.Items.Add(new Statement.Item(power, isNamed ? _protocol!.Name : null, isNamed ? [_protocol!] : []));
        _isProtocolRead = true;
        return true;
    }

    private bool HasPowerBehind(int token)
    {
        for (int i = token; i < _tokens.Count && _tokens[i].Kind is not (TokenKind.Break or TokenKind.Semicolon or TokenKind.Bar or TokenKind.Stop); i++)
        {
            if (_tokens[i].Is(Dimension.Power))
            {
                return true;
            }
        }

        return false;
    }

    private bool TakeMains(MainsPiece mains)
    {
        bool isRange = mains.Voltages[0].Minimum < mains.Voltages[^1].Maximum;
        bool isStrip = !isRange && (mains.Amps?.Value >= LowestStripCurrent || mains.Watts?.Value >= LowestStripPower);
        if (_open is null && AtStart && !_context.IsUnknown && (isRange || isStrip))
        {
            _open = new Statement(isStrip ? Direction.Output : Direction.Input, [], _line);
        }

        bool mayBeSocket = _open is { Direction: Direction.Output, Items.Count: 0 } && mains.Voltages[0].Minimum >= LowestSocketVoltage;
        if ((_open is not { Direction: Direction.Input, Ports.IsEmpty: true } && !mayBeSocket) || _afterStrange)
        {
            return false;
        }

        _open!.HasMains = true;
        _open.Items.Add(new Statement.Item(mains, null, []));
        _context.ReadSupply();
        return true;
    }

    private bool TakeSupply(SupplyPiece supply)
    {
        bool isVehicle = supply.Maximum >= LowestVehicleVoltage;
        if (_open is not { Direction: Direction.Input } || _afterStrange || !(isVehicle || supply.Amps is not null))
        {
            return false;
        }

        _open.Items.Add(new Statement.Item(supply, null, []));
        if (isVehicle && _open.Ports.IsEmpty)
        {
            _open.HasMains = true;
            _context.ReadSupply();
        }

        return true;
    }

    private bool TakeRow(RowPiece row, int index, int end)
    {
        bool isOfHeader = _open is { IsDirectionOnly: true } && _previous is HeaderPiece { IsMarked: true } && index + 1 == end;
        if (isOfHeader && _sheet.Add(row, _open!))
        {
            _open = null;
            return true;
        }

        if (_previous is null)
        {
            return row.Dimension == Dimension.Power && _sheet.Add(row);
        }

        return row.Dimension == Dimension.Power && index + 1 == end && TakePowers(row);
    }

    // "C1 / C2 / A: 65W / 30W / 18W": as many ports as powers.
    private bool TakePowers(RowPiece row)
    {
        if (_open is not { Items.Count: 0 } all || all.Ports.Length != row.Values.Length || !ReferenceEquals(_previous, all.Headers[^1]))
        {
            return false;
        }

        for (int i = 0; i < row.Values.Length; i++)
        {
            PowerPiece power = new(row.Values[i], IsMaximum: true, default);
            int token = _tokens.IndexOf(row.Values[i], row.First);
            power = power with { Inner = token..(token + 1) };
            power.Place(token, token + 1);
            Statement one = new(all.Direction, [all.Ports[i]], all.Line);
            one.Headers.AddRange(all.Headers);
            one.Items.Add(new Statement.Item(power, null, []));
            _builder.Add(one);
        }

        _builder.MarkRead([row]);
        _open = null;
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

        // "Lamp: 5V⎓1A", and any unknown word that begins a line, may be a port's name, perhaps a spoilt one. "PPS:" below a USB-A port,
        // which has none, is another port's.
        bool isUnclear = _tokens[protocol.First].Term == Term.None && (AtStart || protocol.IsMarked);
        bool isOthers = protocol.IsProgrammable && _previous is null && _open is { Ports: [.., var port] } && port.StartsWith('A');
        bool isFollowed = index + 1 < end && (_pieces[index + 1] is ModePiece or RangePiece or ModeListPiece
            || (_pieces[index + 1] is PowerPiece power && _tokens[power.First].Kind != TokenKind.Open && MayHaveMaximum(protocol)));
        if (isUnclear || isOthers || !isFollowed || _afterStrange || !MayContinue())
        {
            return false;
        }

        (_protocol, _isProtocolRead, _isProtocolOfModes) = (protocol, false, false);
        return true;
    }

    // Of a name that nobody knows a power is only read where a port is named and the name is no plain word.
    private bool MayHaveMaximum(ProtocolPiece protocol) => _open is { Ports.IsEmpty: false }
        && (_tokens[protocol.First].Term != Term.None || !protocol.Name.Any(char.IsLower));

    // "USB-C 5V⎓3A 15V⎓2A (Input)".
    private bool TakeDirection(DirectionPiece direction, int index, int end)
    {
        bool isOfAll = _open is { Items.Count: > 0, IsDirectionSaid: false } && _open.Line == _line && _portsOnLine == 1 && index + 1 == end;
        if (isOfAll)
        {
            _open!.Direction = direction.Direction;
            _open.Others.Add(direction);
            Close();
        }

        return isOfAll;
    }

    private bool TakeEach(Piece piece)
    {
        bool isOfRating = _open is { Ports.IsEmpty: false } && (_open.Items.Count == 0 || _previous is ModePiece or PowerPiece or EachPiece);
        if (isOfRating)
        {
            _open!.Others.Add(piece);
        }

        return isOfRating;
    }

    private bool TakeCondition(ConditionPiece condition, int index, int end)
    {
        // "USB-A1/A2: 5V⎓2.4A each, 2 ports together 5V⎓3A".
        bool isOfLine = !AtStart && _open is { Items.Count: > 0 } && (condition.Count == 0 || condition.Count == _open.Ports.Length)
            && index + 1 < end && _pieces[index + 1] is TotalPiece { Watts: null };
        if (isOfLine)
        {
            _open!.Others.Add(condition);
            return true;
        }

        if (!AtStart || _afterStrange || _open is { Items.Count: 0, IsDirectionOnly: false })
        {
            return false;
        }

        EndHeading();
        CloseAbove();
        EndCondition();
        _context.Read(condition, _line);
        _builder.MarkRead([condition]);
        return true;
    }

    private bool TakeCombination(CombinationPiece combination)
    {
        _isHeadingMissed |= _context.IsUnknown;
        return !_context.IsUnknown && (_context.IsInput || _open is { Direction: Direction.Input, IsDirectionOnly: true }
            ? _builder.AddInput(combination) : _builder.Add(combination));
    }

    // "2.4A each, 5V⎓3A together" is of the ports in front; a total is the product's.
    private bool TakeTotal(TotalPiece total, int index, int end)
    {
        bool isOfLine = _open is { Ports.Length: > 1, Items.Count: > 0 } && _open.Line == _line && total.Watts is null;
        if (isOfLine && !_afterStrange && _builder.AddPool(total, _open!.Ports, _open))
        {
            return true;
        }

        if (_sheet.Add(total))
        {
            return true;
        }

        bool isProducts = !total.IsShared || _context.Condition is not null;
        int count = _context.Condition is { } condition && _context.ConditionLine == _line ? condition.Count : 0;
        _isHeadingMissed |= _context.IsUnknown;
        return isProducts && MayBegin(total) && IsWhole(index, end) && !_context.IsInput && _builder.Add(total, count) && CloseAbove();
    }

    private bool TakeRemark(RemarkPiece remark, int index, int end)
    {
        bool isBehind = _previous is not null && !_afterStrange && (index + 1 == end || _pieces[index + 1] is SeparatorPiece)
            && _tokens[remark.First].Term != Term.Remark;
        if (isBehind)
        {
            _builder.AddRemark(remark.First..remark.End);
            return true;
        }

        return MayBegin(remark) && IsWhole(index, end) && _builder.AddRemark(remark.First..remark.End) && CloseAbove();
    }

    // "C1: 100W (5V⎓3A, 9V⎓3A)": the list is in parentheses.
    private bool TakeParenthesis(UnknownPiece unknown, int index, int end)
    {
        bool isOpen = unknown.Token.Kind == TokenKind.Open && _open is { Items: [{ Rating: PowerPiece }] } && _previous is PowerPiece
            && index + 1 < end && _pieces[index + 1] is ModePiece or RangePiece or ModeListPiece;
        bool isClose = unknown.Token.Kind == TokenKind.Close && _open?.Others is [.., UnknownPiece { Token.Kind: TokenKind.Open }];
        if (isOpen || isClose)
        {
            _open!.Others.Add(unknown);
        }

        return isOpen || isClose;
    }

    private bool MayBegin(Piece piece) => AtStart || _afterSeparator || _tokens[piece.First].SpaceBefore > 1
        || (piece is BatteryPiece && (_previous is BatteryPiece || _tokens[piece.First].Kind == TokenKind.Word));

    // A statement that is one piece: no header waits before it, and nothing behind it may change what it says.
    private bool IsWhole(int index, int end)
    {
        bool isWaitedFor = _open is { Items.Count: 0 } && !(_open is { IsDirectionOnly: true } && _pieces[index] is CombinationPiece or TotalPiece);
        return !_afterStrange && !isWaitedFor && EndsClearly(index + 1, end);
    }

    private bool CloseAbove()
    {
        if (_open is { IsDirectionOnly: true })
        {
            _builder.MarkRead(_open.Headers);
        }

        Close();
        return true;
    }

    private bool EndsClearly(int next, int end) => next == end || _pieces[next] switch
    {
        SeparatorPiece separator => _tokens[separator.First].Kind is not (TokenKind.Slash or TokenKind.Word)
            || (next + 1 < end && _pieces[next + 1] is CombinationPiece),
        HeaderPiece header => header.IsMarked || !header.Ports.IsEmpty,
        CombinationPiece or TotalPiece or BatteryPiece or RemarkPiece or PadPiece or PerformancePiece => true,
        ConditionPiece condition => condition.IsMarked || next + 1 < end,
        _ => false,
    };

    private void EndCondition()
    {
        if (_context.Condition is { } condition)
        {
            _shares.End(condition.Count);
            _context.EndCondition();
        }
    }

    private void Close()
    {
        if (_open is not null)
        {
            _previousHadPower = _open.HasPower;
            if (_open.IsOpenToEach)
            {
                // "C1 and C2: 45W": for each, or for both?
                _builder.NamesUnreadPort = true;
                _open = null;
                return;
            }

            if (_context.IsTogether && !_open.Ports.IsEmpty && _open.Direction == Direction.Output && _open.Items.Count > 0)
            {
                _shares.Add(_open);
            }
            else
            {
                _builder.Add(_open);
            }
        }

        _open = null;
    }
}
