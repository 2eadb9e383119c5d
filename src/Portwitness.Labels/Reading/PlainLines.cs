namespace Portwitness.Labels;

/// <summary>What a line is as a whole.</summary>
internal enum LineKind
{
    /// <summary>It may rate something, or says whose the ratings below it are.</summary>
    Rating,

    /// <summary>It rates nothing and changes nothing: a title, a mark, an address, a sentence of safety.</summary>
    Plain,

    /// <summary>It says which ports there are, and nothing of what they give.</summary>
    Ports,

    /// <summary>A line of a table of which nobody knows the head.</summary>
    Unclear,

    /// <summary>Words that are not known stand where a heading may: what is below is of nobody knows what.</summary>
    UnknownHeading,
}

/// <summary>
/// Tells the lines that rate nothing. A line without a number that has an electrical unit rates nothing; it may still change the meaning
/// of what is below, unless its words are known not to, or nothing was printed above it, where the product's name stands.
/// </summary>
internal static partial class PlainLines
{
    // What stands between a heading and its colon: "Output 1 (USB-C):".
    private const int MaxToColon = 6;

    /// <summary>The kind of each line; lines end with a break.</summary>
    public static LineKind[] Of(List<Token> tokens)
    {
        List<LineKind> kinds = [];
        bool isAtTop = true;
        ReadOnlySpan<Token> all = System.Runtime.InteropServices.CollectionsMarshal.AsSpan(tokens);
        int start = 0;
        for (int i = 0; i <= all.Length; i++)
        {
            if (i == all.Length || all[i].Kind == TokenKind.Break)
            {
                ReadOnlySpan<Token> line = all[start..i];
                kinds.Add(line.IsEmpty ? LineKind.Rating : line[0].Kind == TokenKind.Unclear ? LineKind.Unclear
                    : PortLists.KindOf(line, all[Math.Min(i + 1, all.Length)..]) ?? KindOf(line, isAtTop));
                isAtTop &= kinds[^1] is not (LineKind.Rating or LineKind.Ports) || line.IsEmpty;
                start = i + 1;
            }
        }

        return PortLists.WithoutRepeated([.. kinds]);
    }

    private static LineKind KindOf(ReadOnlySpan<Token> line, bool isAtTop)
    {
        int first = FirstWord(line);
        if (first < 0)
        {
            return HasDigits(line) ? LineKind.Rating : LineKind.Plain;
        }

        Words words = Words.Of(line);
        Token word = line[first];
        if (word.Term is Term.Port or Term.Usb && !words.IsElectrical && IsCountOfPorts(line[(first + 1)..]))
        {
            return LineKind.Plain;
        }

        // "• Mains: 100-240 V~" is an item of a list.
        bool isItem = line[0].Kind == TokenKind.Bullet && words is { HasMark: true, IsElectrical: true };
        bool isMaximum = line[0].Kind == TokenKind.Bullet && words.IsElectrical && words.Has(Term.Maximum) && !words.HasUnknown;
        bool isNote = first > 0 && line[0].Kind is TokenKind.Note or TokenKind.Bullet && !isItem && !isMaximum && !words.HasHeading;
        if (word.Term == Term.Caution || (words.Has(Term.Caution) && (!words.HasMode || (words.Has(Term.Cable) && !words.HasMark && !words.IsRisky)) && !words.Has(Term.PortName)))
        {
            // "Note: 45 W in total when both are in use", "Max. 65 W (may vary)".
            bool saysMore = words.IsElectrical && (words.Has(Term.Total) || words.Has(Term.Together) || words.Has(Term.Shared) || words.Has(Term.Each)
                || (words.Has(Term.Maximum) && word.Term != Term.Caution));
            return saysMore || HasHeadingBehind(line, first) ? LineKind.Rating : LineKind.Plain;
        }

        if (word.Term == Term.Remark || (word.Term is Term.Nothing or Term.Product && line.Length > first + 1 && line[first + 1].Kind == TokenKind.Colon))
        {
            bool mayRate = HasHeadingBehind(line, first + 1) || (word.Term != Term.Remark && words.IsElectrical) || HasRatingBehindGap(line);
            return mayRate ? LineKind.Rating : LineKind.Plain;
        }

        // "12V and 24V car charger" says what the thing is for; so does a power in the first line, with words that nobody knows.
        bool isName = words.Has(Term.Product) || (isAtTop && words is { HasUnknown: true, IsRisky: false } && !words.RatesAnything);
        bool isTitle = isName && !words.HasMark && words is { IsBounded: false } && !words.Has(Term.Gives)
            && (words.HasOnlyPowers || (words.Has(Term.Vehicle) && words.Has(Term.Product) && words is { HasMode: false }));
        if (isTitle || (isNote && !words.HasMode))
        {
            return LineKind.Plain;
        }

        if (words.IsElectrical)
        {
            bool isTrade = word.Term == Term.Nothing && !words.HasMark && !words.HasMode && !words.IsRisky && !words.Has(Term.PortName);
            return isTrade ? LineKind.Plain : LineKind.Rating;
        }

        return WithoutQuantity(line, words, isAtTop);
    }

    private static LineKind WithoutQuantity(ReadOnlySpan<Token> line, Words words, bool isAtTop)
    {
        // "Wireless charging" on top is what the thing is.
        bool isName = isAtTop && words.Has(Term.Wireless) && !words.HasMark && !words.IsRisky;
        if (words.IsTitle && !HasDigits(line) && (line[^1].Kind != TokenKind.Colon || IsOfNoQuantity(line)))
        {
            return LineKind.Plain;
        }

        if (words.Has(Term.PortName) && IsCaption(line))
        {
            return LineKind.Plain;
        }

        if (words.IsHeading && !isName)
        {
            return LineKind.Rating;
        }

        bool endsWithColon = line[^1].Kind == TokenKind.Colon;
        if (!endsWithColon && !words.IsRisky && !words.Has(Term.PortName) && IsMeasure(line))
        {
            return LineKind.Plain;
        }

        bool isKnown = (words.Has(Term.Nothing) || words.Has(Term.Product) || words.Has(Term.Remark)) && !words.IsCondition;
        if (words.Has(Term.PortName) && (endsWithColon || !isKnown || IsPortWithSupport(line)))
        {
            return LineKind.Rating;
        }

        bool isTold = isKnown || (isAtTop && !words.IsRisky && !words.HasMark);
        return isTold && !endsWithColon ? LineKind.Plain : LineKind.UnknownHeading;
    }

    // "USB-A port (XY compatible)".
    private static bool IsPortWithSupport(ReadOnlySpan<Token> line)
    {
        int open = 0;
        while (open < line.Length && line[open].Term is Term.Usb or Term.ConnectorType or Term.PortName or Term.Port)
        {
            open++;
        }

        return open > 0 && open < line.Length && line[open].Kind == TokenKind.Open && line[^1].Kind == TokenKind.Close;
    }

    // "Cable length: 1.5 m": a number behind the colon, of nothing electrical.
    private static bool IsMeasure(ReadOnlySpan<Token> line)
    {
        int colon = 0;
        while (colon < line.Length && line[colon].Kind != TokenKind.Colon)
        {
            colon++;
        }

        return colon > 0 && colon + 1 < line.Length && HasDigits(line[(colon + 1)..]);
    }

    private static int FirstWord(ReadOnlySpan<Token> line)
    {
        for (int i = 0; i < line.Length; i++)
        {
            if (line[i].Word.Length > 0 || line[i].Kind == TokenKind.Word)
            {
                return i;
            }

            if (line[i].Kind is TokenKind.Quantity or TokenKind.Number)
            {
                return FirstWordBehindNumber(line, i);
            }
        }

        return -1;
    }

    private static int FirstWordBehindNumber(ReadOnlySpan<Token> line, int start)
    {
        for (int i = start; i < line.Length; i++)
        {
            if (line[i].Word.Length > 0 || line[i].Kind == TokenKind.Word)
            {
                return i;
            }
        }

        return -1;
    }

    private static bool HasDigits(ReadOnlySpan<Token> line)
    {
        foreach (Token token in line)
        {
            if (token.Kind is TokenKind.Quantity or TokenKind.Number or TokenKind.Cells)
            {
                return true;
            }
        }

        return false;
    }

    // "Model: TH-20 Input: 5V": a heading of ratings behind the first word, and a quantity behind that.
    private static bool HasHeadingBehind(ReadOnlySpan<Token> line, int first)
    {
        for (int i = first; i < line.Length; i++)
        {
            bool isClear = line[i].Term is Term.Input or Term.Output or Term.RatedCapacity && (i > first || line[first].Term != Term.Caution);
            if (IsHead(line[i].Term) && (isClear ? HasMode(line[i..]) || IsMarked(line, i) : IsMarked(line, i)) && HasQuantity(line[i..]))
            {
                return true;
            }
        }

        return false;
    }

    private static bool IsMarked(ReadOnlySpan<Token> line, int head)
    {
        int end = Math.Min(line.Length, head + MaxToColon);
        for (int i = head + 1; i < end && line[i].Kind != TokenKind.Quantity; i++)
        {
            if (line[i].Kind == TokenKind.Colon)
            {
                return true;
            }
        }

        return false;
    }

    private static bool HasRatingBehindGap(ReadOnlySpan<Token> line)
    {
        for (int i = 1; i < line.Length; i++)
        {
            if ((line[i].SpaceBefore > 1 || line[i].Kind is TokenKind.Bar or TokenKind.Bullet or TokenKind.Semicolon) && HasMode(line[i..]))
            {
                return true;
            }
        }

        return false;
    }

    private static bool HasQuantity(ReadOnlySpan<Token> line)
    {
        foreach (Token token in line)
        {
            if (token.Kind == TokenKind.Quantity)
            {
                return true;
            }
        }

        return false;
    }

    // Volts, and amperes right behind them.
    private static bool HasMode(ReadOnlySpan<Token> line)
    {
        for (int i = 0; i + 1 < line.Length; i++)
        {
            if (line[i].Is(Dimension.Voltage)
                && (line[i + 1].Is(Dimension.Current) || (i + 2 < line.Length && line[i + 2].Is(Dimension.Current))))
            {
                return true;
            }
        }

        return false;
    }

    private static bool IsHead(Term term) => term is Term.Input or Term.Output or Term.Total or Term.MaximumOutput or Term.Battery
        or Term.RatedCapacity or Term.Energy or Term.NominalVoltage or Term.Wireless or Term.Cable or Term.Efficiency or Term.LowLoad
        or Term.NoLoad or Term.Conversion or Term.PortName;

    /// <summary>What is in a line.</summary>
    private readonly record struct Words(ulong Terms, bool IsElectrical, bool HasOnlyPowers, bool HasMode, bool HasMark, bool HasUnknown)
    {
        public static Words Of(ReadOnlySpan<Token> line)
        {
            Words words = new(0, IsElectrical: false, HasOnlyPowers: true, PlainLines.HasMode(line), HasMark: false, HasUnknown: false);
            foreach (Token token in line)
            {
                bool isElectrical = token.Kind is TokenKind.Quantity or TokenKind.Cells && token.Dimension is not Dimension.Frequency;
                words = words with
                {
                    Terms = words.Terms | (1UL << (int)token.Term),
                    IsElectrical = words.IsElectrical || isElectrical,
                    HasOnlyPowers = words.HasOnlyPowers && (token.Kind != TokenKind.Quantity || token.Dimension == Dimension.Power),
                    HasMark = words.HasMark || token.Kind is TokenKind.Colon or TokenKind.Equals,
                    HasUnknown = words.HasUnknown || (token.Kind is TokenKind.Word or TokenKind.Other && token.Term == Term.None),
                };
            }

            return words;
        }

        public bool Has(Term term) => (Terms & (1UL << (int)term)) != 0;

        /// <summary>A word that says which ports, or when.</summary>
        public bool IsRisky => Has(Term.Input) || Has(Term.Output) || Has(Term.Alone) || Has(Term.Each) || Has(Term.Shared) || Has(Term.Together)
            || Has(Term.Two) || Has(Term.Three) || Has(Term.Four) || Has(Term.Many) || Has(Term.BothWays);

        /// <summary>"When several devices are charged at once": it may say so of what is below, too.</summary>
        public bool IsCondition => Has(Term.Use) && (Has(Term.Together) || Has(Term.Many) || Has(Term.Two) || Has(Term.Three) || Has(Term.Four));

        /// <summary>A word that bounds a power: it is more than a title.</summary>
        public bool IsBounded => Has(Term.Maximum) || Has(Term.UpTo) || Has(Term.Total) || Has(Term.MaximumOutput) || Has(Term.Together) || Has(Term.Input);

        /// <summary>A word that says what a value is of.</summary>
        public bool RatesAnything => Has(Term.PortName) || Has(Term.Usb) || Has(Term.Port) || Has(Term.Cable) || Has(Term.BuiltIn) || Has(Term.Wireless)
            || Has(Term.Heading) || Has(Term.Battery) || Has(Term.RatedCapacity) || Has(Term.Energy) || Has(Term.NominalVoltage) || Has(Term.NoLoad)
            || Has(Term.Efficiency) || Has(Term.LowLoad) || Has(Term.Conversion) || Has(Term.PowerDelivery) || Has(Term.Programmable)
            || Has(Term.OpenProtocol) || Has(Term.Output) || Has(Term.Gives) || Has(Term.Via) || Has(Term.Use);

        public bool HasHeading => Has(Term.Input) || Has(Term.Output) || Has(Term.Total) || Has(Term.PortName);

        /// <summary>"Power distribution", "Technical data": of nothing in particular.</summary>
        public bool IsTitle => Has(Term.Heading) && !HasUnknown
            && (Terms & ~((1UL << (int)Term.None) | (1UL << (int)Term.Heading) | (1UL << (int)Term.Article) | (1UL << (int)Term.Use)
                | (1UL << (int)Term.And) | (1UL << (int)Term.Nothing) | (1UL << (int)Term.From)
                | (1UL << (int)Term.Remark) | (1UL << (int)Term.Port) | (1UL << (int)Term.Battery) | (1UL << (int)Term.Product))) == 0;

        /// <summary>Nothing but words of a heading: "Output", "When two ports are used:", "USB-C1".</summary>
        public bool IsHeading => !HasUnknown && !Has(Term.Nothing) && !Has(Term.Product) && !Has(Term.Remark)
            && (IsRisky || Has(Term.PortName) || Has(Term.Usb) || Has(Term.Cable) || Has(Term.Total) || Has(Term.Efficiency)
                || Has(Term.Wireless) || Has(Term.PowerDelivery) || Has(Term.Programmable) || Has(Term.RatedCapacity) || Has(Term.Heading)
                || (Has(Term.Port) && Has(Term.Use)));
    }
}
