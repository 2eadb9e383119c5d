using System.Collections.Immutable;

namespace Portwitness.Labels;

/// <summary>
/// Ratings for several ports at once: "C1+C2: 45W+20W", "C1+C2 Total: 65W", "C1+C2: C1 20V⎓2.25A, C2 5V⎓3A". Two or more ports always
/// make a combination, so that its rating is never taken for that of the last port.
/// </summary>
internal sealed partial class CombinationGrammar(TokenReader reader, PortGrammar ports, ShareGrammar shares)
{
    private const int MaxGroups = 16;
    private const int MaxSets = 6;
    private const int MaxWords = 8;

    /// <summary>The ports and their rating.</summary>
    public CombinationPiece? Combination()
    {
        int first = reader.At;
        reader.Skip(Term.Article);
        reader.SkipWords(2, Term.Output, Term.Use);
        if (reader.At > first && reader.Current.Kind == TokenKind.Open && Bracketed() is { } bracketed)
        {
            // "Output (C1+C2): 45W+20W".
            return reader.Placed(bracketed with { }, first);
        }

        return PortsFirst(first) ?? ValuesWithPorts(first) ?? Shared(first) ?? reader.Back<CombinationPiece>(first);
    }

    /// <summary>"1+2: 45W+20W", "Output 1 + Output 2: 65W": ports by the numbers of their headers.</summary>
    public CombinationPiece? Numbered()
    {
        int first = reader.At;
        List<string> numbers = [];
        do
        {
            reader.SkipWords(2, Term.Output, Term.Port);
            if (ports.Count() is not { } number)
            {
                return reader.Back<CombinationPiece>(first);
            }

            numbers.Add(number.ToString(System.Globalization.CultureInfo.InvariantCulture));
        }
        while (numbers.Count < MaxGroups && reader.Skip(TokenKind.Plus));

        if (numbers.Count < 2)
        {
            return reader.Back<CombinationPiece>(first);
        }

        bool isShared = HeadWords();
        if (!reader.SkipMark())
        {
            return reader.Back<CombinationPiece>(first);
        }

        isShared |= shares.SkipShared();
        ImmutableArray<ImmutableArray<string>> set = [.. numbers.Select(static ImmutableArray<string> (number) => [number])];
        return Rating(set.Length) is { } rating
            ? reader.Placed(new CombinationPiece([set], SaidToBeShared(rating, isShared)) { IsNumbered = true }, first)
            : reader.Back<CombinationPiece>(first);
    }

    /// <summary>"[C1+C2] 45W+18W" at the beginning of a line.</summary>
    public CombinationPiece? Bracketed()
    {
        int first = reader.At;
        if (!reader.Skip(TokenKind.Open) || Sets() is not { } sets || !reader.Skip(TokenKind.Close))
        {
            return reader.Back<CombinationPiece>(first);
        }

        bool isShared = HeadWords();
        reader.SkipMark();
        isShared |= shares.SkipShared();
        return Rating(sets[0].Length) is { } rating
            ? reader.Placed(new CombinationPiece(sets, SaidToBeShared(rating, isShared)), first) : reader.Back<CombinationPiece>(first);
    }

    /// <summary>"45W + 20W (C1+C2)".</summary>
    public CombinationPiece? ValuesFirst()
    {
        int first = reader.At;
        return reader.Peek(1).Kind == TokenKind.Plus && shares.Split() is { Total: null, SharedBy.IsEmpty: true } split
            && split.Shares.All(static share => share.Ports.IsEmpty) && reader.Skip(TokenKind.Open)
            && Set() is [var set] && set.Length == split.Shares.Length
            && reader.Skip(TokenKind.Close)
            ? reader.Placed(new CombinationPiece([set], split), first) : reader.Back<CombinationPiece>(first);
    }

    /// <summary>"Total (C1+C2): 65W", "Total: C1+C2 = 65W".</summary>
    public CombinationPiece? TotalOfPorts()
    {
        int first = reader.At;
        bool isTotal = reader.Skip(Term.Total);
        reader.Skip(TokenKind.Colon);
        bool isOpen = reader.Skip(TokenKind.Open);
        if (!isTotal || Set() is not [var set] || (isOpen && !reader.Skip(TokenKind.Close)))
        {
            return reader.Back<CombinationPiece>(first);
        }

        reader.SkipMark();
        shares.SkipShared();
        if (reader.Take(Dimension.Power) is not { } watts)
        {
            return reader.Back<CombinationPiece>(first);
        }

        shares.SkipShared();
        return reader.Placed(new CombinationPiece([set], new CombinationRating { Total = watts }), first);
    }

    /// <summary>"(C2 and A share 15W)", "(C1 45W + C2 20W)" behind a total.</summary>
    public CombinationPiece? InParentheses()
    {
        int first = reader.At;
        reader.Skip(TokenKind.Open);
        reader.SkipWords(6, Term.Use, Term.Two, Term.Three, Term.Four, Term.Port, Term.At, Term.Together);
        reader.Skip(TokenKind.Colon);
        int start = reader.At;
        if ((PortsFirst(first) ?? ValuesWithPorts(first)) is { Rating: not null } piece && reader.Skip(TokenKind.Close))
        {
            return reader.Placed(piece, first);
        }

        reader.At = start;
        return PartsOf(first);
    }

    // "65W (C1: 45W, C2: 20W)": the parts of the power in front, which they come to.
    private CombinationPiece? PartsOf(int first)
    {
        Token? whole = first > 0 && reader.Peek(first - 1 - reader.At).Is(Dimension.Power) ? reader.Peek(first - 1 - reader.At) : null;
        List<SharePiece> values = [];
        while (whole is not null && values.Count < MaxGroups && (values.Count == 0 || reader.Skip(TokenKind.Comma))
            && shares.Share() is { Ports.Length: 1, Watts: not null } share)
        {
            values.Add(share);
        }

        return values.Count > 1 && reader.Skip(TokenKind.Close) && values.Sum(static share => share.Watts!.Value) == whole!.Value
            ? reader.Placed(new CombinationPiece([[.. values.Select(static share => share.Ports)]], new CombinationRating { Shares = [.. values] }), first)
            : reader.Back<CombinationPiece>(first);
    }

    /// <summary>"C1 45W, C2 and A share 15W" behind "three ports in use:", to the end of the line.</summary>
    public CombinationPiece? BehindCondition()
    {
        int first = reader.At;
        return shares.Named() is { } rating && rating.Shares.Any(static share => share.Ports.Length > 1) && reader.IsAtLineEnd
            ? reader.Placed(new CombinationPiece([[.. rating.Shares.Select(static share => share.Ports)]], rating), first)
            : reader.Back<CombinationPiece>(first);
    }

    private CombinationPiece? PortsFirst(int first)
    {
        int start = reader.At;
        if (Sets() is not { } sets)
        {
            return reader.Back<CombinationPiece>(start);
        }

        bool isShared = HeadWords();
        reader.SkipMark();
        isShared |= shares.SkipShared();
        CombinationRating? rating = WithSharedEnd(Rating(sets[0].Length), sets);
        if (rating is { IsForEach: true }
            && Enumerable.Range(start - reader.At, reader.At - start).All(ahead => reader.Peek(ahead) is not { Kind: TokenKind.Plus, Term: not Term.And }))
        {
            // "A1 & A2: 5V⎓2.4A each" is said of each alone.
            return reader.Back<CombinationPiece>(start);
        }

        UseBehind(sets[0].Sum(static group => group.Length));
        return reader.Placed(new CombinationPiece(sets, rating is null ? null : SaidToBeShared(rating, isShared)), first);
    }

    // "C1+C2+A: 45W + 5V⎓3A shared": the last value is of the last ports together.
    private CombinationRating? WithSharedEnd(CombinationRating? rating, ImmutableArray<ImmutableArray<ImmutableArray<string>>> sets)
    {
        int values = rating?.Shares.Length ?? 0;
        bool isShared = values > 1 && sets is [var one] && values < one.Length
            && one.All(static group => group.Length == 1) && rating!.SharedBy.IsEmpty
            && rating.Shares.All(static share => share.Ports.IsEmpty) && reader.Current.Term == Term.Shared;
        reader.At += isShared ? 1 : 0;
        return isShared ? rating! with { SharedBy = [.. sets[0].Skip(values - 1).Select(static group => group[0])] } : rating;
    }

    private static CombinationRating SaidToBeShared(CombinationRating rating, bool isShared) =>
        rating with { IsSaidToBeShared = rating is { Pool: not null, IsForEach: false } && (isShared || rating.IsSaidToBeShared) };

    // "USB-C and USB-A (shared): 5V⎓3A": "and" alone does not say that it is at once.
    private CombinationPiece? Shared(int first)
    {
        int start = reader.At;
        if (ports.Joined() is not { IsEmpty: false } joined)
        {
            return reader.Back<CombinationPiece>(start);
        }

        int words = reader.At;
        bool isShared = HeadWords();
        bool isTogether = Enumerable.Range(words - reader.At, reader.At - words).Any(ahead => reader.Peek(ahead).Term == Term.Together);
        ImmutableArray<ImmutableArray<string>> set = [.. joined.Select(static ImmutableArray<string> (port) => [port])];
        if (!isShared && !isTogether)
        {
            // "C1 and C2: 45W + 20W": the plus says it.
            return (reader.SkipMark() || true) && shares.Split() is { } split && split.Shares.Length == joined.Length && split.Shares.All(static share => share.Ports.IsEmpty)
                ? reader.Placed(new CombinationPiece([set], split), first) : reader.Back<CombinationPiece>(start);
        }

        bool isMarked = reader.SkipMark();
        reader.At += !isMarked && reader.Current.Kind == TokenKind.Comma && reader.Peek(1).Term is Term.PortName or Term.Usb ? 1 : 0;
        reader.At += isMarked && isTogether && reader.Current.Kind == TokenKind.Comma ? 1 : 0;
        return Rating(set.Length) is { } rating
            ? reader.Placed(new CombinationPiece([set], SaidToBeShared(rating, !isTogether)), first)
            : reader.Back<CombinationPiece>(start);
    }

    // "C1 45W + A 12W": the plus says that it is at once.
    private CombinationPiece? ValuesWithPorts(int first)
    {
        int start = reader.At;
        List<SharePiece> values = [];
        do
        {
            // A plus with nothing that can be read behind it: more ports are meant than were read.
            if ((shares.Joined() ?? shares.Share()) is not { Ports.IsEmpty: false } share)
            {
                return reader.Back<CombinationPiece>(start);
            }

            values.Add(share);
        }
        while (values.Count < MaxGroups && reader.Skip(TokenKind.Plus));

        if (values.Count < 2)
        {
            return reader.Back<CombinationPiece>(start);
        }

        ImmutableArray<ImmutableArray<string>> groups = [.. values.Select(static value => value.Ports)];

        // "C1 45W + (C2+A 15W)" names each port once.
        UseBehind(values.Sum(static value => value.Ports.Length));
        return reader.Placed(new CombinationPiece([groups], shares.WithTotal(new CombinationRating { Shares = [.. values] })), first);
    }

    private CombinationRating? Rating(int groups)
    {
        int first = reader.At;
        if (reader.Skip(TokenKind.Open))
        {
            if (shares.Rating(groups) is { } inside && reader.Skip(TokenKind.Close))
            {
                return inside;
            }

            reader.At = first;
        }

        return shares.Rating(groups);
    }

    // "C1+C2/C1+A", "C1+C2 or C1+A", "C1/C2+A".
    private ImmutableArray<ImmutableArray<ImmutableArray<string>>>? Sets()
    {
        int first = reader.At;
        if (Set() is not { } sets)
        {
            return null;
        }

        List<ImmutableArray<ImmutableArray<string>>> all = [.. sets];
        while (all.Count < MaxSets)
        {
            int at = reader.At;
            bool isNext = reader.Skip(TokenKind.Slash) || reader.Skip(TokenKind.Comma) || reader.Skip(Term.Or);
            if (!isNext || Set() is not { } next)
            {
                reader.At = at;
                break;
            }

            all.AddRange(next);
        }

        // "C1+C2/A": with C1 too, or A alone?
        bool isOpenEnd = reader.Current.Kind == TokenKind.Slash && reader.Peek(1).Term is Term.PortName or Term.Usb;
        reader.At = isOpenEnd ? first : reader.At;
        return isOpenEnd ? null : [.. all];
    }

    private ImmutableArray<ImmutableArray<ImmutableArray<string>>>? Set()
    {
        int first = reader.At;
        List<ImmutableArray<string>> groups = [];
        ImmutableArray<string> either = [];
        while (groups.Count < MaxGroups && (groups.Count == 0 || reader.Skip(TokenKind.Plus)))
        {
            int at = reader.At;
            if (groups.Count == 0 && Either() is { IsEmpty: false } alternatives)
            {
                either = alternatives;
                groups.Add([either[0]]);
            }
            else if (Group() is { } group)
            {
                groups.Add(group);
            }
            else
            {
                reader.At = groups.Count > 0 ? at - 1 : at;
                break;
            }
        }

        if (groups.Count < 2)
        {
            reader.At = first;
            return null;
        }

        return either.IsEmpty ? [[.. groups]]
            : [.. either.Select(ImmutableArray<ImmutableArray<string>> (port) => [[port], .. groups.Skip(1)])];
    }

    // "C1/C2" in front of a plus: one of them.
    private ImmutableArray<string> Either()
    {
        int first = reader.At;
        List<string> names = [];
        while (names.Count < MaxGroups && (names.Count == 0 || reader.Skip(TokenKind.Slash)) && ports.Port() is { } port)
        {
            names.Add(port);
        }

        if (names.Count < 2 || reader.Current.Kind != TokenKind.Plus)
        {
            reader.At = first;
            return [];
        }

        return [.. names];
    }

    // "C1", "(C2+A)".
    private ImmutableArray<string>? Group()
    {
        int first = reader.At;
        if ((ports.Port() ?? ports.Pad()) is { } single)
        {
            return [single];
        }

        if (shares.PortsInParentheses() is { IsEmpty: false } several && reader.Skip(TokenKind.Close))
        {
            return several;
        }

        reader.At = first;
        return null;
    }
}
