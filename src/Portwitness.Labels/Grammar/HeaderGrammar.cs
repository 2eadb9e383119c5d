using System.Collections.Immutable;

namespace Portwitness.Labels;

/// <summary>Headers, which say whose ratings follow and in which direction, and the conditions under which they hold.</summary>
internal sealed partial class HeaderGrammar(TokenReader reader, PortGrammar ports, ModeGrammar modes)
{
    private const int MaxInUse = 7;

    // "max. 2500 W, 10 A," in front of the voltage.
    private const int MaxToVoltage = 8;

    // A word in front of the port says that it is used alone.
    private bool _isAlone;

    // Words say which of several it is: "upper". Without a name that is nobody's.
    private bool _isOneOfSeveral;

    /// <summary>"USB-C1:", "Output (USB-A):", "USB-C Input/Output"; never the beginning of a combination.</summary>
    public HeaderPiece? Header()
    {
        int first = reader.At;
        if (reader.Peek(1).Kind is not (TokenKind.Dash or TokenKind.Slash))
        {
            reader.Skip(Term.Article);
        }

        Token? protocolFirst = reader.Peek(1).Term == Term.Output ? reader.Take(Term.PowerDelivery) ?? reader.Take(Term.Programmable) : null;
        // "Ratings of the outlets: 250 V~".
        reader.At += reader.Current.Term == Term.Heading && reader.Peek(1).Term == Term.Port ? 1 : 0;
        _isOneOfSeveral = false;
        SkipPosition();

        // "Wall charger input".
        reader.At += (reader.Current.Term == Term.Nothing && reader.Peek(1).Term is Term.Input or Term.Output)
            || (reader.Current.Term == Term.Product && (reader.Peek(1).Term is Term.Input or Term.Output
            || (reader.Peek(1).Term is Term.Usb or Term.PortName && IsMarkedSoon()))) ? 1 : 0;
        if ((Socket() ?? Numbered() ?? DirectionFirst() ?? PortsFirst()) is not { } header || (_isOneOfSeveral && !IsOnlyOne(header)))
        {
            return reader.Back<HeaderPiece>(first);
        }

        SkipSupport();
        string? protocol = ProtocolInside() ?? header.Protocol ?? protocolFirst?.Word;
        bool isOfPower = !header.Ports.IsEmpty && reader.Current.Term is Term.Heading or Term.MaximumOutput
            && (reader.Peek(1).Kind == TokenKind.Colon ? reader.Peek(2) : reader.Peek(1)) is { } value
            && (value.Is(Dimension.Power) || value.Term is Term.Maximum or Term.UpTo || (value.Is(Dimension.Voltage)
            && reader.Peek(1).Kind == TokenKind.Colon));
        reader.At += isOfPower ? 1 : 0;
        reader.Skip(TokenKind.Note);
        bool isEach = EachBehind();
        (string? powerProtocol, PowerPiece? power) = MaximumInside();
        SkipNothing();
        bool isMarked = reader.SkipMark();

        // "Input: at least 9V⎓2A": what it needs.
        reader.At += header.Direction == Direction.Input && reader.Current.Term == Term.Typical
            && reader.Peek(1).Is(Dimension.Voltage) ? 1 : 0;
        if (reader.Current.Kind == TokenKind.Plus)
        {
            return reader.Back<HeaderPiece>(first);
        }

        SkipNothing();

        isEach |= !header.Ports.IsEmpty && (reader.SkipEach(1) || (IsAloneBeforeValue() && header.Ports.Length > 1));
        return reader.Placed(header with
        {
            IsMarked = isMarked,
            Protocol = protocol,
            Power = power ?? header.Power,
            PowerProtocol = powerProtocol,
            IsForEach = isEach,
        }, first);
    }

    /// <summary>"Max power: C1 65W, C2 20W": a heading, where "Max power: 65W" is a total.</summary>
    public HeaderPiece? MaximaOf()
    {
        int first = reader.At;
        bool isMarked = reader.SkipWords(3, Term.MaximumOutput, Term.Heading, Term.Maximum, Term.Each, Term.Output) > 0 && reader.SkipMark();
        int end = reader.At;
        bool isList = isMarked && ports.Port() is not null && (reader.SkipMark() || true)
            && (reader.Current.Is(Dimension.Power) || reader.Current.Term is Term.Maximum or Term.UpTo);
        reader.At = end;
        return isList ? reader.Placed(new HeaderPiece(Direction.Output, []) { IsMarked = true, IsDirectionFirst = true }, first)
            : reader.Back<HeaderPiece>(first);
    }

    /// <summary>"Max power C1: 65W", "Power (C1) 65W".</summary>
    public HeaderPiece? MaximumOf()
    {
        int first = reader.At;
        bool isHead = reader.SkipWords(3, Term.MaximumOutput, Term.Heading, Term.Maximum, Term.Via) > 0;
        bool isOpen = reader.Skip(TokenKind.Open);
        return isHead && ports.Ports() is { IsEmpty: false } named && (!isOpen || reader.Skip(TokenKind.Close)) && (reader.SkipMark() || isOpen)
            && (reader.Current.Is(Dimension.Power) || reader.Current.Term is Term.Maximum or Term.UpTo)
            ? reader.Placed(new HeaderPiece(Direction.Unsaid, named) { IsMarked = true }, first) : reader.Back<HeaderPiece>(first);
    }

    /// <summary>"[USB-C1] 5V⎓3A" at the beginning of a line.</summary>
    public HeaderPiece? Bracketed()
    {
        int first = reader.At;
        return reader.Skip(TokenKind.Open) && ports.Ports() is { IsEmpty: false } named && reader.Skip(TokenKind.Close) && (reader.SkipMark() || true)
            && (reader.Current.Kind is TokenKind.Quantity or TokenKind.Direct || reader.Current.Term is Term.Maximum or Term.UpTo)
            ? reader.Placed(new HeaderPiece(Direction.Unsaid, named) { IsMarked = true }, first) : reader.Back<HeaderPiece>(first);
    }

    /// <summary>"(USB-A)" behind ratings.</summary>
    public HeaderPiece? PortBehind()
    {
        int first = reader.At;
        return first > 0 && reader.Skip(TokenKind.Open) && ports.Port() is { } port && reader.Skip(TokenKind.Close)
            && (reader.IsAtLineEnd || reader.Current.Kind is TokenKind.Comma or TokenKind.Slash or TokenKind.Semicolon or TokenKind.Bullet)
            ? reader.Placed(new HeaderPiece(Direction.Unsaid, [port]) { IsBehind = true }, first) : reader.Back<HeaderPiece>(first);
    }

    /// <summary>"(Input)" behind ratings.</summary>
    public DirectionPiece? DirectionBehind()
    {
        int first = reader.At;
        return reader.Skip(TokenKind.Open) && Directions() is { } direction && reader.Skip(TokenKind.Close)
            ? reader.Placed(new DirectionPiece(direction), first) : reader.Back<DirectionPiece>(first);
    }

    /// <summary>"Input/Output", "Input/Eingang/Entrée".</summary>
    private Direction? Directions()
    {
        if (reader.Current.Kind == TokenKind.Word && reader.Current.Word.Equals("ein", StringComparison.OrdinalIgnoreCase))
        {
            // "Ein-/Ausgang".
            int dash = reader.Peek(1).Kind == TokenKind.Dash ? 1 : 0;
            bool isBoth = (reader.Peek(1 + dash).Kind == TokenKind.Slash || reader.Peek(1 + dash).Term == Term.And)
                && reader.Peek(2 + dash).Term == Term.Output;
            reader.At += isBoth ? 3 + dash : 0;
            return isBoth ? Direction.Both : null;
        }

        Direction? all = Word();
        for (int i = 0; i < 4 && all is not null; i++)
        {
            int at = reader.At;
            bool isListed = reader.Skip(TokenKind.Slash) || reader.Skip(TokenKind.Plus)
                || reader.SkipWords(1, Term.And, Term.Or) > 0;
            bool isGlued = reader.Current is { SpaceBefore: 0, Term: Term.Output } && all == Direction.Input && Letters.IsUnspaced(reader.Current.Word[0]);
            if (Word() is not { } next || (!isListed && !isGlued && next != all))
            {
                reader.At = at;
                break;
            }

            all |= next;
        }

        // "出力電源": two words of direction, and which of them holds is not said.
        bool isTorn = all is not null && reader.Current is { SpaceBefore: 0, Term: Term.Input or Term.Output } && Letters.IsUnspaced(reader.Current.Word[0]);
        return isTorn ? null : all;
    }

    private Direction? Word() => reader.Skip(Term.Input) ? Direction.Input : reader.Skip(Term.Output) ? Direction.Output
        : reader.Skip(Term.BothWays) ? Direction.Both : null;

    // "Eingang (Input)", "Mains (input)".
    private void SkipSameDirection(Direction direction)
    {
        int first = reader.At;
        bool isSame = reader.Skip(TokenKind.Open) && Directions() == direction && reader.Skip(TokenKind.Close);
        reader.At = isSame ? reader.At : first;
    }

    private HeaderPiece? DirectionFirst()
    {
        int first = reader.At;
        SkipNature();
        if (Directions() is not { } direction)
        {
            return reader.Back<HeaderPiece>(first);
        }

        Token word = reader.Peek(-1);
        SkipSameDirection(direction);
        SkipNames();
        SkipNatureBehind();
        reader.At += reader.Current is { Kind: TokenKind.Alternating or TokenKind.Direct, Word.Length: > 0 } && reader.Peek(1).Kind == TokenKind.Colon ? 1 : 0;
        Token? number = reader.Current.Kind == TokenKind.Number ? ports.NumberBehind() : null;
        ImmutableArray<string> numbered = number is null ? SeveralNumbered(direction, word) : [PortGrammar.Name(null, null, word, number)];
        int at = reader.At;
        if (number is not null && reader.Skip(TokenKind.Colon) && ports.Port() is { } behind
            && (reader.Skip(TokenKind.Comma) || true) && IsBeforeValue())
        {
            // "Output 1: USB-C 65W".
            return new HeaderPiece(direction, [behind]) { IsDirectionFirst = true, Number = number.Value / 1000 };
        }

        reader.At = at;
        if (reader.Current.Kind == TokenKind.Open && reader.Peek(1).Term == Term.Maximum && reader.Peek(2).Kind == TokenKind.Close)
        {
            // "Output (max.): 65 W".
            at += 3;
            reader.At = at;
        }

        SkipPosition();
        reader.Skip(Term.Via);
        bool isOpen = reader.Skip(TokenKind.Open);
        if (SkipVehicle() && (!isOpen || reader.Skip(TokenKind.Close)))
        {
            return new HeaderPiece(direction, numbered) { IsDirectionFirst = true, Number = number?.Value / 1000 };
        }

        bool isLoose = !isOpen && numbered.IsEmpty && PortGrammar.IsCount(reader.Current)
            && reader.Peek(1).Term is Term.Usb or Term.ConnectorType or Term.PortName;
        number = isLoose ? reader.Take(TokenKind.Number) : number;
        ImmutableArray<string> named = ports.Ports();
        if (!named.IsEmpty && reader.Peek(1).Kind == TokenKind.Colon)
        {
            // "Charge via USB-C in:".
            int said = reader.At;
            reader.At = Word() == direction ? reader.At : said;
        }

        UseBehind();
        string? protocol = isOpen && reader.Current.Term is Term.PowerDelivery or Term.Programmable && reader.Peek(1).Kind == TokenKind.Close
            ? reader.Current.Word : null;
        reader.At += protocol is null ? 0 : 1;
        if (named.IsEmpty || (isLoose && named.Length > 1) || (isOpen && !reader.Skip(TokenKind.Close)) || reader.Current.Kind == TokenKind.Plus)
        {
            // "Output 1 (blorp)": which port that is, nobody knows.
            reader.At = at;
            (named, protocol) = (numbered, null);
            number = isOpen || isLoose ? null : number;
        }

        return new HeaderPiece(direction, named)
        {
            IsDirectionFirst = true,
            IsJoined = ports.AreJoined,
            Number = number?.Value / 1000,
            IsNumberLoose = isLoose,
            Protocol = protocol,
        };
    }

    private bool IsBeforeValue() => reader.Current.Kind is TokenKind.Quantity or TokenKind.Direct
        || reader.Current.Term is Term.Maximum or Term.UpTo or Term.PowerDelivery;

    private HeaderPiece? PortsFirst()
    {
        int first = reader.At;
        bool isVia = reader.Skip(Term.Via);
        _isAlone = reader.Peek(-1).Term == Term.Alone;
        ImmutableArray<string> named = ports.Ports();
        bool areJoined = ports.AreJoined;
        if (named.IsEmpty)
        {
            return reader.Back<HeaderPiece>(first);
        }

        SkipPosition();
        if (named is [var kind] && Inside(kind) is { } exact)
        {
            named = [exact];
        }

        if (isVia)
        {
            // "Über USB-C1 laden Sie mit bis zu 67 W".
            reader.SkipWords(4, Term.Use, Term.Gives);
        }

        Token? ofPort = named.Length == 1 && reader.Peek(-1).Term == Term.Port ? ports.NumberBehind() : null;
        Token? loose = ofPort is null && named.Length == 1 && !char.IsAsciiDigit(named[0][^1]) ? NumberInside() : null;
        UseBehind();
        int at = reader.At;
        bool isOpen = reader.Skip(TokenKind.Open);

        // "USB-A, output:".
        bool isListed = !isOpen && reader.Skip(TokenKind.Comma);
        if (isListed && reader.Current.Term == Term.Heading && reader.Peek(1).Kind == TokenKind.Colon)
        {
            // "USB-C, fixed voltages:".
            at = reader.At + 1;
        }

        // "USB-C2 (output only)" says it of the port, and so does "USB-C (only output)".
        reader.At += isOpen && reader.Current.Term == Term.Alone && reader.Peek(1).Term is Term.Input or Term.Output ? 1 : 0;
        Direction? direction = Directions();
        if (!isOpen && direction is { } said)
        {
            SkipSameDirection(said);
        }

        reader.At += isOpen && direction is not null && reader.Current.Term == Term.Alone && reader.Peek(1).Kind == TokenKind.Close ? 1 : 0;
        PowerPiece? inside = isOpen && direction is not null && reader.Skip(TokenKind.Comma) ? modes.PlainPower() : null;
        if (direction is null || (isOpen && !reader.Skip(TokenKind.Close)) || (isListed && reader.Current.Kind != TokenKind.Colon)
            || (inside is not null && reader.Current.Kind != TokenKind.Colon))
        {
            (reader.At, direction, inside) = (at, null, null);
        }

        Token? number = ofPort ?? loose ?? (direction is null || isOpen ? null : ports.NumberBehind());
        if (direction is not null)
        {
            UseBehind();
        }

        return new HeaderPiece(direction ?? Direction.Unsaid, named)
        {
            IsJoined = areJoined,
            Number = number?.Value / 1000,
            IsNumberLoose = loose is not null,
            Power = inside?.AsMaximum(),
        };
    }

    // "AC" of "AC output", the car of "car input".
    private void SkipNature()
    {
        int first = reader.At;
        if (reader.Current is { Kind: TokenKind.Alternating or TokenKind.Direct, Word.Length: > 0 })
        {
            reader.At++;
        }

        reader.SkipWords(2, Term.Vehicle, Term.Port);
        if (reader.Current.Term is not (Term.Input or Term.Output))
        {
            reader.At = first;
        }
    }

    private bool SkipVehicle()
    {
        int first = reader.At;
        int words = 0;
        bool isVehicle = false;
        while (words < 3 && reader.Current.Term is Term.Vehicle or Term.Port)
        {
            isVehicle |= reader.Current.Term == Term.Vehicle;
            reader.At++;
            words++;
        }

        reader.At = isVehicle ? reader.At : first;
        return isVehicle;
    }

    // "C1 only", "C1 (single port)", "C1 when used alone": what a statement about one port says anyway.
    private void UseBehind()
    {
        int first = reader.At;
        bool isOpen = reader.Skip(TokenKind.Open);
        bool isAlone = !isOpen && _isAlone;
        for (int i = 0; i < MaxInUse && (reader.Current.Term is Term.Alone or Term.Use or Term.Port or Term.At || IsOnePort()); i++)
        {
            isAlone |= reader.Current.Term == Term.Alone || reader.Current.Kind == TokenKind.Number;
            reader.At++;
        }

        reader.At = isAlone && (!isOpen || reader.Skip(TokenKind.Close)) && reader.Current.Kind != TokenKind.Plus ? reader.At : first;
    }

    private bool IsOnePort() => reader.Current is { Kind: TokenKind.Number, Value: 1000 } && reader.Peek(1).Term == Term.Port;

    private bool EachBehind()
    {
        int first = reader.At;
        bool isOpen = reader.Skip(TokenKind.Open);
        bool isEach = reader.SkipEach(1) && (!isOpen || reader.Skip(TokenKind.Close));
        reader.At = isEach ? reader.At : first;
        return isEach;
    }

    // "USB-A×4: single port 5V⎓2.4A" is of each, "C1 delivers alone 65W" of the one.
    private bool IsAloneBeforeValue()
    {
        bool isAlone = reader.Current.Term == Term.Alone && (reader.Peek(1).Kind == TokenKind.Quantity || reader.Peek(1).Term is Term.Maximum or Term.UpTo);
        reader.At += isAlone ? 1 : 0;
        return isAlone;
    }
}
