namespace Portwitness.Labels;

/// <summary>Protocols, remarks, and words that rate nothing.</summary>
internal sealed class WordGrammar(TokenReader reader)
{
    private const int MaxInRemark = 40;
    private const int MaxInParentheses = 6;
    private const int LongestProtocol = 24;

    /// <summary>"PD", "PD 3.0 PPS", "UFCS": words of the standard, then at most one of another protocol; then a value.</summary>
    public ProtocolPiece? ProtocolBefore()
    {
        int first = reader.At;
        Token? last = null;

        // "Range PPS:".
        reader.At += reader.Current.Term == Term.Heading ? 1 : 0;
        for (int i = 0; i < 3 && reader.Take(Term.PowerDelivery) is { } word; i++)
        {
            last = word;

            // "PD 3.0": the number is a version unless a range begins with it.
            if (reader.Current.Kind == TokenKind.Number && !(reader.IsRangeSign(1) || reader.Peek(1).Kind == TokenKind.Slash))
            {
                reader.At++;
            }
        }

        if (IsProtocol(reader.Current))
        {
            last = reader.Current;
            reader.At++;
        }

        // "PD protocol:".
        reader.At += last is not null && reader.Current.Term is Term.Nothing or Term.Heading
            && (reader.Peek(1).Kind == TokenKind.Colon || reader.Peek(1).Is(Dimension.Voltage) || reader.Peek(1).Is(Dimension.Power)) ? 1 : 0;
        bool isMarked = reader.Skip(TokenKind.Colon);

        // "Power Delivery 3.0, 5V⎓3A".
        reader.At += last?.Term == Term.PowerDelivery && reader.Current.Kind == TokenKind.Comma
            && reader.Peek(1).Is(Dimension.Voltage) ? 1 : 0;
        Token next = reader.Current;
        bool isFollowed = next.Is(Dimension.Voltage) || next.Is(Dimension.Power) || next.Kind is TokenKind.Number or TokenKind.Direct
            || next.Term is Term.Maximum or Term.UpTo or Term.From
            || (next.Kind == TokenKind.Open && (reader.Peek(1).Is(Dimension.Voltage) || reader.Peek(1).Kind == TokenKind.Number));
        return last is null || !isFollowed ? reader.Back<ProtocolPiece>(first)
            : reader.Placed(new ProtocolPiece(last.Word, last.Term == Term.Programmable, IsBehind: false) { IsMarked = isMarked }, first);
    }

    /// <summary>"(PD)" behind a rating.</summary>
    public ProtocolPiece? ProtocolBehind()
    {
        int first = reader.At;
        Token word = reader.Peek(1);
        bool isProtocol = word.Term is Term.PowerDelivery or Term.Programmable or Term.OpenProtocol || (IsProtocol(word) && !word.Word.Any(char.IsLower));
        // "(FLUX18W)" may be a power.
        isProtocol &= !(word.Word is [.., var digit, 'W' or 'A' or 'V'] && char.IsAsciiDigit(digit));
        if (!reader.Skip(TokenKind.Open) || !isProtocol || reader.Peek(1).Kind != TokenKind.Close)
        {
            return reader.Back<ProtocolPiece>(first);
        }

        reader.At += 2;
        return reader.Placed(new ProtocolPiece(word.Word, word.Term == Term.Programmable, IsBehind: true), first);
    }

    /// <summary>"each", "(each)", "per port" behind a rating.</summary>
    public EachPiece? EachBehind()
    {
        int first = reader.At;
        bool isOpen = reader.Skip(TokenKind.Open);
        bool isEach = reader.SkipEach(3) && (!isOpen || reader.Skip(TokenKind.Close));
        return isEach ? reader.Placed(new EachPiece(), first) : reader.Back<EachPiece>(first);
    }

    /// <summary>"Model: TH-65": its value ends at a gap or a word that rates something; a quantity in it makes it no remark.</summary>
    public RemarkPiece? Remark()
    {
        int first = reader.At;
        reader.At++;
        while (reader.Current.Kind is TokenKind.Colon or TokenKind.Stop)
        {
            reader.At++;
        }

        int value = reader.At;
        while (reader.At - first < MaxInRemark && IsRemarkWord(reader.Current) && (reader.At == value || reader.Current.SpaceBefore < 2))
        {
            reader.At++;
        }

        Token next = reader.Current;
        bool goesOn = next.Kind is TokenKind.Quantity or TokenKind.Colon || (next.Kind == TokenKind.Plus && next.SpaceBefore < 2);
        return reader.At == value || goesOn ? reader.Back<RemarkPiece>(first) : reader.Placed(new RemarkPiece(), first);
    }

    /// <summary>Words of which each rates nothing, in parentheses or not: "CE", "fast charging".</summary>
    public RemarkPiece? Plain()
    {
        int first = reader.At;
        bool isOpen = reader.Skip(TokenKind.Open);
        int words = 0;
        while (words < MaxInParentheses && (reader.Current.Term is Term.Nothing or Term.Product or Term.PowerDelivery or Term.Vehicle
            || (isOpen && words > 0 && (reader.Current.Term is Term.Programmable or Term.OpenProtocol || reader.Current.Kind is TokenKind.Number or TokenKind.Slash))))
        {
            words++;
            reader.At++;
        }

        bool isWhole = words > 0 && (isOpen ? reader.Skip(TokenKind.Close)
            : reader.IsAtLineEnd || reader.Current.Kind is TokenKind.Comma or TokenKind.Stop or TokenKind.Semicolon or TokenKind.Bar or TokenKind.Bullet);
        return isWhole ? reader.Placed(new RemarkPiece(), first) : reader.Back<RemarkPiece>(first);
    }

    /// <summary>"(single port)" behind a rating: what a statement about ports says anyway.</summary>
    public RemarkPiece? AloneBehind()
    {
        int first = reader.At;
        return reader.Skip(TokenKind.Open) && reader.Skip(Term.Alone) && (reader.SkipWords(3, Term.Use, Term.Port, Term.At) >= 0) && reader.Skip(TokenKind.Close)
            ? reader.Placed(new RemarkPiece(), first) : reader.Back<RemarkPiece>(first);
    }

    // "U5B-C2" is a spoilt port, no protocol.
    private static bool IsProtocol(Token token) => token.Term is Term.PowerDelivery or Term.Programmable or Term.OpenProtocol
        || (token is { Kind: TokenKind.Word, Term: Term.None, Word.Length: > 1 and <= LongestProtocol }
            && (char.IsUpper(token.Word[0]) || token.Word.Any(char.IsAsciiDigit))
            && !PortGrammar.IsName(token.Word[(token.Word.LastIndexOf('-') + 1)..]));

    private static bool IsRemarkWord(Token token) =>
        token.Kind is TokenKind.Number or TokenKind.Kinds or TokenKind.Dash or TokenKind.Slash or TokenKind.Stop or TokenKind.Other
        || (token.Kind == TokenKind.Word
            && token.Term is Term.None or Term.PortName or Term.Usb or Term.PowerDelivery or Term.Programmable or Term.Nothing or Term.Product
                or Term.Article or Term.Use or Term.And or Term.Port or Term.Vehicle or Term.At);
}
