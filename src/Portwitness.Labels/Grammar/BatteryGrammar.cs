using Pidgin;
using static Pidgin.Parser;
using static Portwitness.Labels.Tokens;
using P = Pidgin.Parser<Portwitness.Labels.Token>;

namespace Portwitness.Labels;

/// <summary>Capacity, voltage and energy of the battery.</summary>
internal static class BatteryGrammar
{
    private sealed record Figure(int? Capacity, Token? Volts, Token? Amps, Token? WattHours, int? Cells = null);

    private static readonly Parser<Token, Token> Word = P.Token(
        static t => t.Term is Term.Battery or Term.RatedCapacity or Term.Energy or Term.NominalVoltage);

    // "Battery: Li-ion", "Rated capacity:".
    private static readonly Parser<Token, bool> Head = Word.Before(Is(TokenKind.Colon).IsPresent())
        .AtMost(3).Where(static words => words.Length > 0).Select(static words => words.Any(static word => word.Term == Term.RatedCapacity));

    private static readonly Parser<Token, Token> Typical = P.Token(static t => t.Term is Term.Typical);

    private static readonly Parser<Token, Unit> Before = P.Token(static t =>
        t.Kind is TokenKind.Comma or TokenKind.Slash or TokenKind.Open or TokenKind.At or TokenKind.Direct or TokenKind.Equals
            or TokenKind.Bound
        || t.Term is Term.At or Term.Typical).AtMost(3).IgnoreResult();

    private static readonly Parser<Token, Unit> Behind = OneOf(
        Is(TokenKind.Close), Try(Open.Then(Typical).Before(Close)), Typical, Is(TokenKind.Direct)).AtMost(3).IgnoreResult();

    // "2x 6500 mAh".
    private static readonly Parser<Token, Figure> Capacity = Map(
        static (count, each) => Multiply(count, each), Number.Before(Is(Term.Times)).OrNull(), Is(Dimension.Charge))
        .Where(static capacity => capacity is not null)
        .Select(static capacity => new Figure(capacity, null, null, null));

    private static readonly Parser<Token, Figure> AnyFigure = OneOf(
        Try(ModeGrammar.Mode.Select(static mode => new Figure(null, mode.Volts, mode.Amps, null))),
        Try(Capacity),
        Volts.Select(static volts => new Figure(null, volts, null, null)),
        Is(TokenKind.Cells).Select(static cells => new Figure(null, null, null, null, cells.Value)),
        Is(Dimension.Energy).Select(static energy => new Figure(null, null, null, energy)));

    private static readonly Parser<Token, Figure[]> Figures =
        Before.Then(AnyFigure).Before(Behind).AtMost(5).Where(static figures => figures.Length > 0);

    /// <summary>With a word of the battery before it, or figures that only a battery has.</summary>
    public static readonly Parser<Token, BatteryPiece> Battery = OneOf(
            Map(static (isRated, figures) => Combine(isRated, figures), Head, Figures),
            Figures.Select(static figures => Combine(false, figures)).Where(static battery => battery?.WattHours is not null
                || (battery?.Capacity is not null && battery.Volts is not null)))
        .Where(static battery => battery is not null).Select(static battery => battery!);

    private static int? Multiply(Token? count, Token each)
    {
        long times = count is null ? 1 : count.Value / 1000;
        bool isWhole = count is null || (count.Value % 1000 == 0 && times is >= 1 and <= 1000);
        return isWhole && times * each.Value <= int.MaxValue ? (int)(times * each.Value) : null;
    }

    // A current belongs to a rated capacity, an energy to the cells; twice the same figure is not clear.
    private static BatteryPiece? Combine(bool isRated, Figure[] figures)
    {
        bool isOnce = figures.Count(static f => f.Capacity is not null) <= 1 && figures.Count(static f => f.Volts is not null) <= 1
            && figures.Count(static f => f.WattHours is not null) <= 1 && figures.Count(static f => f.Cells is not null) <= 1;
        BatteryPiece battery = new(
            isRated,
            figures.Select(static f => f.Capacity).FirstOrDefault(static value => value is not null),
            figures.Select(static f => f.Volts).FirstOrDefault(static value => value is not null),
            figures.Select(static f => f.Amps).FirstOrDefault(static value => value is not null),
            figures.Select(static f => f.WattHours).FirstOrDefault(static value => value is not null),
            figures.Select(static f => f.Cells).FirstOrDefault(static value => value is not null));
        bool fits = isRated
            ? battery.WattHours is null && battery.Cells is null && battery.Capacity is not null : battery.Amps is null;
        return isOnce && fits ? battery : null;
    }
}
