using Pidgin;
using static Pidgin.Parser;
using static Portwitness.Labels.Tokens;
using P = Pidgin.Parser<Portwitness.Labels.Token>;

namespace Portwitness.Labels;

/// <summary>
/// The whole label as a row of pieces. Any tokens can be read: one that begins no piece is an <see cref="UnknownPiece"/>. No rule
/// calls itself and no piece is tried twice at a place, so time grows with the length of the text only.
/// </summary>
internal static class LabelGrammar
{
    private static readonly Parser<Token, Token> KnownProtocol = P.Token(static t => t.Term is Term.PowerDelivery or Term.Programmable or Term.OpenProtocol);

    // "PD 3.0": the number is a version unless a range begins with it.
    private static readonly Parser<Token, Token> PowerDelivery =
        Is(Term.PowerDelivery).Before(Number.NotBefore(OneOf(RangeSign, Is(TokenKind.Slash))).IsPresent());

    // "PD", "PD 3.0 PPS", "UFCS": words of the standard, then at most one of another protocol; then a voltage.
    private static readonly Parser<Token, ProtocolPiece> ProtocolBefore = OneOf(
            Map(
                static (words, last) => Protocol(last ?? words[^1], isBehind: false),
                PowerDelivery.AtMost(3).Where(static words => words.Length > 0), P.Token(IsProtocol).OrNull()),
            P.Token(IsProtocol).Select(static word => Protocol(word, isBehind: false)))
        .Then(Is(TokenKind.Colon).IsPresent(), static (protocol, isMarked) => protocol with { IsMarked = isMarked })
        .Before(Lookahead(OneOf(Volts, Number, Is(TokenKind.Direct))));

    private static readonly Parser<Token, ProtocolPiece> ProtocolBehind =
        Open.Then(KnownProtocol.Or(P.Token(static t => IsProtocol(t) && !t.Word.Any(char.IsLower)))).Before(Close)
            .Select(static word => Protocol(word, isBehind: true));

    // The value of a remark ends at a gap, a comma, or a word that rates something; a quantity in it makes it no remark.
    private static readonly Parser<Token, RemarkPiece> Remark = Is(Term.Remark)
        .Then(P.Token(static t => t.Kind is TokenKind.Colon or TokenKind.Stop).SkipMany())
        .Then(P.Token(IsRemarkWord))
        .Then(P.Token(static t => IsRemarkWord(t) && t.SpaceBefore < 2).SkipMany())
        .NotBefore(P.Token(static t => t.Kind is TokenKind.Quantity or TokenKind.Colon or TokenKind.Plus && t.SpaceBefore < 2))
        .Select(static _ => new RemarkPiece());

    private static readonly Parser<Token, Piece> Rating = OneOf(
        ModeGrammar.Mains.AsPiece(), ModeGrammar.Range.AsPiece(), ModeGrammar.Mode.AsPiece(), BatteryGrammar.Battery.AsPiece());

    private static readonly Parser<Token, Piece> Ports = OneOf(CombinationGrammar.Combination.AsPiece(), PortGrammar.Header.AsPiece());

    private static readonly Parser<Token, Piece> Power = OneOf(CombinationGrammar.Total.AsPiece(), ModeGrammar.Power.AsPiece());

    private static readonly Parser<Token, Piece> Total =
        OneOf(CombinationGrammar.TotalOfPorts.AsPiece(), CombinationGrammar.Total.AsPiece());

    private static readonly Parser<Token, Piece> Header = PortGrammar.Header.AsPiece();

    private static readonly Parser<Token, Piece> Battery = BatteryGrammar.Battery.AsPiece();

    private static readonly Parser<Token, Piece> Protocols = ProtocolBefore.AsPiece();

    private static readonly Parser<Token, Piece> Remarks = Remark.AsPiece();

    private static readonly Parser<Token, Piece> Parenthesis = OneOf(ModeGrammar.Power.AsPiece(), ProtocolBehind.AsPiece());

    private static readonly Parser<Token, Piece> Separator = P.Any.Select(static token =>
        new SeparatorPiece(token.Kind is TokenKind.Semicolon or TokenKind.Bar or TokenKind.Bullet)).AsPiece();

    private static readonly Parser<Token, Piece> Break = P.Any.Select(static _ => new BreakPiece()).AsPiece();

    private static readonly Parser<Token, Piece> Unknown = P.Any.Select(static token => new UnknownPiece(token)).AsPiece();

    private static readonly Parser<Token, IEnumerable<Piece>> Pieces =
        Try(Lookahead(P.Any).Then(First)).Or(Unknown).Many();

    /// <summary>Reads all tokens.</summary>
    public static List<Piece> Read(List<Token> tokens) =>
        [.. Pieces.ParseOrThrow(System.Runtime.InteropServices.CollectionsMarshal.AsSpan(tokens))];

    // What a piece can be is seen from its first token.
    private static Parser<Token, Piece> First(Token token) => token.Kind switch
    {
        TokenKind.Break => Break,
        TokenKind.Comma or TokenKind.Semicolon or TokenKind.Slash or TokenKind.Stop or TokenKind.Bar or TokenKind.Bullet => Separator,
        TokenKind.Quantity when token.Dimension == Dimension.Power => Power,
        TokenKind.Quantity or TokenKind.Number or TokenKind.Direct or TokenKind.Alternating => Rating,
        TokenKind.Open => Parenthesis,
        TokenKind.Word => FirstWord(token.Term),
        _ => Unknown,
    };

    private static Parser<Token, Piece> FirstWord(Term term) => term switch
    {
        Term.Usb or Term.ConnectorType or Term.Port or Term.PortName => Ports,
        Term.Input or Term.Output => Header,
        Term.Total or Term.MaximumOutput => Total,
        Term.Maximum or Term.UpTo => Power,
        Term.Battery or Term.RatedCapacity or Term.Energy or Term.NominalVoltage => Battery,
        Term.Remark => Remarks,
        Term.Or => Separator,
        Term.None or Term.PowerDelivery or Term.Programmable or Term.OpenProtocol => Protocols,
        _ => Unknown,
    };

    private static ProtocolPiece Protocol(Token word, bool isBehind) => new(word.Word, word.Term == Term.Programmable, isBehind);

    // "U5B-C2" is a spoilt port, no protocol.
    private static bool IsProtocol(Token token) => token.Term is Term.PowerDelivery or Term.Programmable or Term.OpenProtocol
        || (token is { Kind: TokenKind.Word, Term: Term.None, Word.Length: > 1 and <= 24 }
            && (char.IsUpper(token.Word[0]) || token.Word.Any(char.IsAsciiDigit))
            && !PortGrammar.IsName(token.Word[(token.Word.LastIndexOf('-') + 1)..]));

    private static bool IsRemarkWord(Token token) =>
        token.Kind is TokenKind.Number or TokenKind.Dash or TokenKind.Slash or TokenKind.Stop or TokenKind.Other
        || (token.Kind == TokenKind.Word && token.Term is Term.None or Term.PortName or Term.Usb or Term.PowerDelivery or Term.Programmable);
}
