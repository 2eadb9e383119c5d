using System.Collections.Immutable;

namespace Portwitness.Labels;

/// <content>What says whose ratings follow.</content>
internal sealed partial class StatementReader
{
    private bool TakeHeader(HeaderPiece header, int index, int end)
    {
        bool isSaid = header.Direction != Direction.Unsaid;
        bool isOfLine = isSaid && header.Ports.IsEmpty && !_context.LinePorts.IsEmpty && _open?.Line == _line
            && index + 1 < end && _pieces[index + 1] is ModePiece or ModeListPiece or RangePiece or SupplyPiece or PowerPiece or ProtocolPiece;
        Token first = _tokens[header.First];
        bool isBeforeValue = index + 1 < end && (_pieces[index + 1] is PowerPiece or ModePiece or ModeListPiece
            || (_pieces[index + 1] is ProtocolPiece { IsBehind: false } ahead && _tokens[ahead.First].Term == Term.PowerDelivery));
        bool isClear = AtStart || header.IsMarked || isOfLine
            || (!header.Ports.IsEmpty && first.Term != Term.Cable
                && (first.Word.Length > 1 || (isBeforeValue && (_afterSeparator || _previous is HeaderPiece { Ports.IsEmpty: true, IsMarked: true }
                    || (_previous is PowerPiece && _pieces[index + 1] is PowerPiece && _portsOnLine > 0)))));
        bool isKind = _open is { Ports: ["USB"], Items.Count: 0 } && _open.Line == _line && !header.Ports.IsEmpty;
        bool isWaiting = _open is { Items.Count: 0, IsDirectionOnly: false } waiting && waiting.Line == _line && !waiting.Ports.IsEmpty && !isKind;
        // "Input 100-240V~ 50/60Hz, Output 5V⎓3A".
        bool isBehindMains = isSaid && header.Ports.IsEmpty && (_afterSeparator || _previous is MainsPiece) && _open is { HasMains: true } && isBeforeValue;
        // "Model TH-20 Input 100-240V~".
        bool isBehindRemark = isSaid && header.Ports.IsEmpty && _previous is RemarkPiece && index + 1 < end
            && _pieces[index + 1] is MainsPiece or SupplyPiece or ModePiece or ModeListPiece or RangePiece;
        isClear |= isKind || isBehindMains || isBehindRemark;
        bool isMissed = _context.IsUnknown && !isSaid;
        _isHeadingMissed |= isMissed;
        bool isOthers = header.Protocol is { } named && Vocabulary.Find(named) is Term.PowerDelivery or Term.Programmable
            && !header.Ports.All(PortNames.MaySpeakPowerDelivery);
        // "Output: max. 65 W USB-C / max. 18 W USB-A": each value stands in front of its port.
        bool isBehindValue = !header.IsMarked && !header.Ports.IsEmpty && !_afterSeparator && _previous is PowerPiece or ModePiece
            && _open is { Ports.IsEmpty: true, Items.Count: > 0 };
        if (!isClear || isOthers || _afterStrange || (isWaiting && !isOfLine) || isMissed || isBehindValue)
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
        _open = new Statement(direction, ports, _line)
        {
            IsDirectionSaid = isSaid || above is not null,
            IsJoined = header is { IsJoined: true, IsForEach: false },
        };
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

    // "Output: 5V⎓2A (USB-A)", "Output: 5V⎓3A (USB-C), 5V⎓2A (USB-A)": each port stands behind its ratings, up to the end of the line.
    private bool TakePortBehind(HeaderPiece header, int index, int end)
    {
        bool isOfAll = header is { IsBehind: true, Direction: Direction.Unsaid, Ports.Length: 1 } && _pieces[end - 1] is HeaderPiece { IsBehind: true }
            && _portsOnLine == 0 && !_afterStrange && !_afterSeparator && _previous is ModePiece or RangePiece or PowerPiece
            && _open is { Ports.IsEmpty: true, Headers.Count: > 0, Items.Count: > 0, HasMains: false } && _open.Line == _line;
        if (isOfAll)
        {
            Statement named = new(_open!.Direction, header.Ports, _line) { IsDirectionSaid = _open.IsDirectionSaid };
            named.Headers.AddRange([.. _open.Headers, header]);
            named.Items.AddRange(_open.Items);
            named.Others.AddRange(_open.Others);
            Statement above = _open;
            _open = named;
            Close();
            if (index + 1 < end)
            {
                _open = new Statement(above.Direction, [], _line) { IsDirectionSaid = above.IsDirectionSaid };
                _open.Headers.AddRange(above.Headers);
            }
        }

        return isOfAll;
    }

    // "USB-C 5V⎓3A 15V⎓2A (Input)".
    private bool TakeDirection(DirectionPiece direction, int index, int end)
    {
        bool isOfAll = _open is { Items.Count: > 0, IsDirectionSaid: false } && _open.Line == _line && _portsOnLine <= 1
            && (index + 1 == end || _pieces[index + 1] is SeparatorPiece { IsStrong: true });
        if (isOfAll)
        {
            _open!.Direction = direction.Direction;
            _open.Others.Add(direction);
            Close();
            _portsOnLine = 0;
        }

        return isOfAll;
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

        // "C1 delivers 67W on its own".
        bool isBehind = condition is { IsAlone: true, Count: < 2 } && _previous is PowerPiece && _portsOnLine == 1 && !_afterSeparator
            && _open is { Ports.Length: 1, Items.Count: 1 }
            && (index + 1 == end || (index + 2 == end && _pieces[index + 1] is SeparatorPiece));
        if (isBehind)
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

        // "Lamp: 5V⎓1A", and any unknown word that begins a line or follows what parts two ratings, may be a port's name, perhaps a spoilt one.
        bool isUnclear = _tokens[protocol.First].Term == Term.None
            && (AtStart || protocol.IsMarked || (_afterSeparator && !IsInProtocols && !ReachesMaximum(index, end)
            && !IsOfScheme(protocol, index, end))
                || protocol.Name.Any(char.IsLower));
        bool isOthers = _tokens[protocol.First].Term is Term.PowerDelivery or Term.Programmable && !MaySpeakPowerDelivery(protocol);
        bool isFollowed = index + 1 < end && (_pieces[index + 1] is ModePiece or RangePiece or ModeListPiece
            || (_pieces[index + 1] is UnknownPiece { Token.Kind: TokenKind.Open } && index + 2 < end && _pieces[index + 2] is RangePiece or ModePiece)
            || (_pieces[index + 1] is PowerPiece power && _tokens[power.First].Kind != TokenKind.Open && MayHaveMaximum(protocol)));
        if (isUnclear || isOthers || !isFollowed || _afterStrange || !MayContinue() || IsOfAllAbove(protocol, index))
        {
            return false;
        }

        (_protocol, _isProtocolRead, _isProtocolOfModes) = (protocol, false, false);
        return true;
    }

    // "PPS:" below the last of several ports, none of which has its own: of that one, or of all?
    private bool IsOfAllAbove(ProtocolPiece protocol, int index) => AtStart && protocol.IsProgrammable && _sourcesAbove > 0 && !_isProgrammableAbove
        && _open is { Ports.Length: 1 } && _open.Line != _line
        && index >= (_lastSource ??= _pieces.FindLastIndex(static piece => piece is HeaderPiece { Ports.IsEmpty: false, Direction: not Direction.Input } header
            && header.Ports.Any(PortNames.MaySpeakPowerDelivery)));

    // "PD 65W, UFCS 33W, QX 40W": a list of protocols, each with its power.
    private bool IsInProtocols => _previous is PowerPiece && _open is { Items: [.., { ProtocolPieces: [var named, ..] }] }
        && _tokens[named.First].Term != Term.None;

    // ", FLUX 66W (66W Max)": the port's maximum is that protocol's.
    private bool ReachesMaximum(int index, int end) => index + 2 < end && _pieces[index + 1] is PowerPiece power
        && _pieces[index + 2] is PowerPiece { IsMaximum: true } maximum && power.Watts.Value == maximum.Watts.Value;

    // "USB-A: 5V⎓3A, FLUX 11V⎓6A (66W Max)": no other port has such a voltage, and a list of the one goes on.
    private bool IsOfScheme(ProtocolPiece protocol, int index, int end) => index + 1 < end
        && _pieces[index + 1] is ModePiece mode
        && _previous is ModePiece && _open is { Ports: [var port] }
        && (mode.Volts.Value is > 5000 and not (9000 or 12_000 or 15_000 or 20_000) || (mode.Volts.Value > 12_000
        && !PortNames.MaySpeakPowerDelivery(port)))
        && protocol.Name.Length > 2 && !protocol.Name.Any(char.IsLower);

    // What only PD has is none of a port that has no CC line (Type-C R2.4, 4.5), and "PPS:" below an input may be an output's.
    private bool MaySpeakPowerDelivery(ProtocolPiece protocol) => _open is null
        || (_open.Ports.All(PortNames.MaySpeakPowerDelivery) && !(AtStart && protocol.IsProgrammable && _open.Direction == Direction.Input));

    // Of a name that nobody knows a power is only read where a port is named and the name is no plain word.
    private bool MayHaveMaximum(ProtocolPiece protocol) => _open is { Ports.IsEmpty: false }
        && (_tokens[protocol.First].Term != Term.None || !protocol.Name.Any(char.IsLower));

    private bool TakeEach(Piece piece)
    {
        bool isOfRating = _open is { Ports.IsEmpty: false } && (_open.Items.Count == 0 || _previous is ModePiece or PowerPiece or EachPiece);
        if (isOfRating)
        {
            _open!.Others.Add(piece);
        }

        return isOfRating;
    }

    // "C1: 100W (5V⎓3A, 9V⎓3A)": the list is in parentheses.
    private bool TakeParenthesis(UnknownPiece unknown, int index, int end)
    {
        bool isOpen = unknown.Token.Kind == TokenKind.Open
            && ((_open is { Items: [{ Rating: PowerPiece }] } && _previous is PowerPiece) || (_previous is ProtocolPiece && !_isProtocolRead))
            && index + 1 < end && _pieces[index + 1] is ModePiece or RangePiece or ModeListPiece;
        // "5V⎓3A (PPS: 3.3-11V⎓3A)".
        isOpen |= unknown.Token.Kind == TokenKind.Open && _open is { Items.Count: > 0 } && _open.Line == _line && !_afterStrange
            && _previous is ModePiece or ModeListPiece or PowerPiece && index + 3 < end && _pieces[index + 1] is ProtocolPiece { IsBehind: false } named
            && _tokens[named.First].Term is Term.Programmable or Term.PowerDelivery && _pieces[index + 2] is RangePiece or ModePiece
            && _pieces[index + 3] is UnknownPiece { Token.Kind: TokenKind.Close };
        bool isClose = unknown.Token.Kind == TokenKind.Close && _open?.Others is [.., UnknownPiece { Token.Kind: TokenKind.Open }];
        if (isOpen || isClose)
        {
            _open!.Others.Add(unknown);
        }

        return isOpen || isClose;
    }
}
