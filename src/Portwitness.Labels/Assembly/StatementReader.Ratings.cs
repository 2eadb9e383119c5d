namespace Portwitness.Labels;

/// <content>What is rated.</content>
internal sealed partial class StatementReader
{
    private bool TakeRating(Piece rating)
    {
        // "1 5V⎓3A" may be 15 V.
        bool isBehindNumber = _afterStrange && _tokens[rating.First - 1].Kind == TokenKind.Number && _tokens[rating.First].SpaceBefore < 2;
        bool isGlued = isBehindNumber || (_afterStrange && _tokens[rating.First].SpaceBefore == 0);
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
            _open!.Items.Add(new Statement.Item(
                one, isNamed ? _protocol!.Name : null, _protocol is not null && !_isProtocolRead ? [_protocol] : []));
            _isProtocolRead = true;
        }

        bool isSupply = rating is RangePiece { Minimum: >= LowestVehicleVoltage } or RangePiece { Minimum: >= LowestLorryVoltage, Maximum: > HighestFixedVoltage }
            or ModePiece { Volts.Value: >= LowestVehicleVoltage };
        if (_open is { Direction: Direction.Input, Ports.IsEmpty: true } && isSupply)
        {
            _context.ReadSupply();
        }

        _afterStrange = false;
        return true;
    }

    // "All four together: 5V⎓6A", "The three ports share 5V⎓4A".
    private bool TakeShared(Piece rating, int index, int end)
    {
        bool isShared = rating is ModePiece or TotalPiece && _open is null && index + 1 == end && !_context.IsUnknown && !_context.IsInput && !_afterStrange
            && _previous is ConditionPiece { IsAlone: false, Kind: "" } all && (all.IsMarked || all.IsShared);
        if (!isShared)
        {
            return false;
        }

        TotalPiece total = rating as TotalPiece ?? new TotalPiece(null, (ModePiece)rating, null, TotalGrammar.ProductScope) { IsShared = true };
        total.Place(rating.First, rating.End);
        return _builder.Add(total, ((ConditionPiece)_previous!).Count);
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
        if (_open is null && !_context.IsInput && !_context.IsUnknown && !_afterSeparator
            && _previous is ConditionPiece { IsAlone: false, Kind: "" } all && (all.IsMarked || all.IsShared)
            && (index + 1 == end || (index + 2 == end && _pieces[index + 1] is CombinationPiece
            or ConditionPiece { Count: 0, IsAlone: false })))
        {
            // "All ports together: 65W", "Both ports in use: 65W shared".
            _builder.AddTotalOf(all.Count, power);
            if (index + 1 < end && _pieces[index + 1] is ConditionPiece shared)
            {
                _builder.MarkRead([shared]);
            }

            return true;
        }

        bool isTied = _tokens[power.First].Kind == TokenKind.Open && power.IsMaximum && !_afterSeparator;
        // "65W Max" below the modes of what has no name: there is no other port.
        isTied |= power.IsMaximum && _open is { Ports.IsEmpty: true, Direction: Direction.Output } unnamed && index + 1 == end
            && Ratings.Reaches(unnamed, power) && unnamed.Items.TrueForAll(static item => item is { Rating: ModePiece or ModeListPiece or RangePiece, Protocol: null });
        bool isOwn = IsOwnMaximum(power, index, end);
        _hadOwnMaximum |= isOwn;
        isTied |= isOwn;
        if (_open is null || _afterStrange || (AtStart && _open.Items.Count > 0 && !isTied && !_afterSeparator))
        {
            return false;
        }

        // "30W or 20W": which of them?
        bool isEither = power.End + 1 < _tokens.Count && _tokens[power.End].Term == Term.Or && _tokens[power.End + 1].Is(Dimension.Power);
        if (isEither)
        {
            return false;
        }

        // "C1/C2: 65W / 30W": one power for several ports has no other behind it.
        bool isOneOfSeveral = _open is { Ports.Length: > 1, Items.Count: 0 } && HasPowerBehind(power.End);
        bool mayBeOfAll = _portsOnLine > 1 && !_hasOwnPowers && index + 1 == end && _open.Items.Count > 0 && (_protocol is null || _isProtocolRead);

        // "C and A: 5V⎓3A 9V⎓2A (36W Max)": of both together.
        mayBeOfAll |= _open is { Ports.Length: > 1, IsJoined: true, IsForEach: false, Items.Count: > 0 } && (_protocol is null || _isProtocolRead);
        if (isOneOfSeveral || (mayBeOfAll && !Ratings.Reaches(_open, power)))
        {
            return false;
        }

        // "PD 65W": what directly follows a protocol is its own.
        bool isNamed = _protocol is not null && !_isProtocolRead;
        _open.Items.Add(new Statement.Item(power, power.Protocol ?? (isNamed ? _protocol!.Name : null), isNamed ? [_protocol!] : []));
        _isProtocolRead = true;
        return true;
    }

    private bool HasPowerBehind(int token)
    {
        for (int i = token; i < _tokens.Count && _tokens[i].Kind is not (TokenKind.Break or TokenKind.Semicolon or TokenKind.Bar or TokenKind.Stop)
            && _tokens[i].Term is not (Term.PortName or Term.Usb or Term.Cable); i++)
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

    // In mV (from memory).
    private const int LowVehicleVoltage = 12_000;
    private const int HighVehicleVoltage = 24_000;

    private bool TakeSupply(SupplyPiece supply, int index, int end)
    {
        if (supply is { IsDirect: false, Minimum: >= LowestSocketVoltage } && _open is { Direction: Direction.Input, Ports.IsEmpty: true })
        {
            // "Input voltage: 100-240V" without a sign.
            MainsPiece mains = new([(supply.Minimum, supply.Maximum)], [], supply.Amps, null);
            mains.Place(supply.First, supply.End);
            return TakeMains(mains);
        }

        if (supply is { Amps: null, IsDirect: true } && supply.Minimum == supply.Maximum && _open is { Direction: Direction.Output, IsDirectionOnly: true }
            && _previous is HeaderPiece && index + 1 == end)
        {
            // "Output voltage: DC 12V": a row of a sheet.
            RowPiece row = new(Dimension.Voltage, [_tokens[_tokens.FindIndex(supply.First, static token => token.Is(Dimension.Voltage))]]);
            row.Place(supply.First, supply.End);
            return TakeRow(row, index, end);
        }

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
        if (row is { Dimension: Dimension.Voltage, Values: [{ Value: LowVehicleVoltage or HighVehicleVoltage } volts] }
            && _previous is HeaderPiece
            && index + 1 == end && _open is { Direction: Direction.Input, Ports.IsEmpty: true })
        {
            // "Input 12V": a car's.
            SupplyPiece supply = new(volts.Value, volts.Value, null) { IsDirect = true };
            supply.Place(row.First, row.End);
            return TakeSupply(supply, index, end);
        }

        bool isOfHeader = _open is { IsDirectionOnly: true } && _previous is HeaderPiece && index + 1 == end;
        if (isOfHeader && _sheet.Add(row, _open!))
        {
            if (_open!.Direction == Direction.Input)
            {
                _context.ReadSupply();
            }

            _open = null;
            return true;
        }

        if (_previous is null && row.Dimension == Dimension.Frequency && index + 1 == end && (_open is null or { HasMains: true }))
        {
            // "Input voltage", "Input current", then "Frequency: 50/60 Hz".
            Close();
            return _builder.AddFrequencies(row, []);
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

        _builder.MarkSigns(row);
        _open = null;
        return true;
    }
}
