using System.Collections.Immutable;

namespace Portwitness.Labels;

/// <summary>What is printed behind the ports of a combination: what each gives, what they share, their total.</summary>
internal sealed class ShareGrammar(TokenReader reader, PortGrammar ports, ModeGrammar modes)
{
    private const int MaxShares = 16;
    private const int MaxRatings = 12;

    /// <summary>The rating of a combination of so many groups of ports.</summary>
    public CombinationRating? Rating(int groups) =>
        Each() ?? Split() ?? Named() ?? Listed(groups) ?? TotalFirst() ?? Pool() ?? WattsEach() ?? Total();

    /// <summary>"45W+20W", "45W+5V⎓2.4A", "45W+(C2+A 15W)".</summary>
    public CombinationRating? Split()
    {
        int first = reader.At;
        List<SharePiece> shares = [];
        while (shares.Count < MaxShares && (shares.Count == 0 || reader.Skip(TokenKind.Plus)) && (Joined() ?? Share()) is { } share)
        {
            shares.Add(share);
        }

        bool isLastShared = shares.Count > 0 && (reader.Peek(-1).Kind == TokenKind.Plus ? SharedByRest(shares)
            : reader.Current.Term == Term.Shared && shares[^1].Ports.IsEmpty && shares[^1].Watts is not null && reader.Skip(Term.Shared));
        if (shares.Count < 2 || reader.Peek(-1).Kind == TokenKind.Plus)
        {
            return reader.Back<CombinationRating>(first);
        }

        return WithTotal(new CombinationRating { Shares = [.. shares], IsLastShared = isLastShared });
    }

    // "45W+(15W)", "45W+shared 15W": the ports that are left share it.
    private bool SharedByRest(List<SharePiece> shares)
    {
        int first = reader.At;
        bool isOpen = reader.Skip(TokenKind.Open);
        bool isSaid = isOpen || reader.Skip(Term.Shared);
        bool isOne = isSaid && modes.PlainPower() is { } power && reader.SkipWords(2, Term.Shared, Term.Total) >= 0
            && (!isOpen || reader.Skip(TokenKind.Close)) && Add(shares, power);
        reader.At = isOne ? reader.At : first;
        return isOne;
    }

    private static bool Add(List<SharePiece> shares, PowerPiece power)
    {
        shares.Add(new SharePiece([], power.Watts, []));
        return true;
    }

    /// <summary>"45W+20W" where no port is named.</summary>
    public SplitPiece? SplitAlone()
    {
        int first = reader.At;
        return reader.Peek(1).Kind == TokenKind.Plus && Split() is { IsLastShared: false } split && split.Shares.All(static share => share.Ports.IsEmpty)
            ? reader.Placed(new SplitPiece(split), first) : reader.Back<SplitPiece>(first);
    }

    /// <summary>"2C1A: 45W+10W+10W".</summary>
    public SplitPiece? SplitOfKinds()
    {
        int first = reader.At;
        string word = reader.Take(TokenKind.Kinds)!.Word;
        ports.SkipUse();
        reader.SkipMark();
        return Split() is { IsLastShared: false } split && split.Shares.All(static share => share.Ports.IsEmpty)
            ? reader.Placed(new SplitPiece(split)
            {
                Kinds = [.. Enumerable.Range(0, word.Length / 2).Select(i => (char.ToUpperInvariant(word[(2 * i) + 1]), word[2 * i] - '0'))],
            }, first)
            : reader.Back<SplitPiece>(first);
    }

    /// <summary>One value, with its ports where they are printed: "45W", "C1 45W", "C1(45W)", "(C2+A 15W)", "C1 5V⎓3A, 9V⎓3A".</summary>
    public SharePiece? Share()
    {
        int first = reader.At;
        if (Shared() is { } shared)
        {
            return shared;
        }

        string? port = ports.Port() ?? ports.Pad();
        if (port is not null)
        {
            reader.SkipMark();
        }

        int at = reader.At;
        bool isOpen = port is not null && reader.Skip(TokenKind.Open);
        if (modes.PlainPower() is { } power && (!isOpen || reader.Skip(TokenKind.Close)))
        {
            return new SharePiece(port is null ? [] : [port], power.Watts, []);
        }

        reader.At = at;
        List<(Piece, string?)> ratings = [];
        while (ratings.Count < MaxRatings && Mode(isFirst: ratings.Count == 0) is { } rating)
        {
            ratings.Add(rating);
            if (port is null)
            {
                break;
            }
        }

        return ratings.Count > 0 ? new SharePiece(port is null ? [] : [port], null, [.. ratings]) : reader.Back<SharePiece>(first);
    }

    // "(total C2+A": the word stands in front of the ports that were read last.
    private bool IsSaidInside { get; set; }

    /// <summary>"(C2+A", "(C2 and A": the ports, up to what follows them.</summary>
    public ImmutableArray<string> PortsInParentheses()
    {
        int first = reader.At;
        List<string> names = [];
        bool isOpen = reader.Skip(TokenKind.Open);
        IsSaidInside = isOpen && reader.SkipWords(1, Term.Total, Term.Shared) > 0;
        while (isOpen && names.Count < MaxShares && (names.Count == 0 || reader.Skip(TokenKind.Plus) || reader.Skip(TokenKind.Comma)
            || reader.Skip(TokenKind.Bullet) || reader.Skip(Term.And)) && ports.Port() is { } port)
        {
            names.Add(port);
        }

        if (names.Count < 2)
        {
            reader.At = first;
            return [];
        }

        return [.. names];
    }

    /// <summary>Words that say a rating is shared, in parentheses or not.</summary>
    public bool SkipShared()
    {
        int first = reader.At;
        bool isOpen = reader.Skip(TokenKind.Open);
        bool isShared = reader.SkipWords(4, Term.Total, Term.Maximum, Term.MaximumOutput, Term.Shared, Term.UpTo, Term.Together, Term.To, Term.Use) > 0;
        isShared &= !isOpen || reader.Skip(TokenKind.Close);
        reader.At = isShared ? reader.At : first;
        return isShared;
    }

    /// <summary>The rating with the total that is printed behind it: "(Total 65W)", "= 65W", "(65W Max)".</summary>
    public CombinationRating WithTotal(CombinationRating rating)
    {
        int first = reader.At;
        if (PortsInParentheses() is { IsEmpty: false } shared)
        {
            bool isSaid = SkipShared() || IsSaidInside;
            reader.SkipMark();
            Token? each = reader.Take(Dimension.Power);
            bool isLast = each is null ? isSaid : rating.Shares[^1].Watts?.Value == each.Value;
            SkipShared();
            if (isLast && reader.Skip(TokenKind.Close))
            {
                return rating with { SharedBy = shared };
            }

            reader.At = first;
        }

        bool isOpen = reader.Skip(TokenKind.Open);
        bool isClear = isOpen || reader.Skip(TokenKind.Equals)
            || (reader.Current.Kind == TokenKind.Comma && reader.Peek(1).Term == Term.Total && reader.Skip(TokenKind.Comma));
        if (isClear)
        {
            SkipShared();
            reader.Skip(TokenKind.Colon);
            reader.Skip(TokenKind.Equals);
            if (reader.Take(Dimension.Power) is { } total)
            {
                SkipShared();
                if (!isOpen || reader.Skip(TokenKind.Close))
                {
                    return rating with { Total = total };
                }
            }
        }

        reader.At = first;
        return rating;
    }

    // "each 30W".
    private CombinationRating? Each()
    {
        int first = reader.At;
        if (!reader.SkipEach(1))
        {
            return null;
        }

        CombinationRating? rating = modes.Mode() is { } mode ? new CombinationRating { Pool = mode, IsForEach = true }
            : reader.Take(Dimension.Power) is { } watts ? OfEach(watts) : null;
        SkipEach();
        return rating ?? reader.Back<CombinationRating>(first);
    }

    /// <summary>"C1 45W, C2 20W".</summary>
    public CombinationRating? Named()
    {
        int first = reader.At;
        List<SharePiece> shares = [];
        while (shares.Count < MaxShares)
        {
            int at = reader.At;
            if (shares.Count > 0 && (reader.Current.Kind is TokenKind.Comma or TokenKind.Slash or TokenKind.Plus or TokenKind.Semicolon
                || reader.Current.Term == Term.And))
            {
                reader.At++;
            }

            if ((SharedInList() ?? Joined() ?? Share()) is not { Ports.IsEmpty: false } share)
            {
                reader.At = at;
                break;
            }

            shares.Add(share);
        }

        return shares.Count > 1 ? WithTotal(new CombinationRating { Shares = [.. shares] }) : reader.Back<CombinationRating>(first);
    }

    /// <summary>"C2 and A share 15W", "C2 and A together 15W".</summary>
    public SharePiece? Joined()
    {
        int first = reader.At;
        return ports.Joined() is { IsEmpty: false } names && SkipShared() && (reader.SkipMark() || true) && reader.Take(Dimension.Power) is { } watts
            ? new SharePiece(names, watts, []) : reader.Back<SharePiece>(first);
    }

    // "C1 45W, C2+A share 15W".
    private SharePiece? SharedInList()
    {
        int first = reader.At;
        List<string> names = [];
        while (names.Count < MaxShares && (names.Count == 0 || reader.Skip(TokenKind.Plus)) && ports.Port() is { } port)
        {
            names.Add(port);
        }

        SkipShared();
        return names.Count > 1 && reader.Take(Dimension.Power) is { } watts ? new SharePiece([.. names], watts, []) : reader.Back<SharePiece>(first);
    }

    // "45W, 20W", "45W/10W/10W": as many as there are ports; two with a slash may be one or the other.
    private CombinationRating? Listed(int groups)
    {
        int first = reader.At;
        List<SharePiece> shares = [];
        TokenKind sign = groups > 2 && reader.Peek(1).Kind == TokenKind.Slash ? TokenKind.Slash
            : reader.Peek(1).Kind == TokenKind.Bullet ? TokenKind.Bullet : TokenKind.Comma;
        while (shares.Count < MaxShares && (shares.Count == 0 || reader.Skip(sign) || reader.Skip(Term.And)) && modes.PlainPower() is { } power)
        {
            shares.Add(new SharePiece([], power.Watts, []));
        }

        return shares.Count > 1 && shares.Count == groups && reader.Peek(-1).Kind != sign
            ? WithTotal(new CombinationRating { Shares = [.. shares] }) : reader.Back<CombinationRating>(first);
    }

    // "65W (45W+20W)".
    private CombinationRating? TotalFirst()
    {
        int first = reader.At;
        SkipShared();
        if (reader.Take(Dimension.Power) is { } total)
        {
            SkipShared();
            if (reader.Skip(TokenKind.Open) && (Split() ?? Named()) is { } split && reader.Skip(TokenKind.Close))
            {
                return split with { Total = total };
            }
        }

        return reader.Back<CombinationRating>(first);
    }

    // "5V⎓3A", "5V⎓3A (15W Max)", "5V⎓3A shared", "5V⎓2.4A each".
    private CombinationRating? Pool()
    {
        int first = reader.At;
        SkipShared();
        if (modes.Mode() is not { } mode)
        {
            return reader.Back<CombinationRating>(first);
        }

        bool isEach = SkipEach();
        bool isShared = SkipShared() || mode.IsMaximum;
        int at = reader.At;
        if (reader.Skip(TokenKind.Open))
        {
            bool isSaid = SkipShared();
            Token? watts = reader.Take(Dimension.Power);
            isSaid |= SkipShared();
            bool fits = watts is not null && Math.Abs(watts.Value - mode.Milliwatts) <= 500;
            bool isRead = fits && reader.Skip(TokenKind.Close);
            isShared |= isRead;
            reader.At = isRead ? reader.At : at;
        }

        isShared |= mode.Watts is not null && mode.Watts.Value == mode.Milliwatts;
        return new CombinationRating { Pool = mode, IsForEach = isEach, IsSaidToBeShared = isShared && !isEach };
    }

    private CombinationRating? WattsEach()
    {
        int first = reader.At;
        return reader.Take(Dimension.Power) is { } watts && SkipEach() ? OfEach(watts) : reader.Back<CombinationRating>(first);
    }

    private CombinationRating? Total()
    {
        int first = reader.At;
        SkipShared();
        if (reader.Take(Dimension.Power) is not { } watts)
        {
            return reader.Back<CombinationRating>(first);
        }

        SkipShared();
        return new CombinationRating { Total = watts };
    }

    private static CombinationRating OfEach(Token watts) => new() { Shares = [new SharePiece([], watts, [])], IsForEach = true };

    private bool SkipEach()
    {
        int first = reader.At;
        bool isOpen = reader.Skip(TokenKind.Open);
        bool isEach = reader.SkipEach() && (!isOpen || reader.Skip(TokenKind.Close));
        reader.At = isEach ? reader.At : first;
        return isEach;
    }

    // "(C2+A 15W)", "(C2+A share 15W)".
    private SharePiece? Shared()
    {
        int first = reader.At;
        ImmutableArray<string> names = PortsInParentheses();
        if (names.IsEmpty)
        {
            return null;
        }

        SkipShared();
        reader.SkipMark();
        SkipShared();
        ModePiece? mode = modes.Mode();
        Token? watts = mode is null ? reader.Take(Dimension.Power) : null;
        SkipShared();
        return (mode is not null || watts is not null) && reader.Skip(TokenKind.Close)
            ? new SharePiece(names, watts, mode is null ? [] : [(mode, null)]) : reader.Back<SharePiece>(first);
    }

    // "5V⎓3A", ", PPS 3.3-11V⎓3A".
    private (Piece, string?)? Mode(bool isFirst)
    {
        int first = reader.At;
        bool isListed = !isFirst && (reader.Current.Kind is TokenKind.Comma or TokenKind.Slash || reader.Current.Term == Term.Or);
        reader.At += isListed ? 1 : 0;
        string? protocol = reader.Current.Term is Term.PowerDelivery or Term.Programmable or Term.OpenProtocol ? reader.Current.Word : null;
        reader.At += protocol is null ? 0 : 1;
        if (protocol is not null)
        {
            reader.Skip(TokenKind.Colon);
        }

        Piece? rating = modes.Range() is { IsClear: true } range ? range : modes.Mode();
        if (rating is null)
        {
            reader.At = first;
            return null;
        }

        return (rating, protocol);
    }
}
