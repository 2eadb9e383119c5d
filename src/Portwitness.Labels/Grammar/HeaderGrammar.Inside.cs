namespace Portwitness.Labels;

/// <content>Sockets, and what stands in a header beside its ports.</content>
internal sealed partial class HeaderGrammar
{
    // What cars and lorries have, in mV (from memory).
    private const int LowestVehicleVoltage = 10_000;
    private const int HighestVehicleVoltage = 30_000;

    // "supports fast charging".
    private const int MaxNothing = 2;

    // Names of protocols are short.
    private const int LongestSupport = 8;

    // Where the line of powers ends that was found to be one.
    private int _powersEnd;

    // "AC: 250V~": the sockets of a strip; a range of voltages is an inlet's.
    private HeaderPiece? Socket()
    {
        bool isSocket = IsAlternating(0) && reader.Peek(1).Kind == TokenKind.Colon
            && reader.Peek(2).Is(Dimension.Voltage) && !(reader.IsRangeSign(3) && reader.Peek(4).Is(Dimension.Voltage));
        reader.At += isSocket ? 1 : 0;
        if (!isSocket && (reader.Current.Term == Term.Port || (IsAlternating(0) && reader.Peek(1).Term is Term.Port or Term.Product)))
        {
            // "Outlets: 250 V~ 16 A", "AC outlet: AC 100 V".
            int words = IsAlternating(0) || IsAlternating(1) || reader.Peek(1).Term is Term.Heading or Term.BuiltIn ? 2 : 1;
            int value = reader.Peek(words).Kind == TokenKind.Colon ? words + 1 : words;
            bool isSaid = IsAlternating(0) || IsAlternating(1) || IsAlternating(value);
            value += IsAlternating(value) ? 1 : 0;
            while (value < MaxToVoltage && (reader.Peek(value).Is(Dimension.Power) || reader.Peek(value).Is(Dimension.Current)
                || reader.Peek(value).Kind is TokenKind.Comma or TokenKind.Slash || reader.Peek(value).Term == Term.Maximum))
            {
                value++;
            }

            isSocket = reader.Peek(value).Is(Dimension.Voltage) && !(reader.IsRangeSign(value + 1) && reader.Peek(value + 2).Is(Dimension.Voltage))
                && (isSaid || reader.Peek(value + 1).Kind is TokenKind.Alternating or TokenKind.Tilde);
            reader.At += isSocket ? words : 0;
        }

        if (isSocket)
        {
            return new HeaderPiece(Direction.Output, []);
        }

        // "Cigarette lighter: 12-24 V".
        int first = reader.At;
        bool isInlet = SkipVehicle()
            && IsOfVehicle(reader.Current.Kind == TokenKind.Colon ? reader.Peek(1) : reader.Current);
        reader.At = isInlet ? reader.At : first;
        return isInlet ? new HeaderPiece(Direction.Input, []) { IsDirectionFirst = true } : null;
    }

    private static bool IsOfVehicle(Token value) => (value.Kind is TokenKind.Number || value.Is(Dimension.Voltage))
        && value.Value is >= LowestVehicleVoltage and <= HighestVehicleVoltage;

    /// <summary>"65W (C1), 20W (C2)", "up to 65W via USB-C1": a whole line, or what stands behind a condition, of powers in front of their ports.</summary>
    public HeaderPiece? PowerOfPort()
    {
        int first = reader.At;
        if (_powersEnd <= first)
        {
            Token before = reader.Peek(-1);
            bool isStart = first == 0 || before.Kind is TokenKind.Break or TokenKind.Colon || before.Term == Term.Gives;
            while (isStart && OnePowerOfPort() is not null)
            {
                if (reader.IsAtLineEnd || (reader.Current.Kind == TokenKind.Stop && reader.Peek(1).Kind == TokenKind.Break))
                {
                    _powersEnd = reader.At;
                    break;
                }

                isStart = reader.Skip(TokenKind.Comma) || reader.Skip(TokenKind.Slash) || reader.Skip(TokenKind.Semicolon) || reader.Skip(TokenKind.Bullet)
                    || reader.Skip(Term.And);
            }

            reader.At = first;
        }

        return first < _powersEnd && OnePowerOfPort() is { } header ? reader.Placed(header, first) : reader.Back<HeaderPiece>(first);
    }

    private HeaderPiece? OnePowerOfPort()
    {
        if (reader.Skip(Term.MaximumOutput))
        {
            reader.Skip(TokenKind.Colon);
        }

        if (modes.PlainPower() is not { } power)
        {
            return null;
        }

        bool isOpen = reader.Skip(TokenKind.Open);
        bool isOf = isOpen || reader.SkipWords(2, Term.Via, Term.Output, Term.From) > 0;
        string? port = isOf ? ports.Port() : null;
        if (isOpen)
        {
            reader.SkipWords(MaxInUse, Term.Use, Term.Alone, Term.At, Term.Port);
        }

        return port is not null && (!isOpen || reader.Skip(TokenKind.Close))
            ? new HeaderPiece(Direction.Unsaid, [port]) { IsMarked = true, Power = power.AsMaximum() } : null;
    }

    // "C1 supports 5V⎓3A", "C1: fast charging 5V⎓3A".
    private void SkipNothing()
    {
        int words = 0;
        while (words < MaxNothing && reader.Peek(words).Term == Term.Nothing)
        {
            words++;
        }

        Token next = reader.Peek(words);
        reader.At += next.Is(Dimension.Voltage) || next.Kind is TokenKind.Direct
            || (next.Kind == TokenKind.Colon && reader.Peek(words + 1).Kind == TokenKind.Quantity)
            || next.Term is Term.Maximum or Term.UpTo or Term.PowerDelivery or Term.Gives ? words : 0;
    }

    // "Output (DC):", "Output / DC:".
    private void SkipNatureBehind() => reader.At += reader.Current.Kind == TokenKind.Open
        && reader.Peek(1) is { Kind: TokenKind.Direct or TokenKind.Alternating, Word.Length: > 0 }
        && reader.Peek(2).Kind == TokenKind.Close && reader.Peek(3).Kind == TokenKind.Colon ? 3 : 0;

    // "(XY compatible)": a protocol, and not of which rating; "(対応)".
    private void SkipSupport()
    {
        bool isBefore = reader.Peek(1).Term == Term.Nothing && IsPlainName(reader.Peek(2));
        bool isBehind = reader.Peek(2).Term == Term.Nothing && IsPlainName(reader.Peek(1));
        reader.At += reader.Current.Kind == TokenKind.Open && (isBefore || isBehind) && reader.Peek(3).Kind == TokenKind.Close ? 4 : 0;
        int words = 1;
        while (words <= MaxNothing && reader.Peek(words) is { Term: Term.Nothing, Word: [var letter, ..] } && Letters.IsUnspaced(letter))
        {
            words++;
        }

        reader.At += reader.Current.Kind == TokenKind.Open && words > 1 && reader.Peek(words).Kind == TokenKind.Close ? words + 1 : 0;
    }

    private static bool IsPlainName(Token token) => token is { Kind: TokenKind.Word, Term: Term.None, Word.Length: > 1 and <= LongestSupport }
        && !token.Word.Any(char.IsLower) && !Letters.IsUnspaced(token.Word[0]);

    // "Output voltage/current/power:".
    private void SkipNames()
    {
        int first = reader.At;
        while (reader.At - first < MaxToVoltage
            && (reader.Current.Kind is TokenKind.Slash or TokenKind.Comma or TokenKind.Bullet || reader.Current.Term == Term.And)
            && (reader.Peek(1).Term is Term.Heading or Term.MaximumOutput
                || (reader.Peek(1).Term is Term.Output or Term.Input && reader.Peek(1).Term == reader.Peek(-1).Term)))
        {
            reader.At += 2;
        }

        bool isBeforeValue = reader.Current.SpaceBefore > 0 && reader.Current.Kind is TokenKind.Quantity or TokenKind.Direct or TokenKind.Alternating
            or TokenKind.Number or TokenKind.Bar;
        reader.At = reader.Current.Kind is TokenKind.Colon or TokenKind.Open || isBeforeValue || reader.IsAtLineEnd ? reader.At : first;
    }

    // "A (top)" is the port, unless there is another one with that name.
    private bool IsOnlyOne(HeaderPiece header)
    {
        if (header.Ports is not [var port] || char.IsAsciiDigit(port[^1]))
        {
            return !header.Ports.IsEmpty;
        }

        (int lines, bool isFirst) = (0, true);
        for (int at = -reader.At; at < reader.Count - reader.At; at++)
        {
            Token token = reader.Peek(at);
            bool isName = token.Term == Term.PortName;
            lines += isName && isFirst && PortNames.Same(token.Word, port)
                && reader.Peek(at + 1).Kind != TokenKind.Plus ? 1 : 0;
            isFirst = token.Kind is TokenKind.Break or TokenKind.Bar or TokenKind.Semicolon || (isFirst && !isName);
        }

        return lines == 1;
    }

    // "Charging module USB-C:".
    private bool IsMarkedSoon() => reader.Peek(2).Kind == TokenKind.Colon || reader.Peek(3).Kind == TokenKind.Colon;

    // "USB-C (C1):": the name is in the parentheses.
    private string? Inside(string kind)
    {
        int first = reader.At;
        return !char.IsAsciiDigit(kind[^1]) && reader.Skip(TokenKind.Open) && ports.Port() is { } port
            && reader.Skip(TokenKind.Close)
            && port.Length > kind.Length && port.StartsWith(kind, StringComparison.Ordinal)
            && char.IsAsciiDigit(port[^1])
            ? port : reader.Back<string>(first);
    }

    // "Upper", "(left)".
    private void SkipPosition()
    {
        int first = reader.At;
        bool isOpen = reader.Skip(TokenKind.Open);
        bool isPosition = reader.SkipWords(2, Term.Position) > 0 && (!isOpen || reader.Skip(TokenKind.Close));
        _isOneOfSeveral |= isPosition;
        reader.At = isPosition ? reader.At : first;
    }

    private bool IsAlternating(int ahead) => reader.Peek(ahead) is { Kind: TokenKind.Alternating, Word.Length: > 0 };

    private string? ProtocolInside()
    {
        // "(PD 3.0)", "(PD compatible)".
        int version = reader.Peek(2).Kind == TokenKind.Number || reader.Peek(2).Term == Term.Nothing ? 1 : 0;
        SkipProtocols();
        if (reader.Current.Kind != TokenKind.Open || reader.Peek(1).Term is not (Term.PowerDelivery or Term.Programmable or Term.OpenProtocol)
            || reader.Peek(2 + version).Kind != TokenKind.Close)
        {
            return null;
        }

        string word = reader.Peek(1).Word;
        reader.At += 3 + version;
        return word;
    }

    // "(PD 3.0, PPS)": of several, nobody says which a rating is of.
    private void SkipProtocols()
    {
        int first = reader.At;
        bool isOpen = reader.Skip(TokenKind.Open);
        int count = 0;
        while (isOpen && count < MaxInUse && reader.Skip(count > 0 ? reader.Current.Kind : TokenKind.Open) | count == 0
            && reader.Current.Term is Term.PowerDelivery or Term.Programmable or Term.OpenProtocol)
        {
            count++;
            reader.At++;
            reader.At += reader.Current.Kind == TokenKind.Number ? 1 : 0;
            if (reader.Current.Kind is not (TokenKind.Comma or TokenKind.Slash or TokenKind.Plus))
            {
                break;
            }
        }

        reader.At = count > 1 && reader.Skip(TokenKind.Close) ? reader.At : first;
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
