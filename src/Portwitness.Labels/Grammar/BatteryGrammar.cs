namespace Portwitness.Labels;

/// <summary>Capacity, voltage and energy of the battery, in any order, with its words before and behind.</summary>
internal sealed class BatteryGrammar(TokenReader reader, ModeGrammar modes)
{
    private const int MaxTokens = 24;

    // Cells have 3.0 V to 3.95 V; what is rated at such a voltage is the cells.
    private const int LowestCell = 3000;
    private const int HighestCell = 3950;

    /// <summary>With a word of the battery before it, or figures that only a battery has.</summary>
    public BatteryPiece? Battery()
    {
        int first = reader.At;
        Figures figures = default;
        int end = first;
        bool hasFigure = false;
        while (reader.At - first < MaxTokens)
        {
            int at = reader.At;
            if (hasFigure && reader.Current.SpaceBefore > 1 && IsWord(reader.Current.Term))
            {
                break;
            }

            if (Figure(ref figures))
            {
                hasFigure = true;
                end = reader.At;
            }
            else if (!Word(ref figures, hasFigure, ref end))
            {
                reader.At = at;
                break;
            }
        }

        reader.At = end;
        return hasFigure && Combine(figures) is { } battery ? reader.Placed(battery, first) : reader.Back<BatteryPiece>(first);
    }

    private static bool IsWord(Term term) => term is Term.Battery or Term.RatedCapacity or Term.Energy or Term.NominalVoltage;

    // Words and signs around the figures; those that may begin something else are only taken where a figure follows.
    private bool Word(ref Figures figures, bool hasFigure, ref int end)
    {
        Token token = reader.Current;
        if (IsWord(token.Term))
        {
            bool isNext = hasFigure && (token.Term == Term.RatedCapacity || (token.Term == Term.Battery && figures.Capacity is not null && FollowsCapacity()));
            if (isNext)
            {
                return false;
            }

            figures.IsRated |= token.Term == Term.RatedCapacity;
            (figures.HasWord, figures.HasOwnWord) = (true, true);
            reader.At++;
            end = hasFigure ? reader.At : end;
            return true;
        }

        figures.HasWord |= token.Term == Term.Product;
        bool isSign = token.Kind is TokenKind.Comma or TokenKind.Slash or TokenKind.Open or TokenKind.At or TokenKind.Direct or TokenKind.Equals
            or TokenKind.Bound or TokenKind.Colon or TokenKind.Dash or TokenKind.Semicolon or TokenKind.Stop
            || (token.Kind is TokenKind.Bullet or TokenKind.Bar && hasFigure && IsFigureBehind());
        bool isWord = token.Term is Term.At or Term.Typical or Term.To or Term.Maximum || (token.Term == Term.Product && !hasFigure)
            || (token.Term == Term.Use && figures.HasOwnWord && !hasFigure && IsWord(reader.Peek(1).Term))
            || (token.Term == Term.Use && hasFigure && reader.Peek(1).Kind == TokenKind.Close);
        bool isClosing = token.Kind == TokenKind.Close || token.Term == Term.Typical;
        // "Li-ion 18650": diameter and length of a round cell in millimetres and tenths.
        bool isSize = !hasFigure && figures.HasWord && (IsSize(token) || (token.Kind == TokenKind.Number
            && reader.Peek(1).Term == Term.Times && IsSize(reader.Peek(2)))
            || (token.Term == Term.Times && IsSize(reader.Peek(1))));

        // "Powerbank TP-45  15000 mAh": the product's name.
        bool isName = !hasFigure && reader.Peek(-1).Term == Term.Product
            && token is { Kind: TokenKind.Word, Term: Term.None }
            && token.Word.AsSpan().ContainsAnyInRange('0', '9') && token.SpaceBefore < 2;
        if (!isSign && !isWord && !isClosing && !isSize && !isName)
        {
            return false;
        }

        reader.At++;
        end = hasFigure && isClosing ? reader.At : end;
        return true;
    }

    private static bool IsSize(Token token) => token is { Kind: TokenKind.Number, Value: 18_650_000 or 21_700_000
        or 26_650_000 or 14_500_000 };

    // "74Wh · 3.7V · 20000mAh", but not "20000mAh | 5V⎓3A".
    private bool IsFigureBehind() => reader.Peek(1).Is(Dimension.Charge) || reader.Peek(1).Is(Dimension.Energy)
        || (reader.Peek(1).Is(Dimension.Voltage) && (reader.Peek(2).Kind is TokenKind.Bullet or TokenKind.Bar or TokenKind.Break
            || reader.Peek(2).Is(Dimension.Charge) || reader.Peek(2).Is(Dimension.Energy)));

    // "20000mAh 74Wh Battery: 10000mAh": another statement.
    private bool FollowsCapacity()
    {
        for (int ahead = 1; ahead < 5 && reader.Peek(ahead).Kind != TokenKind.Break; ahead++)
        {
            if (reader.Peek(ahead).Is(Dimension.Charge))
            {
                return true;
            }
        }

        return false;
    }

    private bool Figure(ref Figures figures)
    {
        if (modes.Mode() is { } mode)
        {
            figures.IsTwice |= figures.Volts is not null || figures.Amps is not null;
            (figures.Volts, figures.Amps) = (mode.Volts, mode.Amps);
            return true;
        }

        if (reader.Take(TokenKind.Cells) is { } cells)
        {
            figures.IsTwice |= figures.Cells is not null;
            figures.Cells = cells.Value;
            return true;
        }

        return Series(ref figures) || Capacity(ref figures) || Other(ref figures);
    }

    private bool Other(ref Figures figures)
    {
        if (reader.Take(Dimension.Voltage) is { } volts)
        {
            figures.IsTwice |= figures.Volts is not null;
            figures.Volts = volts;
            return true;
        }

        if (reader.Take(Dimension.Energy) is { } energy)
        {
            figures.IsTwice |= figures.WattHours is not null && figures.WattHours.Value != energy.Value;
            figures.WattHours ??= energy;
            return true;
        }

        return false;
    }

    // "2x 6500 mAh", "5000mAh*2".
    private bool Capacity(ref Figures figures)
    {
        int first = reader.At;
        Token? count = reader.Current.Kind == TokenKind.Number && reader.Peek(1).Term == Term.Times ? reader.Current : null;
        reader.At += count is null ? 0 : 2;
        Token? each = reader.Take(Dimension.Charge);
        if (each is not null && count is null && reader.Current.Term == Term.Times && reader.Peek(1).Kind == TokenKind.Number)
        {
            count = reader.Peek(1);
            reader.At += 2;
        }

        if (each is null || Multiply(count, each) is not { } capacity)
        {
            reader.At = first;
            return false;
        }

        // "10000mAh (typ.) 9800mAh (min.)": the first is the battery's.
        bool isBound = reader.Current.Term == Term.Typical
            || reader.Peek(-2 - (count is null ? 0 : 2)).Term == Term.Typical || (reader.Current.Kind == TokenKind.Open
            && reader.Peek(1).Term == Term.Typical);
        figures.IsTwice |= figures.Capacity is not null && figures.Capacity != capacity && !isBound;
        figures.Capacity ??= capacity;
        figures.Count = count is null ? figures.Count : count.Value / 1000;
        return true;
    }

    // "2 cells in series".
    private bool Series(ref Figures figures)
    {
        int word = reader.Current.Counts;
        if (word > 0 && reader.Peek(1).Term == Term.Series)
        {
            figures.IsTwice |= figures.Cells is not null;
            figures.Cells = (word * 1000) + 1;
            reader.At += 2;
            return true;
        }

        bool isSeries = reader.Current is { Kind: TokenKind.Number, Value: > 0 and < 100_000 } number && number.Value % 1000 == 0
            && reader.Peek(1).Term == Term.Series;
        if (isSeries)
        {
            figures.IsTwice |= figures.Cells is not null;
            figures.Cells = reader.Current.Value + 1;
            reader.At += 2;
        }

        return isSeries;
    }

    private static int? Multiply(Token? count, Token each)
    {
        long times = count is null ? 1 : count.Value / 1000;
        bool isWhole = count is null || (count.Value % 1000 == 0 && times is >= 1 and <= 1000);
        return isWhole && times * each.Value <= int.MaxValue ? (int)(times * each.Value) : null;
    }

    // A current belongs to a rated capacity, an energy to the cells; twice the same figure is not clear.
    private static BatteryPiece? Combine(Figures figures)
    {
        bool isCell = figures.Amps is null
            && (figures.WattHours is not null || figures.Volts is { Value: >= LowestCell and <= HighestCell });

        // What has a port's voltage and a current comes out of a port, whatever it is called.
        bool isOfPort = figures is { Amps: not null, Volts.Value: 5000 or 9000 or 12_000 or 15_000 or 20_000 };
        bool isRated = (figures.IsRated && !isCell) || isOfPort;
        bool isCounted = Count(ref figures);
        bool isClear = (figures.HasWord && (figures.HasOwnWord || figures.Capacity is not null))
            || figures.WattHours is not null || (figures.Capacity is not null && figures.Volts is not null);
        bool fits = isRated ? figures.WattHours is null && figures.Cells is null && figures.Capacity is not null : figures.Amps is null;
        return !figures.IsTwice && isClear && fits && isCounted
            ? new BatteryPiece(isRated, figures.Capacity, figures.Volts, figures.Amps, figures.WattHours, figures.Cells) : null;
    }

    // "2×5000mAh": beside one another or in a row? Their energy tells; false when it stays open what the capacity is.
    private static bool Count(ref Figures figures)
    {
        if (figures is not { Count: > 1, Capacity: { } capacity, Volts: { } volts, Cells: null })
        {
            return true;
        }

        if (figures.WattHours is { } energy && IsEnergy(capacity, volts, energy))
        {
            figures.Cells = 1000 + figures.Count;
        }
        else if (figures.WattHours is { } ofOne && IsEnergy(capacity / figures.Count, volts, ofOne))
        {
            (figures.Capacity, figures.Cells) = (capacity / figures.Count, (figures.Count * 1000) + 1);
        }

        return figures.Cells is not null || volts.Value <= HighestCell;
    }

    // Printed energies are rounded; two in a hundred is more than that.
    private static bool IsEnergy(long milliampereHours, Token volts, Token energy) =>
        Math.Abs((milliampereHours * volts.Value / 1000) - energy.Value) * 50 <= energy.Value;

    private struct Figures
    {
        public int Count;
        public bool IsRated;
        public bool HasWord;

        /// <summary>A word of the battery, not only of the product.</summary>
        public bool HasOwnWord;
        public bool IsTwice;
        public int? Capacity;
        public Token? Volts;
        public Token? Amps;
        public Token? WattHours;
        public int? Cells;
    }
}
