namespace Portwitness.Labels;

/// <summary>
/// Gives each piece to the statement it belongs to, line by line. What is not understood ends the reading of its statement, so
/// that nothing behind it is taken for something it may not be; it goes on at the next clear beginning.
/// </summary>
internal sealed partial class StatementReader
{
    // No mains has less (from memory); "5V~3A" is a misprint.
    private const int LowestSocketVoltage = 100_000;

    // No port gives less: PPS begins at 3.3 V (R3.2v1.1, table 10-16), and "1" at the end of a line may belong to "2V" below.
    private const int LowestPortVoltage = 3000;

    // What a car has, and no USB port takes as a range without a current.
    private const int LowestVehicleVoltage = 10_000;

    // "9-36V" (common practice, no source); SPR ends at 20 V (R3.2v1.1, table 10-2).
    private const int LowestLorryVoltage = 9000;
    private const int HighestFixedVoltage = 20_000;

    // An adapter for USB takes less; from here on it is a strip with sockets (common practice, no source).
    private const int LowestStripCurrent = 6000;
    private const int LowestStripPower = 1_000_000;

    // What is longer is no remark behind a rating.
    private const int MaxInParentheses = 64;

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

    // Whether a port that gives something was named above, read or not.
    private bool _isPortAbove;

    private int _line;
    private int _portsOnLine;
    private bool _hasOwnPowers;
    private bool _previousHadPower;
    private bool _isBroken;
    private bool _afterSeparator;
    private bool _afterStrange;
    private Piece? _previous;
    private ProtocolPiece? _protocol;
    private bool _isProtocolRead;
    private bool _isProtocolOfModes;

    // Ports above that may speak PD, each with its own statement, and whether PPS is printed for one of them.
    private int _sourcesAbove;
    private bool _isProgrammableAbove;

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

        if (EndsWithCondition(start, end))
        {
            Close();
            (_builder.NamesUnreadPort, _mayBeUnnamed) = (true, false);
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
        }

        if (!_isBroken && _context.Condition is { Count: > 1 } condition && _context.ConditionLine != _line
            && _portsOnLine == condition.Count)
        {
            // "Two devices:" over "C1 45W, C2 20W" and "C1 45W, A 18W": each line is one of them.
            Close();
            _shares.End(condition.Count);
        }

        SuspendIfBroken(start, end);
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
        _isPortAbove |= IsPortThatGives(piece);
        bool isTaken = piece switch
        {
            HeaderPiece { IsBehind: true } behind => TakePortBehind(behind, index, end),
            HeaderPiece header => TakeHeader(header, index, end),
            ModePiece or RangePiece or ModeListPiece => TakeShared(piece, index, end) || TakeRating(piece),
            PowerPiece power => TakePower(power, index, end),
            MainsPiece mains => TakeMains(mains),
            SupplyPiece supply => TakeSupply(supply, index, end),
            RowPiece row => TakeRow(row, index, end),
            ProtocolPiece protocol => TakeProtocol(protocol, index, end),
            DirectionPiece direction => TakeDirection(direction, index, end),
            EachPiece => TakeEach(piece),
            ConditionPiece condition => TakeCondition(condition, index, end),
            CombinationPiece combination => IsWhole(index, end) && TakeCombination(combination) && CloseAbove(),
            SplitPiece split => TakeSplit(split, index, end),
            TotalPiece { Mode: not null } total when TakeShared(total, index, end) => true,
            TotalPiece total when TakeMaximumOfPort(total, index, end) => true,
            TotalPiece { Scope: not TotalGrammar.ProductScope } when AtStart && IsBetweenPorts(index) => false,
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
            int last = Math.Min(end, index + MaxInParentheses);
            while (close < last && !(_pieces[close] is UnknownPiece { Token.Kind: TokenKind.Close }))
            {
                // "45W (with C2)" is not said of the port alone, nor "8A (2.4A max per port)" of one port.
                isCondition |= _pieces[close] is HeaderPiece or CombinationPiece or ConditionPiece or EachPiece or RowPiece
                    || (_pieces[close] is UnknownPiece { Token: var inside } && (inside.Is(Dimension.Current) || inside.Is(Dimension.Voltage)
                        || inside.Term is Term.Total or Term.Shared or Term.Together));
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
            && (_previous is PowerPiece || (token.Term != Term.None && token.Kind != TokenKind.Plus && _pieces[index] is not ProtocolPiece) || isCondition))
        {
            open.Items.RemoveAt(open.Items.Count - 1);
        }

        if (token.Kind == TokenKind.Word
            && _previous is HeaderPiece { Ports.IsEmpty: true, IsMarked: false, Direction: not Direction.Unsaid }
            && _tokens[_previous.First].Word is [var letter, _] && !Letters.IsUnspaced(letter))
        {
            // "In blorp use: C1 45W | C2 20W": no direction that anybody knows.
            _context.MissDirection();
        }

        bool isHeading = AtStart && token.Kind == TokenKind.Word && token.Term is not (Term.Programmable or Term.PowerDelivery)
            && !_afterSeparator && _pieces[index] is UnknownPiece or ProtocolPiece or ConditionPiece
            && _pieces.FindIndex(index, end - index, static piece => piece is HeaderPiece { Ports.IsEmpty: false, Direction: Direction.Unsaid }) > index
            && !IsSentence(_pieces[index].First, _pieces[end - 1].End);
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

    // What ends with a full stop and has its own values is no heading of the lines below, unless a colon stands in it.
    private bool IsSentence(int first, int end) => _tokens[end - 1].Kind == TokenKind.Stop
        && _tokens.FindIndex(first, end - first, static token => token.Kind == TokenKind.Colon) < 0
        && _tokens.FindIndex(first, end - first, static token => token.Kind == TokenKind.Quantity) >= 0;

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
            bool isSource = _open.Direction == Direction.Output && _open.Ports.Length == 1 && _open.Ports.All(PortNames.MaySpeakPowerDelivery);
            _mostAbove = _open is { Direction: Direction.Output, Ports.Length: > 0 } ? Math.Max(_mostAbove, Ratings.MostOf(_open.Items)) : _mostAbove;
            _sourcesAbove += isSource ? 1 : 0;
            _isProgrammableAbove |= _open.Items.Exists(static item => item.ProtocolPieces.Any(static piece => piece is ProtocolPiece { IsProgrammable: true }));
            if (_open.IsOpenToEach)
            {
                // "C1 and C2: 45W": for each, or for both?
                _builder.NamesUnreadPort = true;
                _open = null;
                return;
            }

            if (_context.IsTogether && !_open.Ports.IsEmpty && _open.Items.Count == 0)
            {
                _shares.Miss();
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
