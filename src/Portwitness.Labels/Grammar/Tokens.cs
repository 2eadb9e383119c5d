using Pidgin;
using static Pidgin.Parser;
using P = Pidgin.Parser<Portwitness.Labels.Token>;

namespace Portwitness.Labels;

/// <summary>The grammar's smallest parts: one token, or a few that always mean the same.</summary>
internal static class Tokens
{
    public static readonly Parser<Token, Token> Volts = Is(Dimension.Voltage);
    public static readonly Parser<Token, Token> Amps = Is(Dimension.Current);
    public static readonly Parser<Token, Token> Watts = Is(Dimension.Power);
    public static readonly Parser<Token, Token> Number = Is(TokenKind.Number);
    public static readonly Parser<Token, Token> Open = Is(TokenKind.Open);
    public static readonly Parser<Token, Token> Close = Is(TokenKind.Close);
    public static readonly Parser<Token, Token> Maximum = Is(Term.Maximum);

    /// <summary>"⎓", "DC", or "=" where a direct current sign can stand.</summary>
    public static readonly Parser<Token, Token> Direct = P.Token(static t => t.Kind is TokenKind.Direct or TokenKind.Equals);

    /// <summary>"⎓", "DC ⎓", or nothing.</summary>
    public static readonly Parser<Token, Unit> Directs = Direct.AtMost(2).IgnoreResult();

    /// <summary>"AC", or "~" where an alternating current sign can stand.</summary>
    public static readonly Parser<Token, Token> Alternating = P.Token(static t => t.Kind is TokenKind.Alternating or TokenKind.Tilde);

    /// <summary>Between the ends of a range.</summary>
    public static readonly Parser<Token, Token> RangeSign =
        P.Token(static t => t.Kind is TokenKind.Dash or TokenKind.Tilde || t.Term == Term.To);

    /// <summary>What closes a header: ":", "=", or a dash that stands free.</summary>
    public static readonly Parser<Token, Token> Mark =
        P.Token(static t => t.Kind is TokenKind.Colon or TokenKind.Equals || (t.Kind == TokenKind.Dash && t.SpaceBefore > 0));

    /// <summary>"≤", "at least": a bound in front of a value.</summary>
    public static readonly Parser<Token, bool> Bounds = Is(TokenKind.Bound).IsPresent();

    public static Parser<Token, Token> Is(TokenKind kind) => P.Token(t => t.Kind == kind);

    public static Parser<Token, Token> Is(Term term) => P.Token(t => t.Term == term);

    public static Parser<Token, Token> Is(Dimension dimension) => P.Token(t => t.Is(dimension));

    /// <summary>The value, or null where the parser does not match.</summary>
    public static Parser<Token, T?> OrNull<T>(this Parser<Token, T> parser)
        where T : class =>
        Try(parser).Select(static T? (value) => value).Or(P.Return<T?>(null));

    /// <summary>Whether the parser matches; what matches is consumed.</summary>
    public static Parser<Token, bool> IsPresent<T>(this Parser<Token, T> parser) =>
        Try(parser).ThenReturn(true).Or(P.Return(false));

    /// <summary>
    /// As many as there are, up to a number: what may have to be read again from its second token must not be long.
    /// </summary>
    public static Parser<Token, T[]> AtMost<T>(this Parser<Token, T> parser, int number) =>
        number == 0
            ? P.Return<T[]>([])
            : Map(static T[] (first, rest) => [first, .. rest], Try(parser), parser.AtMost(number - 1)).Or(P.Return<T[]>([]));

    /// <summary>As many as there are.</summary>
    public static Parser<Token, IReadOnlyList<T>> Repeated<T>(this Parser<Token, T> parser) => new RepeatParser<T>(parser);

    /// <summary>As many as there are, and at least one.</summary>
    public static Parser<Token, IReadOnlyList<T>> AtLeastOne<T>(this Parser<Token, T> parser) =>
        parser.Repeated().Where(static items => items.Count > 0);

    /// <summary>The parser where the other one does not match what follows; that is not consumed.</summary>
    public static Parser<Token, T> NotBefore<T, TNext>(this Parser<Token, T> parser, Parser<Token, TNext> next) =>
        parser.Before(Not(Try(next)));

    /// <summary>The piece with the range of its tokens.</summary>
    public static Parser<Token, T> Placed<T>(this Parser<Token, T> parser)
        where T : Piece =>
        Map(
            static (first, piece, end) =>
            {
                piece.Place(first, end);
                return piece;
            },
            P.CurrentOffset, parser, P.CurrentOffset);

    /// <summary>One of the pieces that can begin at a token.</summary>
    public static Parser<Token, Piece> AsPiece<T>(this Parser<Token, T> parser)
        where T : Piece =>
        Try(parser.Placed()).Select(static Piece (piece) => piece);
}
