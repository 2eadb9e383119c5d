namespace Portwitness.Labels;

/// <summary>
/// The tokens with a place in them. A grammar's method reads one thing there; where the thing is not, it gives null and the place stays.
/// Each looks a bounded way ahead and none calls itself, so that time grows with the length of the text only.
/// </summary>
internal sealed class TokenReader(List<Token> tokens)
{
    private static readonly Token Nothing = new() { Kind = TokenKind.Break, Start = 0, End = 0, SpaceBefore = 0 };

    /// <summary>Index of the token that comes next.</summary>
    public int At { get; set; }

    /// <summary>Whether all is read.</summary>
    public bool IsAtEnd => At >= tokens.Count;

    /// <summary>How many tokens there are.</summary>
    public int Count => tokens.Count;

    /// <summary>The token that comes next; the end of a line at the end.</summary>
    public Token Current => Peek(0);

    /// <summary>Whether the line ends here.</summary>
    public bool IsAtLineEnd => Current.Kind == TokenKind.Break;

    /// <summary>A token further on.</summary>
    public Token Peek(int ahead) => (uint)(At + ahead) < (uint)tokens.Count ? tokens[At + ahead] : Nothing;

    /// <summary>The next token, when it is of a kind.</summary>
    public Token? Take(TokenKind kind) => Current.Kind == kind ? Next() : null;

    /// <summary>The next token, when it means that.</summary>
    public Token? Take(Term term) => Current.Term == term ? Next() : null;

    /// <summary>The next token, when it is a quantity of that dimension.</summary>
    public Token? Take(Dimension dimension) => Current.Is(dimension) ? Next() : null;

    /// <summary>Steps over a token of a kind.</summary>
    public bool Skip(TokenKind kind) => Take(kind) is not null;

    /// <summary>Steps over a word that means that.</summary>
    public bool Skip(Term term) => Take(term) is not null;

    /// <summary>Steps over words that mean one of some things, and says how many.</summary>
    public int SkipWords(int most, params ReadOnlySpan<Term> terms)
    {
        int count = 0;
        while (count < most && Current.Term != Term.None && terms.Contains(Current.Term))
        {
            At++;
            count++;
        }

        return count;
    }

    /// <summary>Steps over what closes a heading: ":", "=", or a dash that stands free.</summary>
    public bool SkipMark()
    {
        bool isMark = Current.Kind is TokenKind.Colon or TokenKind.Equals || Current.Term == Term.Gives || IsCellOfValue() || (Current.Kind == TokenKind.Dash && Current.SpaceBefore > 0);
        At += isMark ? 1 : 0;
        if (isMark && Current.Term == Term.Gives)
        {
            // "liefert noch".
            At++;
        }

        return isMark;
    }

    // "Output voltage | 5.0 V": a bar in front of a value.
    private bool IsCellOfValue() => Current.Kind == TokenKind.Bar && (Peek(1).Kind is TokenKind.Quantity or TokenKind.Number or TokenKind.Direct
        or TokenKind.Alternating or TokenKind.Tilde or TokenKind.Bound || Peek(1).Term is Term.Maximum or Term.UpTo);

    /// <summary>Steps over "each", "1 per port", "/port", and says whether it was there.</summary>
    public bool SkipEach(int most = 2)
    {
        int first = At;
        bool isOne = Current is { Kind: TokenKind.Number, Value: 1000 };
        At += isOne || (Current.Kind == TokenKind.Slash && Peek(1).Term == Term.Port) ? 1 : 0;
        bool isEach = SkipWords(most, Term.Each) > 0 || (At > first && !isOne && Skip(Term.Port));
        while (isEach && Current.Kind == TokenKind.Slash && Peek(1).Term == Term.Each)
        {
            // "each/cada uno".
            At += 2;
        }

        At = isEach ? At : first;
        return isEach;
    }

    /// <summary>Steps over "⎓", "DC ⎓", or nothing.</summary>
    public void SkipDirects()
    {
        for (int i = 0; i < 2 && Current.Kind is TokenKind.Direct or TokenKind.Equals; i++)
        {
            At++;
        }
    }

    /// <summary>Whether what comes next stands between the ends of a range.</summary>
    public bool IsRangeSign(int ahead = 0) => Peek(ahead) is { Kind: TokenKind.Dash or TokenKind.Tilde } or { Term: Term.To };

    /// <summary>Goes back to a place, for want of a thing there.</summary>
    public T? Back<T>(int at)
        where T : class
    {
        At = at;
        return null;
    }

    /// <summary>The piece, from a token up to here.</summary>
    public T Placed<T>(T piece, int first)
        where T : Piece
    {
        piece.Place(first, At);
        return piece;
    }

    private Token Next() => tokens[At++];
}
