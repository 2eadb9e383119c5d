namespace Portwitness.Labels;

/// <summary>Voltages with their current, and powers.</summary>
internal sealed class ModeGrammar(TokenReader reader)
{
    // In mV (from memory).
    private const int LowVehicleVoltage = 12_000;
    private const int HighVehicleVoltage = 24_000;

    // Printed powers are rounded: a twentieth is more than that.
    private const int RoundingPart = 20;

    /// <summary>"5V⎓3A", "2 A at 5 V".</summary>
    public ModePiece? Mode()
    {
        int first = reader.At;
        reader.SkipDirects();
        (Token? volts, Token? amps) = reader.Current.Is(Dimension.Current) ? CurrentFirst() : VoltageFirst();
        if (volts is null || amps is null || (reader.IsRangeSign() && reader.Peek(1).Is(Dimension.Current)))
        {
            return reader.Back<ModePiece>(first);
        }

        bool isMaximum = MaximumBehind();
        return reader.Placed(new ModePiece(volts, amps, WattsBehind((long)volts.Value * amps.Value / 1000), isMaximum), first);
    }

    /// <summary>"max. 2.4 A at 5 V".</summary>
    public ModePiece? MaximumMode()
    {
        int first = reader.At;
        return reader.SkipWords(2, Term.Maximum, Term.UpTo, Term.To) > 0 && (reader.Current.Is(Dimension.Current) || reader.Current.Is(Dimension.Voltage)) && Mode() is { } mode
            ? reader.Placed(mode with { IsMaximum = true }, first) : reader.Back<ModePiece>(first);
    }

    /// <summary>"3.3-11V⎓5A", "9-20V⎓3A/5A", "from 3.3 to 11 V, 3 A".</summary>
    public RangePiece? Range()
    {
        int first = reader.At;
        reader.SkipDirects();
        if (Voltages() is not { } volts)
        {
            return reader.Back<RangePiece>(first);
        }

        SkipBetween();
        Token? amps = reader.Take(Dimension.Current);
        if (amps is null || (reader.IsRangeSign() && reader.Peek(1).Is(Dimension.Current)))
        {
            return reader.Back<RangePiece>(first);
        }

        Token? above = null;
        if (reader.Current.Kind == TokenKind.Slash && reader.Peek(1).Is(Dimension.Current))
        {
            reader.At++;
            above = reader.Take(Dimension.Current);
        }

        MaximumBehind();
        return reader.Placed(new RangePiece(volts.Minimum, volts.Maximum, amps, WattsBehind()) { AmpsAbove = above }, first);
    }

    /// <summary>"DC 12-24V", "12–24 V DC (car) 4 A": what only an input can be, its current printed or not.</summary>
    public SupplyPiece? Supply()
    {
        int first = reader.At;
        bool isDirect = reader.Current.Kind == TokenKind.Direct;
        reader.SkipDirects();
        bool isEither = SkipEitherVoltage();
        (int Minimum, int Maximum)? volts = isEither ? (LowVehicleVoltage, HighVehicleVoltage) : Voltages();
        if (volts is null && reader.Take(Dimension.Voltage) is { } one)
        {
            volts = (one.Value, one.Value);
        }

        isDirect |= reader.Current.Kind == TokenKind.Direct;
        reader.SkipDirects();
        int close = reader.At;
        bool isOfVehicle = reader.Skip(TokenKind.Open) && reader.SkipWords(3, Term.Vehicle, Term.Port) > 0 && reader.Skip(TokenKind.Close);
        reader.At = isOfVehicle ? reader.At : close;
        isDirect |= isOfVehicle;
        if (volts is not { } range || !(isDirect || range.Minimum < range.Maximum))
        {
            return reader.Back<SupplyPiece>(first);
        }

        int end = reader.At;
        reader.Skip(TokenKind.Comma);
        reader.Skip(Term.Maximum);
        Token? amps = reader.Take(Dimension.Current);
        reader.At = amps is null ? end : reader.At;
        return reader.Placed(new SupplyPiece(range.Minimum, range.Maximum, amps) { IsDirect = isDirect, IsEither = isEither }, first);
    }

    // "DC 12/24 V", "12V/24V": the mains of cars, or those of lorries.
    private bool SkipEitherVoltage()
    {
        bool isPair = reader.Current.Value == LowVehicleVoltage && (reader.Current.Kind == TokenKind.Number || reader.Current.Is(Dimension.Voltage))
            && reader.Peek(1).Kind == TokenKind.Slash && reader.Peek(2).Is(Dimension.Voltage) && reader.Peek(2).Value == HighVehicleVoltage
            && reader.Peek(3).Kind is TokenKind.Break or TokenKind.Direct or TokenKind.Open;
        reader.At += isPair ? 3 : 0;
        return isPair;
    }

    /// <summary>"65W Max", "up to 65W", "(65W)".</summary>
    public PowerPiece? Power()
    {
        int first = reader.At;
        bool isOpen = reader.Skip(TokenKind.Open);

        // "(single port max 65W)", "(each 30W max)".
        bool isAlone = isOpen && reader.SkipWords(2, Term.Alone, Term.Each) > 0;
        string? protocol = isOpen && !isAlone && reader.Current.Term == Term.PowerDelivery ? reader.Take(TokenKind.Word)!.Word : null;
        PowerPiece? power = PlainPower();
        isAlone |= isOpen && power is not null && reader.SkipWords(2, Term.Each) > 0;
        power = isAlone ? power?.AsMaximum() : protocol is null || power is null ? power : power with { Protocol = protocol };
        return power is null || (isOpen && !reader.Skip(TokenKind.Close)) ? reader.Back<PowerPiece>(first) : reader.Placed(power, first);
    }

    /// <summary>"65W Max", "up to 65W".</summary>
    public PowerPiece? PlainPower()
    {
        int first = reader.At;
        bool isMaximum = reader.SkipWords(3, Term.Maximum, Term.UpTo, Term.To) > 0;
        if (isMaximum)
        {
            reader.Skip(TokenKind.Colon);
        }

        isMaximum |= reader.Skip(TokenKind.Bound);
        if (reader.Take(Dimension.Power) is not { } watts)
        {
            return reader.Back<PowerPiece>(first);
        }

        isMaximum |= MaximumBehind();
        return reader.Placed(new PowerPiece(watts, isMaximum, first..reader.At), first);
    }

    /// <summary>"3.3-11V", "from 12 to 24 V"; in mV.</summary>
    public (int Minimum, int Maximum)? Voltages()
    {
        int first = reader.At;
        bool isFrom = reader.Skip(Term.From);
        Token low = reader.Current;
        bool isLow = low.Kind == TokenKind.Number || low.Is(Dimension.Voltage);

        // "DA 12 A 24 V": the A is a word.
        bool isWord = isFrom && low.Is(Dimension.Current) && reader.Peek(1).Is(Dimension.Voltage);
        // "AC100V-AC240V".
        int nature = isLow && reader.Peek(2) is { Kind: TokenKind.Alternating or TokenKind.Direct, Word.Length: > 0 } ? 1 : 0;
        if (isWord || (isLow && reader.IsRangeSign(1) && reader.Peek(2 + nature).Is(Dimension.Voltage)))
        {
            reader.At += isWord ? 1 : 2 + nature;
            int high = reader.Take(Dimension.Voltage)!.Value;
            if (low.Value > 0 && low.Value < high)
            {
                return (low.Value, high);
            }
        }

        reader.At = first;
        return null;
    }

    /// <summary>"Max" that belongs to what stands before it.</summary>
    public bool MaximumBehind()
    {
        int first = reader.At;
        bool isOpen = reader.Skip(TokenKind.Open);
        bool isMaximum = reader.SkipWords(2, Term.Maximum, Term.UpTo) > 0 && (!isOpen || reader.Skip(TokenKind.Close));
        int watts = reader.Current.Kind == TokenKind.Colon ? 1 : 0;
        isMaximum &= isOpen || !(reader.Peek(watts).Is(Dimension.Power) || reader.Peek(watts).Is(Dimension.Current));
        reader.At = isMaximum ? reader.At : first;
        return isMaximum;
    }

    private (Token? Volts, Token? Amps) VoltageFirst()
    {
        Token head = reader.Peek(reader.Peek(-1).Kind == TokenKind.Colon ? -2 : -1);
        Token? volts = reader.Take(Dimension.Voltage);
        if (volts is null)
        {
            return (null, null);
        }

        if (!SkipName(head.Term))
        {
            SkipBetween();
        }

        return (volts, reader.Take(Dimension.Current));
    }

    // "Output voltage: 5 V, output current: 3 A": the same word in front of both.
    private bool SkipName(Term head)
    {
        int comma = reader.Current.Kind is TokenKind.Comma or TokenKind.Slash ? 1 : 0;
        int mark = reader.Peek(comma + 1).Kind == TokenKind.Colon ? 1 : 0;
        bool isName = head is Term.Input or Term.Output or Term.Heading && reader.Peek(comma).Term == head
            && reader.Peek(comma + mark + 1).Is(Dimension.Current);
        reader.At += isName ? comma + mark + 1 : 0;
        return isName;
    }

    private (Token? Volts, Token? Amps) CurrentFirst()
    {
        Token? amps = reader.Take(Dimension.Current);
        bool isAt = reader.Skip(TokenKind.At) || (reader.Current.Kind == TokenKind.Word && reader.SkipWords(1, Term.At, Term.To) > 0);
        Token? volts = isAt ? reader.Take(Dimension.Voltage) : null;
        if (amps is not null && !isAt && reader.Current.Kind == TokenKind.Open && reader.Peek(1).Is(Dimension.Voltage)
            && reader.Peek(2).Kind == TokenKind.Close)
        {
            // "3 A (5 V)".
            volts = reader.Peek(1);
            reader.At += 3;
        }

        if (volts is not null && reader.Current.Kind == TokenKind.Direct)
        {
            reader.At++;
        }

        return (volts, amps);
    }

    // "⎓", "/", " ", "DC,", "-", "@", "max": all seen between volts and amperes.
    private void SkipBetween()
    {
        reader.SkipDirects();
        if (reader.Current.Kind is TokenKind.Slash or TokenKind.Comma or TokenKind.Dash or TokenKind.At or TokenKind.Semicolon
            || reader.Current.Term == Term.At || (reader.Current.Kind == TokenKind.Colon
            && reader.Peek(1).Is(Dimension.Current))
            || (reader.Current.Term == Term.Use && reader.Peek(1).Is(Dimension.Current)))
        {
            reader.At++;
        }

        if (reader.Current.Term is Term.Maximum or Term.UpTo && reader.Peek(1).Is(Dimension.Current))
        {
            reader.At++;
        }
    }

    // "/15W" and "=15W" behind a mode; "/65W Max" is the port's, and "/65W blorp Max" may be: the mode's is what it comes to.
    private Token? WattsBehind(long? product = null)
    {
        bool isBehind = reader.Current.Kind is TokenKind.Slash or TokenKind.Equals && reader.Peek(1).Is(Dimension.Power)
            && reader.Peek(2).Term != Term.Maximum
            && (product is null || reader.Peek(2) is not { Kind: TokenKind.Word, Term: Term.None } || Math.Abs(reader.Peek(1).Value - product.Value) * RoundingPart <= Math.Max(reader.Peek(1).Value, product.Value));
        reader.At += isBehind ? 1 : 0;
        return isBehind ? reader.Take(Dimension.Power) : null;
    }
}
