namespace Portwitness.Labels;

/// <summary>
/// Joins the words of a heading that only together say what it is of: "Énergie totale", "Mean efficiency in active mode". What a phrase of the
/// <see cref="Vocabulary"/> says stays as it is; words that make no sense together stay apart.
/// </summary>
internal static class HeadingWords
{
    private const int MaxWords = 7;

    // "in".
    private const int LongestPreposition = 2;

    // In mV (from memory).
    private const int LowestMains = 90_000;

    public static List<Token> Join(List<Token> tokens)
    {
        int kept = 0;
        for (int at = 0; at < tokens.Count;)
        {
            Settle(tokens, at);
            int length = tokens[at].Kind == TokenKind.Word && (at == 0 || tokens[at - 1].Kind != TokenKind.Word) ? LengthAt(tokens, at) : 1;
            tokens[kept++] = length < 2 ? tokens[at] : Joined(tokens, at, length);
            at += Math.Max(length, 1);
        }

        tokens.RemoveRange(kept, tokens.Count - kept);
        return tokens;
    }

    // "Rated output: 6000 mAh" is a capacity, and "Power: 65 W" alone is all that is given.
    private static void Settle(List<Token> tokens, int at)
    {
        if (tokens[at].Kind == TokenKind.Alternating && at + 1 < tokens.Count && tokens[at + 1].Dimension is Dimension.Ratio or Dimension.Charge or Dimension.Energy)
        {
            // "ca. 75 %".
            tokens[at] = tokens[at] with { Kind = TokenKind.Word, Term = Term.Typical };
        }

        if (tokens[at] is { Term: Term.Input, Word.Length: <= LongestPreposition } && at + 1 < tokens.Count && tokens[at + 1] is { Kind: TokenKind.Word } word
            && (word.Counts > 0 || word.Term is Term.Many or Term.Together or Term.Alone))
        {
            // "In multiple use: C1 45W": no "IN".
            tokens[at] = tokens[at] with { Term = Term.Use };
        }

        if (tokens[at].Term is not (Term.Output or Term.Heading or Term.NominalVoltage))
        {
            return;
        }

        int value = at + 1 < tokens.Count && tokens[at + 1].Kind == TokenKind.Colon ? at + 2 : at + 1;
        if (tokens[at].Term == Term.NominalVoltage)
        {
            // "Rated voltage: 230 V~, 50 Hz": no cells have that. What sockets give is printed with its current.
            bool isMains = value < tokens.Count && tokens[value] is { Dimension: Dimension.Voltage, Value: >= LowestMains }
                && !tokens.Skip(value).TakeWhile(static token => token.Kind != TokenKind.Break).Any(static token => token.Dimension is Dimension.Current or Dimension.Power);
            tokens[at] = isMains ? tokens[at] with { Term = Term.Input } : tokens[at];
            return;
        }

        bool isCapacity = tokens[at].Term == Term.Output && value < tokens.Count && tokens[value].Is(Dimension.Charge);
        bool isPower = tokens[at].Term == Term.Heading && value == at + 2 && value < tokens.Count && tokens[value].Is(Dimension.Power)
            && (at == 0 || tokens[at - 1].Kind == TokenKind.Break) && (value + 1 == tokens.Count || tokens[value + 1].Kind == TokenKind.Break)
            && PartsOf(tokens[at]) == Part.Power && !IsUnderHeading(tokens, at);
        tokens[at] = tokens[at] with { Term = isCapacity ? Term.RatedCapacity : isPower ? Term.MaximumOutput : tokens[at].Term };
    }

    // A line without a quantity may say of what the power below it is; the first one is the product's name where its words do not.
    private static bool IsUnderHeading(List<Token> tokens, int at)
    {
        int start = Math.Max(0, at - 1);
        bool isRated = false;
        bool saysOfWhat = false;
        while (start > 0 && tokens[start - 1].Kind != TokenKind.Break)
        {
            Token token = tokens[--start];
            isRated |= token.Kind == TokenKind.Quantity;
            saysOfWhat |= token.Counts > 0 || token.Term is Term.Wireless or Term.Alone or Term.Together or Term.Shared or Term.Many or Term.Maximum or Term.Input
                or Term.PortName or Term.Usb or Term.Use;
        }

        return at > 0 && !isRated && (start > 0 || saysOfWhat);
    }

    private static Token Joined(List<Token> tokens, int at, int length) => tokens[at] with
    {
        Word = string.Join(' ', tokens.GetRange(at, length).Select(static token => token.Word)),
        Term = WordParts.Compose(Parts(tokens, at, length)),
        End = tokens[at + length - 1].End,
    };

    private static Part Parts(List<Token> tokens, int at, int length)
    {
        Part parts = Part.None;
        for (int i = at; i < at + length; i++)
        {
            parts |= PartsOf(tokens[i]);
        }

        return parts & ~Part.Link;
    }

    // The number of words that begin here and are one heading; 0 when they are none.
    private static int LengthAt(List<Token> tokens, int start)
    {
        (int end, int said, bool isNew) = (start, 0, false);
        Part all = Part.None;
        while (end < tokens.Count && end - start < MaxWords && tokens[end] is { Kind: TokenKind.Word } word && (end == start || word.SpaceBefore < 2)
            && PartsOf(word) is not Part.None and var parts)
        {
            said += parts == Part.Link ? 0 : 1;
            isNew |= word.Term == Term.None && parts != Part.Link;
            all |= parts;
            end++;
        }

        if (said < 2 || (end < tokens.Count && !IsBehindHeading(tokens[end])))
        {
            return 0;
        }

        Term term = WordParts.Compose(all & ~Part.Link);
        if (term is Term.Wireless or Term.Cable or Term.Alone or Term.Together or Term.Two or Term.Three or Term.Four)
        {
            // Each of these is a word of its own.
            return 0;
        }

        Term own = term is Term.Efficiency or Term.Conversion or Term.LowLoad or Term.NoLoad ? term : Term.None;
        bool isOfBattery = IsOfBattery(term);
        isNew |= term is Term.Input or Term.Output or Term.MaximumOutput or Term.Total && tokens.FindIndex(start, end - start, static token => token.Term == Term.Heading) >= 0;
        for (int i = start; i < end && (own != Term.None || isOfBattery); i++)
        {
            // "Battery, rated capacity" is read word by word.
            isNew |= PartsOf(tokens[i]) != Part.Link && (isOfBattery ? !IsOfBattery(tokens[i].Term) : tokens[i].Term != own);
        }

        return isNew && term != Term.None ? end - start : 0;
    }

    private static bool IsOfBattery(Term term) => term is Term.Battery or Term.RatedCapacity or Term.Energy or Term.NominalVoltage;

    private static bool IsBehindHeading(Token token) => token.Kind is not (TokenKind.Word or TokenKind.Plus or TokenKind.Slash or TokenKind.Dash or TokenKind.Number)
        || token.Term is Term.Maximum or Term.UpTo or Term.Typical;

    internal static Part PartsOf(Token token)
    {
        if (token.Term is Term.Caution or Term.Nothing or Term.Product or Term.PortName or Term.Usb)
        {
            return Part.None;
        }

        Part all = Part.None;
        foreach (Range range in token.Word.AsSpan().Split(' '))
        {
            Part part = WordParts.OfWord(token.Word.AsSpan(range));
            if (part == Part.None)
            {
                return OfTerm(token.Term);
            }

            all |= part;
        }

        return all == Part.Link ? all : all & ~Part.Link;
    }

    private static Part OfTerm(Term term) => term switch
    {
        Term.Input => Part.Input,
        Term.Output => Part.Output,
        Term.Total => Part.Total,
        Term.Maximum => Part.Maximum,
        Term.MaximumOutput => Part.Maximum | Part.Power,
        Term.Battery => Part.Battery,
        Term.RatedCapacity => Part.Capacity | Part.Usable,
        Term.Energy => Part.Energy,
        Term.NominalVoltage => Part.Voltage | Part.Rated,
        Term.Efficiency => Part.Efficiency | Part.Average,
        Term.Conversion => Part.Efficiency,
        Term.LowLoad => Part.LowLoad,
        Term.NoLoad => Part.NoLoad,
        _ => Part.None,
    };
}
