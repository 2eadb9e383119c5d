using Pidgin;
using static Pidgin.Parser;
using static Portwitness.Labels.Tokens;
using P = Pidgin.Parser<Portwitness.Labels.Token>;

namespace Portwitness.Labels;

/// <summary>Printed efficiencies and no-load powers, and wireless pads.</summary>
internal static class PerformanceGrammar
{
    // "(10 %)", "at 10 %", "(115V 60Hz)": under which condition; it stays part of the printed words.
    private static readonly Parser<Token, Unit> Condition = OneOf(
        Try(Open.Then(P.Token(static t => t.Kind is not (TokenKind.Open or TokenKind.Close or TokenKind.Break)).AtMost(5)).Before(Close)).IgnoreResult(),
        Try(P.Token(static t => t.Kind == TokenKind.At || t.Term == Term.At).Then(Is(Dimension.Ratio))).IgnoreResult())
        .IsPresent().IgnoreResult();

    /// <summary>"Average active efficiency: 88.5 %", "No-load power: ≤ 0.1 W".</summary>
    public static readonly Parser<Token, PerformancePiece> Performance = Map(
            static (word, value) => new PerformancePiece(KindOf(word.Term), value),
            P.Token(static t => t.Term is Term.Efficiency or Term.LowLoad or Term.NoLoad or Term.Conversion)
                .Before(Condition).Before(Mark.IsPresent()).Before(Bounds),
            OneOf(Is(Dimension.Ratio), Watts))
        .Where(static piece => (piece.Kind == PerformanceKind.NoLoadPower) == piece.Value.Is(Dimension.Power));

    private static readonly Parser<Token, bool> Next = P.Token(
        static t => t.Kind is TokenKind.Slash or TokenKind.Comma || t.Term == Term.Or).IsPresent();

    private static readonly Parser<Token, Token> Power = P.Token(static t => t.Term is Term.Maximum or Term.UpTo).IsPresent().Then(Watts)
        .Before(Maximum.IsPresent());

    /// <summary>"Wireless: 5W/7.5W/10W/15W Max".</summary>
    public static readonly Parser<Token, PadPiece> Pad = Map(
        static (name, first, rest) => new PadPiece(name, [first, .. rest]),
        PortGrammar.Pad.Before(Mark.IsPresent()).Before(Open.IsPresent()),
        Power, Try(Next.Then(Power)).AtMost(8).Before(Close.IsPresent()));

    private static PerformanceKind KindOf(Term term) => term switch
    {
        Term.LowLoad => PerformanceKind.LowLoadEfficiency,
        Term.NoLoad => PerformanceKind.NoLoadPower,
        Term.Conversion => PerformanceKind.ConversionEfficiency,
        _ => PerformanceKind.AverageEfficiency,
    };
}
