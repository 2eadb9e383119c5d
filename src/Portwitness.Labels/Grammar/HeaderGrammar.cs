using System.Collections.Immutable;

namespace Portwitness.Labels;

/// <summary>Headers, which say whose ratings follow and in which direction, and the conditions under which they hold.</summary>
internal sealed partial class HeaderGrammar(TokenReader reader, PortGrammar ports, ModeGrammar modes)
{
    private const int MaxInUse = 7;

    /// <summary>"USB-C1:", "Output (USB-A):", "USB-C Input/Output"; never the beginning of a combination.</summary>
    public HeaderPiece? Header()
    {
        int first = reader.At;
        reader.Skip(Term.Article);
        if ((Socket() ?? Numbered() ?? DirectionFirst() ?? PortsFirst()) is not { } header)
        {
            return reader.Back<HeaderPiece>(first);
        }

        string? protocol = ProtocolInside() ?? header.Protocol;
        bool isEach = EachBehind();
        (string? powerProtocol, PowerPiece? power) = MaximumInside();
        bool isMarked = reader.SkipMark();
        if (reader.Current.Kind == TokenKind.Plus)
        {
            return reader.Back<HeaderPiece>(first);
        }

        isEach |= !header.Ports.IsEmpty && reader.Skip(Term.Each);
        return reader.Placed(header with
        {
            IsMarked = isMarked,
            Protocol = protocol,
            Power = power,
            PowerProtocol = powerProtocol,
            IsForEach = isEach,
        }, first);
    }

    /// <summary>"Max power: C1 65W, C2 20W": a heading, where "Max power: 65W" is a total.</summary>
    public HeaderPiece? MaximaOf()
    {
        int first = reader.At;
        bool isMarked = reader.Skip(Term.MaximumOutput) && reader.SkipMark();
        int end = reader.At;
        bool isList = isMarked && ports.Port() is not null && (reader.SkipMark() || true)
            && (reader.Current.Is(Dimension.Power) || reader.Current.Term is Term.Maximum or Term.UpTo);
        reader.At = end;
        return isList ? reader.Placed(new HeaderPiece(Direction.Output, []) { IsMarked = true, IsDirectionFirst = true }, first)
            : reader.Back<HeaderPiece>(first);
    }

    /// <summary>"Max power C1: 65W", "Power C1: 65W".</summary>
    public HeaderPiece? MaximumOf()
    {
        int first = reader.At;
        return (reader.Skip(Term.MaximumOutput) || reader.Skip(Term.Heading)) && ports.Ports() is { IsEmpty: false } named && reader.SkipMark()
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
            bool isBoth = reader.Peek(1 + dash).Kind == TokenKind.Slash && reader.Peek(2 + dash).Term == Term.Output;
            reader.At += isBoth ? 3 + dash : 0;
            return isBoth ? Direction.Both : null;
        }

        Direction? all = Word();
        for (int i = 0; i < 4 && all is not null; i++)
        {
            int at = reader.At;
            bool isListed = reader.Skip(TokenKind.Slash) || reader.Skip(TokenKind.Plus);
            if (Word() is not { } next || (!isListed && next != all))
            {
                reader.At = at;
                break;
            }

            all |= next;
        }

        return all;
    }

    private Direction? Word() => reader.Skip(Term.Input) ? Direction.Input : reader.Skip(Term.Output) ? Direction.Output : null;

    // "AC: 250V~": the sockets of a strip; a range of voltages is an inlet's.
    private HeaderPiece? Socket()
    {
        bool isSocket = reader.Current is { Kind: TokenKind.Alternating, Word.Length: > 0 } && reader.Peek(1).Kind == TokenKind.Colon
            && reader.Peek(2).Is(Dimension.Voltage) && !(reader.IsRangeSign(3) && reader.Peek(4).Is(Dimension.Voltage));
        reader.At += isSocket ? 1 : 0;
        if (!isSocket && reader.Current.Term == Term.Port)
        {
            // "Outlets: 250 V~ 16 A".
            int value = reader.Peek(1).Kind == TokenKind.Colon ? 2 : 1;
            isSocket = reader.Peek(value).Is(Dimension.Voltage) && reader.Peek(value + 1).Kind is TokenKind.Alternating or TokenKind.Tilde;
            reader.At += isSocket ? 1 : 0;
        }

        return isSocket ? new HeaderPiece(Direction.Output, []) : null;
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
        reader.At += reader.Current is { Kind: TokenKind.Alternating or TokenKind.Direct, Word.Length: > 0 } && reader.Peek(1).Kind == TokenKind.Colon ? 1 : 0;
        Token? number = reader.Current.Kind == TokenKind.Number ? ports.NumberBehind() : null;
        ImmutableArray<string> numbered = number is null ? SeveralNumbered(direction, word) : [PortGrammar.Name(null, null, word, number)];
        int at = reader.At;
        if (number is not null && reader.Skip(TokenKind.Colon) && ports.Port() is { } behind && IsBeforeValue())
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

        bool isOpen = reader.Skip(TokenKind.Open);
        if (SkipVehicle() && (!isOpen || reader.Skip(TokenKind.Close)))
        {
            return new HeaderPiece(direction, numbered) { IsDirectionFirst = true, Number = number?.Value / 1000 };
        }

        bool isLoose = !isOpen && numbered.IsEmpty && PortGrammar.IsCount(reader.Current)
            && reader.Peek(1).Term is Term.Usb or Term.ConnectorType or Term.PortName;
        number = isLoose ? reader.Take(TokenKind.Number) : number;
        ImmutableArray<string> named = ports.Ports();
        UseBehind();
        string? protocol = isOpen && reader.Current.Term is Term.PowerDelivery or Term.Programmable && reader.Peek(1).Kind == TokenKind.Close
            ? reader.Current.Word : null;
        reader.At += protocol is null ? 0 : 1;
        if (named.IsEmpty || (isOpen && !reader.Skip(TokenKind.Close)) || reader.Current.Kind == TokenKind.Plus)
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

    // "Output 1 / Output 2:", "Output 1/2:", "Output 1 and 2:".
    private ImmutableArray<string> SeveralNumbered(Direction direction, Token word)
    {
        if (!PortGrammar.IsCount(reader.Current))
        {
            return [];
        }

        int first = reader.At;
        List<string> names = [];
        while (PortGrammar.IsCount(reader.Current) && reader.Take(TokenKind.Number) is { } number)
        {
            names.Add(PortGrammar.Name(null, null, word, number));
            if (!reader.Skip(TokenKind.Slash) && !reader.Skip(TokenKind.Comma) && !reader.Skip(Term.And))
            {
                break;
            }

            int at = reader.At;
            reader.At = Word() == direction ? reader.At : at;
        }

        if (names.Count > 1 && reader.Current.Kind == TokenKind.Colon)
        {
            return [.. names];
        }

        reader.At = first;
        return [];
    }

    // "Port 1 (USB-C)", "Port 1: USB-C 45W".
    private HeaderPiece? Numbered()
    {
        int first = reader.At;
        bool isNumbered = reader.Skip(Term.Port);
        Token? number = isNumbered ? ports.NumberBehind() : null;
        int at = reader.At;
        if (number is not null && reader.Skip(TokenKind.Colon) && ports.Port() is { } behind && IsBeforeValue())
        {
            return new HeaderPiece(Direction.Unsaid, [behind]) { Number = number.Value / 1000 };
        }

        reader.At = at;
        bool isOpen = number is not null && reader.Skip(TokenKind.Open);
        string? port = isOpen ? ports.Port() : null;
        string? protocol = port is not null && reader.Current.Term is Term.PowerDelivery or Term.Programmable && reader.Peek(1).Kind == TokenKind.Close
            ? reader.Current.Word : null;
        reader.At += protocol is null ? 0 : 1;
        return port is not null && reader.Skip(TokenKind.Close)
            ? new HeaderPiece(Direction.Unsaid, [port]) { Number = number!.Value / 1000, Protocol = protocol } : reader.Back<HeaderPiece>(first);
    }

    private bool IsBeforeValue() => reader.Current.Kind is TokenKind.Quantity or TokenKind.Direct
        || reader.Current.Term is Term.Maximum or Term.UpTo or Term.PowerDelivery;

    private HeaderPiece? PortsFirst()
    {
        int first = reader.At;
        ImmutableArray<string> named = ports.Ports();
        bool areJoined = ports.AreJoined;
        if (named.IsEmpty)
        {
            return reader.Back<HeaderPiece>(first);
        }

        Token? ofPort = named.Length == 1 && reader.Peek(-1).Term == Term.Port ? ports.NumberBehind() : null;
        UseBehind();
        int at = reader.At;
        bool isOpen = reader.Skip(TokenKind.Open);
        Direction? direction = Directions();
        if (direction is null || (isOpen && !reader.Skip(TokenKind.Close)))
        {
            (reader.At, direction) = (at, null);
        }

        Token? number = ofPort ?? (direction is null || isOpen ? null : ports.NumberBehind());
        if (direction is not null)
        {
            UseBehind();
        }

        return new HeaderPiece(direction ?? Direction.Unsaid, named) { IsJoined = areJoined, Number = number?.Value / 1000 };
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
        bool isAlone = false;
        for (int i = 0; i < MaxInUse && reader.Current.Term is Term.Alone or Term.Use or Term.Port or Term.At; i++)
        {
            isAlone |= reader.Current.Term == Term.Alone;
            reader.At++;
        }

        reader.At = isAlone && (!isOpen || reader.Skip(TokenKind.Close)) && reader.Current.Kind != TokenKind.Plus ? reader.At : first;
    }

    private bool EachBehind()
    {
        int first = reader.At;
        bool isOpen = reader.Skip(TokenKind.Open);
        bool isEach = reader.Skip(Term.Each) && (!isOpen || reader.Skip(TokenKind.Close));
        reader.At = isEach ? reader.At : first;
        return isEach;
    }

    private string? ProtocolInside()
    {
        // "(PD 3.0)", "(PD compatible)".
        int version = reader.Peek(2).Kind == TokenKind.Number || reader.Peek(2).Term == Term.Nothing ? 1 : 0;
        if (reader.Current.Kind != TokenKind.Open || reader.Peek(1).Term is not (Term.PowerDelivery or Term.Programmable or Term.OpenProtocol)
            || reader.Peek(2 + version).Kind != TokenKind.Close)
        {
            return null;
        }

        string word = reader.Peek(1).Word;
        reader.At += 3 + version;
        return word;
    }

    // "(65W)", "(PD 65W)", "65W", before the colon.
    private (string? Protocol, PowerPiece? Power) MaximumInside()
    {
        int first = reader.At;
        bool isOpen = reader.Skip(TokenKind.Open);
        Token? protocol = reader.Current.Term is Term.PowerDelivery or Term.Programmable or Term.OpenProtocol ? reader.Current : null;
        reader.At += protocol is null ? 0 : 1;
        if (protocol is not null)
        {
            reader.At += reader.Current.Kind == TokenKind.Number ? 1 : 0;
            reader.Skip(TokenKind.Comma);
        }

        if (modes.PlainPower() is { } power && (!isOpen || reader.Skip(TokenKind.Close)) && reader.Current.Kind == TokenKind.Colon)
        {
            return (protocol?.Word, power.AsMaximum());
        }

        reader.At = first;
        return (null, null);
    }
}
