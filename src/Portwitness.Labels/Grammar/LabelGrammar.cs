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
        .Before(Lookahead(OneOf(Volts, Number, Is(TokenKind.Direct), Watts, P.Token(static t => t.Term is Term.Maximum or Term.UpTo))));

    private static readonly Parser<Token, ProtocolPiece> ProtocolBehind =
        Open.Then(KnownProtocol.Or(P.Token(static t => IsProtocol(t) && !t.Word.Any(char.IsLower)))).Before(Close)
            .Select(static word => Protocol(word, isBehind: true));

    // The value of a remark ends at a gap, a comma, or a word that rates something; a quantity in it makes it no remark.
    private static readonly Parser<Token, RemarkPiece> Remark = Is(Term.Remark)
        .Then(P.Token(static t => t.Kind is TokenKind.Colon or TokenKind.Stop).Repeated().IgnoreResult())
        .Then(P.Token(IsRemarkWord))
        .Then(P.Token(static t => IsRemarkWord(t) && t.SpaceBefore < 2).Repeated().IgnoreResult())
        .NotBefore(P.Token(static t => t.Kind is TokenKind.Quantity or TokenKind.Colon or TokenKind.Plus && t.SpaceBefore < 2))
        .Select(static _ => new RemarkPiece());

    private static readonly Parser<Token, Piece> Rating = OneOf(
        ModeGrammar.Mains.AsPiece(), ModeGrammar.Range.AsPiece(), ModeGrammar.Mode.AsPiece(), BatteryGrammar.Battery.AsPiece());

    // "AC" and "DC" stand in front of a rating, or of "output".
    private static readonly Parser<Token, Piece> RatingOrHeader = Rating.Or(PortGrammar.Header.AsPiece());

    private static readonly Parser<Token, Piece> Battery = BatteryGrammar.Battery.AsPiece();

    private static readonly Parser<Token, Piece> Pad = OneOf(CombinationGrammar.Combination.AsPiece(), PerformanceGrammar.Pad.AsPiece());

    private static readonly Parser<Token, Piece> PadAlone = PerformanceGrammar.Pad.AsPiece();

    // What has its sign or its current behind its voltage is no mains and no range.
    private static readonly Parser<Token, Piece> Modes = OneOf(ModeGrammar.Mode.AsPiece(), Battery);

    private static readonly Parser<Token, Piece> Performance = PerformanceGrammar.Performance.AsPiece();

    private static readonly Parser<Token, Piece> Section =
        Is(Term.Together).Before(Mark.IsPresent()).Select(static _ => new SectionPiece()).AsPiece();

    private static readonly Parser<Token, Piece> Ports = OneOf(CombinationGrammar.Combination.AsPiece(), PortGrammar.Header.AsPiece());

    private static readonly Parser<Token, Piece> Power = OneOf(CombinationGrammar.Total.AsPiece(), ModeGrammar.Power.AsPiece());

    private static readonly Parser<Token, Piece> Total =
        OneOf(CombinationGrammar.TotalOfPorts.AsPiece(), CombinationGrammar.Total.AsPiece());

    private static readonly Parser<Token, Piece> Header = PortGrammar.Header.AsPiece();

    private static readonly Parser<Token, Piece> Protocols = ProtocolBefore.AsPiece();

    private static readonly Parser<Token, Piece> Remarks = Remark.AsPiece();

    private static readonly Parser<Token, Piece> Parenthesis = OneOf(ModeGrammar.Power.AsPiece(), ProtocolBehind.AsPiece());

    private static readonly Parser<Token, Piece> Separator = P.Any.Select(static token =>
        new SeparatorPiece(token.Kind is TokenKind.Semicolon or TokenKind.Bar or TokenKind.Bullet)).AsPiece();

    private static readonly Parser<Token, Piece> Break = P.Any.Select(static _ => new BreakPiece()).AsPiece();

    private static readonly Parser<Token, Piece> Unknown = P.Any.Select(static token => new UnknownPiece(token)).AsPiece();

    private static readonly Parser<Token, IReadOnlyList<Piece>> Pieces =
        Try(new ChoiceParser(First)).Or(Unknown).Repeated();

    /// <summary>Reads all tokens.</summary>
    public static List<Piece> Read(List<Token> tokens) =>
        [.. Pieces.ParseOrThrow(System.Runtime.InteropServices.CollectionsMarshal.AsSpan(tokens))];

    // What a piece can be is seen from its first tokens.
    private static Parser<Token, Piece> First(ReadOnlySpan<Token> ahead) => ahead[0].Kind switch
    {
        TokenKind.Break => Break,
        TokenKind.Comma or TokenKind.Semicolon or TokenKind.Slash or TokenKind.Stop or TokenKind.Bar or TokenKind.Bullet => Separator,
        TokenKind.Direct or TokenKind.Alternating => RatingOrHeader,
        TokenKind.Quantity => FirstQuantity(ahead),
        TokenKind.Number => Rating,
        TokenKind.Open => Parenthesis,
        TokenKind.Word => FirstWord(ahead),
        _ => Unknown,
    };

    private static Parser<Token, Piece> FirstQuantity(ReadOnlySpan<Token> ahead) => ahead[0].Dimension switch
    {
        Dimension.Power => Power,
        Dimension.Charge or Dimension.Energy => Battery,
        Dimension.Voltage when ahead.Length > 1 && (ahead[1].Kind == TokenKind.Direct || ahead[1].Is(Dimension.Current)) => Modes,
        Dimension.Voltage => Rating,
        _ => Unknown,
    };

    private static Parser<Token, Piece> FirstWord(ReadOnlySpan<Token> ahead) => ahead[0].Term switch
    {
        Term.Usb or Term.ConnectorType or Term.Port or Term.PortName or Term.Cable => HasPlus(ahead) ? Ports : Header,
        Term.Wireless => HasPlus(ahead) ? Pad : PadAlone,
        Term.Together => Section,
        Term.Efficiency or Term.LowLoad or Term.NoLoad or Term.Conversion => Performance,
        Term.Input or Term.Output => Header,
        Term.Total or Term.MaximumOutput => Total,
        Term.Maximum or Term.UpTo => Power,
        Term.Battery or Term.RatedCapacity or Term.Energy or Term.NominalVoltage => Battery,
        Term.Remark => Remarks,
        Term.Or => Separator,
        Term.None or Term.PowerDelivery or Term.Programmable or Term.OpenProtocol => Protocols,
        _ => Unknown,
    };

    // Without a plus on its line a port begins no combination.
    private static bool HasPlus(ReadOnlySpan<Token> ahead)
    {
        for (int i = 1; i < ahead.Length; i++)
        {
            if (ahead[i].Kind is TokenKind.Plus or TokenKind.Break)
            {
                return ahead[i].Kind == TokenKind.Plus;
            }
        }

        return ahead.Length == ChoiceParser.Ahead;
    }

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
