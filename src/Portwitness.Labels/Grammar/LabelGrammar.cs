namespace Portwitness.Labels;

/// <summary>
/// The whole label as a row of pieces. Any tokens can be read: one that begins no piece is an <see cref="UnknownPiece"/>. Each piece looks
/// a bounded way ahead, so time grows with the length of the text only.
/// </summary>
internal sealed class LabelGrammar
{
    private readonly TokenReader _reader;
    private readonly ModeGrammar _modes;
    private readonly ListGrammar _lists;
    private readonly MainsGrammar _mains;
    private readonly HeaderGrammar _headers;
    private readonly CombinationGrammar _combinations;
    private readonly ShareGrammar _shares;
    private readonly TotalGrammar _totals;
    private readonly BatteryGrammar _batteries;
    private readonly PerformanceGrammar _performance;
    private readonly WordGrammar _words;

    private bool _isBehindCondition;
    private bool _isDirectlyBehindCondition;

    private LabelGrammar(List<Token> tokens)
    {
        _reader = new TokenReader(tokens);
        _modes = new ModeGrammar(_reader);
        PortGrammar ports = new(_reader);
        _lists = new ListGrammar(_reader);
        _mains = new MainsGrammar(_reader, _modes);
        _headers = new HeaderGrammar(_reader, ports, _modes);
        _shares = new ShareGrammar(_reader, ports, _modes);
        _combinations = new CombinationGrammar(_reader, ports, _shares);
        _totals = new TotalGrammar(_reader, _modes);
        _batteries = new BatteryGrammar(_reader, _modes);
        _performance = new PerformanceGrammar(_reader, ports, _modes);
        _words = new WordGrammar(_reader);
    }

    /// <summary>Reads all tokens.</summary>
    public static List<Piece> Read(List<Token> tokens)
    {
        LabelGrammar grammar = new(tokens);
        List<Piece> pieces = new(tokens.Count);
        while (!grammar._reader.IsAtEnd)
        {
            grammar._isBehindCondition = pieces is [.., ConditionPiece { IsAlone: false }];
            grammar._isDirectlyBehindCondition = pieces is [.., ConditionPiece { IsMarked: false }];
            pieces.Add(grammar.Next());
        }

        return pieces;
    }

    private Piece Next()
    {
        int first = _reader.At;
        Piece? piece = First(_reader.Current);
        if (piece is null)
        {
            _reader.At = first + 1;
            piece = _reader.Placed(new UnknownPiece(_reader.Peek(-1)), first);
        }

        return piece;
    }

    // What a piece can be is seen from its first token.
    private Piece? First(Token token) => token.Kind switch
    {
        TokenKind.Break => Single(new BreakPiece()),
        TokenKind.Semicolon or TokenKind.Bar or TokenKind.Bullet => Single(new SeparatorPiece(IsStrong: true)),
        TokenKind.Dash when token.SpaceBefore > 0 && _reader.Peek(1).SpaceBefore > 0
            && (_reader.Peek(1).Kind == TokenKind.Quantity || _reader.Peek(1).Term is Term.Maximum or Term.UpTo) =>
            Single(new SeparatorPiece(IsStrong: false)),
        // "3A.5W": half a watt?
        TokenKind.Stop when _reader.Peek(1) is { Kind: TokenKind.Quantity or TokenKind.Number, SpaceBefore: 0 } => null,
        TokenKind.Stop => Single(new SeparatorPiece(IsStrong: false) { IsSentence = _reader.Peek(1) is { Kind: TokenKind.Word, SpaceBefore: > 0 } }),
        TokenKind.Slash when _reader.Peek(1).Term == Term.Port && _reader.Peek(2).Kind is TokenKind.Break or TokenKind.Comma or TokenKind.Semicolon
            && _words.EachBehind() is { } each => each,
        TokenKind.Comma or TokenKind.Slash or TokenKind.Note => Single(new SeparatorPiece(IsStrong: false)),
        TokenKind.Direct or TokenKind.Alternating or TokenKind.Tilde =>
            (Piece?)_totals.InsideMode() ?? (Piece?)_mains.Mains() ?? Rating() ?? (token.Word.Length > 0 ? _headers.Header() : null),
        TokenKind.Quantity => Quantity(token),
        TokenKind.Number => Number(),
        TokenKind.Cells => _batteries.Battery(),
        TokenKind.Kinds => _shares.SplitOfKinds(),
        TokenKind.Open => Parenthesis(),
        TokenKind.Word => Word(token),
        _ => null,
    };

    private Piece Single(Piece piece)
    {
        int first = _reader.At++;
        return _reader.Placed(piece, first);
    }

    private Piece? Rating() => (Piece?)_lists.Modes() ?? (Piece?)_modes.Range() ?? (Piece?)_modes.Mode() ?? _modes.Supply();

    private Piece? Quantity(Token token) => token.Dimension switch
    {
        Dimension.Power => (Piece?)_headers.PowerOfPort() ?? (Piece?)_mains.Mains() ?? (Piece?)_totals.Total()
            ?? (Piece?)_combinations.ValuesFirst() ?? (Piece?)_shares.SplitAlone() ?? (Piece?)_lists.Powers()
            ?? _modes.Power(),
        Dimension.Charge or Dimension.Energy => _batteries.Battery(),
        Dimension.Current => (Piece?)_mains.Mains() ?? (Piece?)_modes.Mode() ?? (Piece?)_totals.Total() ?? _lists.Row(),
        Dimension.Voltage => VoltageFirst(),
        Dimension.Frequency => _lists.Row(),
        Dimension.Ratio => _performance.AtRatio(),
        _ => null,
    };

    // What has its sign or its current behind its voltage is no mains and no range.
    private Piece? VoltageFirst() => _reader.Peek(1).Kind == TokenKind.Direct || _reader.Peek(1).Is(Dimension.Current)
        ? (Piece?)_totals.InsideMode() ?? (Piece?)_totals.OfMode() ?? (Piece?)_modes.Mode()
            ?? (Piece?)_batteries.Battery() ?? (Piece?)_lists.Modes() ?? (Piece?)_lists.Row() ?? _modes.Supply()
        : (Piece?)_totals.InsideMode() ?? (Piece?)_mains.Mains() ?? Rating() ?? (Piece?)_lists.Row() ?? _batteries.Battery();

    private Piece? Number() => (_reader.Peek(1).Kind == TokenKind.Plus ? _combinations.Numbered() : null)
        ?? (Piece?)_mains.Mains() ?? (Piece?)Rating() ?? (Piece?)_batteries.Battery() ?? (Piece?)_lists.Row()
        ?? (Piece?)_headers.Header() ?? _headers.Condition();

    // "Two ports (C1+C2): 45W+20W" is as "[C1+C2] 45W+20W" at the beginning of a line.
    private Piece? Parenthesis() => (_reader.At == 0 || _reader.Peek(-1).Kind == TokenKind.Break || _isDirectlyBehindCondition
        ? (Piece?)_combinations.Bracketed() ?? _headers.Bracketed() : null) ?? (Piece?)_modes.Power() ?? (Piece?)_headers.DirectionBehind() ?? (Piece?)_words.ProtocolBehind()
        ?? (Piece?)_words.EachBehind() ?? (Piece?)_combinations.InParentheses() ?? (Piece?)_words.AloneBehind() ?? (Piece?)_totals.InParentheses()
        ?? (Piece?)_words.Plain() ?? _headers.PortBehind();

    private Piece? Word(Token token) => token.Term switch
    {
        Term.Usb when _reader.Peek(1).Term is Term.Total => _totals.Total(),
        Term.Usb or Term.ConnectorType or Term.PortName or Term.Cable => Ports(),
        Term.Port => Ports() ?? _headers.Condition(),
        Term.Article => IsBothWays() ? _headers.Header() : (Piece?)Ports() ?? (Piece?)_totals.Total() ?? _words.Plain(),
        Term.Wireless => (HasPlus() ? _combinations.Combination() : null) ?? (Piece?)_performance.Pad() ?? _words.Plain(),
        Term.Efficiency or Term.LowLoad or Term.NoLoad or Term.Conversion => (Piece?)_performance.Performance() ?? _words.Plain(),
        Term.Output when _reader.Peek(_reader.Peek(1).Term == Term.Use ? 2 : 1).Term is Term.Together
            or Term.Shared => (Piece?)_headers.Condition() ?? Ports() ?? _words.Plain(),
        Term.Output when _reader.Peek(1).Counts > 0
            && _reader.Peek(2).Kind == TokenKind.Colon => (Piece?)_headers.Condition() ?? Ports(),
        Term.Output when _reader.Peek(1).Kind == TokenKind.Open && HeaderGrammar.BeginsCondition(_reader.Peek(2)) =>
            (Piece?)_headers.Condition() ?? Ports() ?? _words.Plain(),
        Term.Output when _reader.Peek(1).Term == Term.Wireless || (_reader.Peek(1).Kind == TokenKind.Open && _reader.Peek(2).Term == Term.Wireless) =>
            (Piece?)_performance.PadBehind() ?? Ports() ?? _words.Plain(),
        Term.Input or Term.Output or Term.BothWays or Term.Position or Term.BuiltIn or Term.Vehicle
            or Term.Via => (Piece?)Ports() ?? _words.Plain(),
        Term.MaximumOutput when _reader.Peek(1).Term == Term.Wireless => (Piece?)_performance.PadBehind()
            ?? _totals.Total(),
        Term.Total or Term.MaximumOutput => (token.Term == Term.MaximumOutput ? (Piece?)_headers.PowerOfPort() : null) ??
            (Piece?)_combinations.TotalOfPorts() ?? (Piece?)_headers.MaximumOf() ?? (Piece?)_headers.MaximaOf() ?? (Piece?)_lists.PowerRow() ?? (Piece?)_totals.Total() ?? _headers.Condition(),
        Term.Maximum when _reader.Peek(1).Term is Term.Heading or Term.MaximumOutput => (Piece?)_headers.MaximumOf()
            ?? _headers.MaximaOf(),
        Term.Maximum or Term.UpTo => (Piece?)_headers.PowerOfPort() ?? (Piece?)_mains.Mains() ?? (Piece?)_modes.Power() ?? (Piece?)_modes.MaximumMode() ?? _lists.Row(),
        Term.To => _modes.Power(),
        Term.From => (Piece?)_mains.Mains() ?? (Piece?)_modes.Range() ?? _modes.Supply(),
        Term.Battery or Term.RatedCapacity or Term.Energy or Term.NominalVoltage => _batteries.Battery(),
        Term.Product when _reader.Peek(1).Term is Term.Input or Term.Output or Term.Usb
            or Term.PortName => (Piece?)Ports() ?? _batteries.Battery(),
        Term.Product => (Piece?)_batteries.Battery() ?? _words.Plain(),
        Term.Remark => (Piece?)_words.Remark() ?? _words.Plain(),
        Term.Or or Term.And => Single(new SeparatorPiece(IsStrong: false)),
        Term.Each => (Piece?)_headers.MaximaOf() ?? _words.EachBehind(),
        Term.Heading when _reader.Peek(1).Term == Term.Programmable => _words.ProtocolBefore(),
        Term.Heading when _reader.Peek(1).Term == Term.Wireless => (Piece?)_performance.PadBehind() ?? _headers.MaximumOf(),
        Term.Heading when HeaderGrammar.BeginsCondition(_reader.Peek(1)) || (_reader.Peek(1).Term is Term.At
            or Term.Use && _reader.Peek(2).Counts > 0) => (Piece?)_headers.Condition() ?? _headers.MaximumOf(),
        Term.Heading when _reader.Peek(1).Term == Term.Port => (Piece?)_headers.MaximumOf()
            ?? (Piece?)_headers.MaximaOf() ?? Ports(),
        Term.Heading => (Piece?)_lists.FrequencyRow() ?? (Piece?)_headers.MaximumOf() ?? _headers.MaximaOf(),
        Term.Shared or Term.Together => (Piece?)_totals.Total() ?? _headers.Condition(),
        Term.Use => (Piece?)_headers.Condition() ?? (HasPlus() ? _combinations.Combination() : null),
        Term.Two or Term.Three or Term.Four => (Piece?)_headers.Condition() ?? _headers.Header(),
        Term.Many or Term.Alone or Term.At => _headers.Condition(),
        Term.PowerDelivery or Term.Programmable when _reader.Peek(1).Term == Term.Output => Ports() ?? _words.ProtocolBefore(),
        Term.Nothing when _reader.Peek(1).Term is Term.Output or Term.Input && _reader.Peek(1).SpaceBefore < 2 => Ports() ?? _words.Plain(),
        Term.None or Term.PowerDelivery or Term.Programmable or Term.OpenProtocol => _words.ProtocolBefore(),
        Term.Typical when _reader.Peek(1).Term is Term.RatedCapacity or Term.Battery or Term.Energy => _batteries.Battery(),
        Term.Nothing or Term.Caution => _words.Plain(),
        _ => null,
    };

    // "Ein-/Ausgang": the first half is an article elsewhere.
    private bool IsBothWays() => _reader.Peek(1).Kind is TokenKind.Dash or TokenKind.Slash;

    // Without a plus on its line, or a word that says it, a port begins no combination.
    private Piece? Ports() =>
        (_isBehindCondition ? _combinations.BehindCondition() : null) ?? (HasPlus() ? _combinations.Combination() ?? _combinations.Numbered() : null) ?? (Piece?)_headers.Header();

    private bool HasPlus()
    {
        for (int ahead = 1; ahead < MaxToPlus; ahead++)
        {
            Token token = _reader.Peek(ahead);
            if (token.Kind is TokenKind.Plus or TokenKind.Break || token.Term is Term.Shared or Term.And or Term.Together)
            {
                return token.Kind != TokenKind.Break;
            }
        }

        return true;
    }

    private const int MaxToPlus = 24;
}
