namespace Portwitness.Labels;

/// <summary>Totals: "Total 65W", "65W total", "Max output 65W", "Total output: 5V⎓3A", "together 5V⎓3A".</summary>
internal sealed class TotalGrammar(TokenReader reader, ModeGrammar modes)
{
    /// <summary>The scope of a total that says no more.</summary>
    public const string ProductScope = "product";

    private const int MaxWords = 8;

    // Powers are rounded to a watt. [mW]
    private const int MaxDifference = 500;

    public TotalPiece? Total()
    {
        int first = reader.At;
        reader.Skip(Term.Article);
        bool isOfPorts = reader.Skip(Term.Usb) && reader.Current.Term == Term.Port && reader.Peek(1).Term is Term.Total or Term.Shared;
        reader.At += isOfPorts ? 1 : 0;
        return reader.Current.Is(Dimension.Power) || reader.Current.Is(Dimension.Current) ? ValueFirst(first) : WordFirst(first);
    }

    /// <summary>"(8A total)" behind what each gives.</summary>
    public TotalPiece? InParentheses()
    {
        int first = reader.At;
        return reader.Skip(TokenKind.Open) && reader.Current.Is(Dimension.Current) && Total() is { } total && reader.Skip(TokenKind.Close)
            ? reader.Placed(total with { }, first) : reader.Back<TotalPiece>(first);
    }

    /// <summary>"5V⎓3A total".</summary>
    public TotalPiece? OfMode()
    {
        int first = reader.At;
        if (modes.Mode() is not { } mode)
        {
            return reader.Back<TotalPiece>(first);
        }

        SkipProduct(mode);
        bool isOpen = reader.Skip(TokenKind.Open);
        return (reader.Skip(Term.Total) || reader.Skip(Term.Shared)) && (!isOpen || reader.Skip(TokenKind.Close))
            ? reader.Placed(new TotalPiece(null, mode, null, ProductScope), first) : reader.Back<TotalPiece>(first);
    }

    /// <summary>"5V⎓ total 3.4A", "DC5V/max. total 3.4A".</summary>
    public TotalPiece? InsideMode()
    {
        int first = reader.At;
        reader.SkipDirects();
        Token? volts = reader.Take(Dimension.Voltage);
        reader.SkipDirects();
        reader.At += volts is not null && reader.Current.Kind is TokenKind.Slash or TokenKind.Comma ? 1 : 0;
        int words = reader.At;
        bool isTotal = volts is not null && reader.SkipWords(1, Term.Maximum) >= 0 && reader.SkipWords(1, Term.Total, Term.Shared) > 0;
        reader.At = isTotal ? reader.At : words;
        reader.SkipWords(1, Term.Maximum);
        if (!isTotal || reader.Take(Dimension.Current) is not { } amps)
        {
            return reader.Back<TotalPiece>(first);
        }

        modes.MaximumBehind();
        ModePiece mode = reader.Placed(new ModePiece(volts!, amps, null, IsMaximum: false), first);
        return reader.Placed(new TotalPiece(null, mode, null, ProductScope) { IsShared = true }, first);
    }

    private TotalPiece? WordFirst(int first)
    {
        Token word = reader.Current;
        if (word.Term is not (Term.Total or Term.MaximumOutput or Term.Shared or Term.Together))
        {
            return reader.Back<TotalPiece>(first);
        }

        reader.At++;
        while (reader.Current.Kind == TokenKind.Slash && reader.Peek(1).Term == word.Term)
        {
            // "Total/Gesamt".
            reader.At += 2;
        }

        SkipScope();
        reader.SkipMark();
        SkipScope();
        bool isShared = word.Term == Term.Shared;
        ModePiece? mode = word.Term == Term.MaximumOutput ? null : modes.Mode();
        Token? amps = mode is null && word.Term != Term.MaximumOutput ? reader.Take(Dimension.Current) : null;
        Token? watts = mode is null && amps is null && !isShared ? reader.Take(Dimension.Power) : null;
        if (mode is null && amps is null && watts is null)
        {
            return reader.Back<TotalPiece>(first);
        }

        SkipScope();
        SkipProduct(mode);
        string scope = word.Term == Term.MaximumOutput ? word.Word : ProductScope;
        return reader.Placed(new TotalPiece(watts, mode, amps, scope) { IsShared = isShared }, first);
    }

    private TotalPiece? ValueFirst(int first)
    {
        Token value = reader.Current;
        reader.At++;
        modes.MaximumBehind();
        if (!reader.Skip(Term.Total) && !(value.Is(Dimension.Current) && reader.Skip(Term.Shared)))
        {
            return reader.Back<TotalPiece>(first);
        }

        int mark = reader.At;
        bool isOfNext = (reader.SkipMark() || true) && reader.Current.Kind == TokenKind.Quantity;
        reader.At = mark;
        if (isOfNext)
        {
            return reader.Back<TotalPiece>(first);
        }

        SkipScope();
        TotalPiece piece = value.Is(Dimension.Power) ? new TotalPiece(value, null, null, ProductScope) : new TotalPiece(null, null, value, ProductScope) { IsShared = true };
        return reader.Placed(piece, first);
    }

    // "5V⎓3A (15W max)": volts times amperes says nothing new.
    private void SkipProduct(ModePiece? mode)
    {
        int first = reader.At;
        bool isProduct = mode is not null && reader.Skip(TokenKind.Open) && modes.PlainPower() is { } power
            && Math.Abs(power.Watts.Value - mode.Milliwatts) <= MaxDifference && reader.Skip(TokenKind.Close);
        reader.At = isProduct ? reader.At : first;
    }

    // "max", "up to", "(all ports together)".
    private void SkipScope()
    {
        int first = reader.At;
        bool isOpen = reader.Skip(TokenKind.Open);
        int words = 0;
        while (words < MaxWords && reader.Current.Term is Term.Maximum or Term.UpTo or Term.To or Term.Total or Term.Shared or Term.Together or Term.Use
            or Term.Many or Term.Port or Term.MaximumOutput or Term.Output or Term.At or Term.Article or Term.Usb or Term.Heading or Term.Two or Term.Three
            or Term.Four || reader.Current.Kind == TokenKind.Bound
            || (isOpen && PortGrammar.IsCount(reader.Current) && reader.Peek(1).Term == Term.Port))
        {
            reader.At++;
            words++;
        }

        bool isWhole = words > 0 && (!isOpen || reader.Skip(TokenKind.Close));
        reader.At = isWhole ? reader.At : first;
    }
}
