using System.Collections.Immutable;
using Pidgin;
using static Pidgin.Parser;
using static Portwitness.Labels.Tokens;
using P = Pidgin.Parser<Portwitness.Labels.Token>;

namespace Portwitness.Labels;

/// <summary>Voltages with their current, and powers.</summary>
internal static class ModeGrammar
{
    private static readonly Parser<Token, Token> Slash = Is(TokenKind.Slash);

    // "Max" that belongs to what stands before it.
    private static readonly Parser<Token, bool> MaximumBehind = OneOf(
        Try(Maximum.NotBefore(Is(TokenKind.Colon).Optional().Then(Watts))),
        Try(Open.Then(Maximum).Before(Close))).IsPresent();

    // "⎓", "/", " ", "DC,", "-", "@": all seen between volts and amperes.
    private static readonly Parser<Token, Unit> Between = Directs
        .Then(P.Token(static t => t.Kind is TokenKind.Slash or TokenKind.Comma or TokenKind.Dash or TokenKind.At || t.Term == Term.At)
            .Optional()).IgnoreResult();

    // "/15W" and "=15W" behind a mode; "/65W Max" is the port's.
    private static readonly Parser<Token, Token?> WattsBehind =
        P.Token(static t => t.Kind is TokenKind.Slash or TokenKind.Equals).Then(Watts).NotBefore(Maximum).OrNull();

    /// <summary>"5V⎓3A".</summary>
    public static readonly Parser<Token, ModePiece> Mode =
        Directs.Then(Map(
            static (volts, amps, isMaximum, watts) => new ModePiece(volts, amps, watts, isMaximum),
            Volts.Before(Between), Amps, MaximumBehind, WattsBehind)).Placed();

    private static readonly Parser<Token, (int Minimum, int Maximum)> VoltageRange = Try(Map(
            static (low, high) => (Minimum: low.Value, Maximum: high.Value),
            Number.Or(Volts).Before(RangeSign), Volts))
        .Where(static range => range.Minimum > 0 && range.Minimum < range.Maximum);

    // "/5A" behind a range's current.
    private static readonly Parser<Token, Token?> AmpsBehind = Slash.Then(Amps).OrNull();

    /// <summary>"3.3-11V⎓5A", "9-20V⎓3A/5A".</summary>
    public static readonly Parser<Token, RangePiece> Range =
        Directs.Then(Map(
            static (range, amps, above, _, watts) => new RangePiece(range.Minimum, range.Maximum, amps, watts) { AmpsAbove = above },
            VoltageRange.Before(Between), Amps, AmpsBehind, MaximumBehind, WattsBehind));

    private static readonly Parser<Token, ImmutableArray<int>> Frequencies =
        Map(
            static ImmutableArray<int> (low, high) => low is null ? [high.Value] : [Hertz(low), high.Value],
            OneOf(Number, Is(Dimension.Frequency)).Before(OneOf(Slash, Is(TokenKind.Dash))).OrNull(),
            Is(Dimension.Frequency));

    // One thing that may follow an AC voltage.
    private static readonly Parser<Token, (bool Sign, ImmutableArray<int> Frequencies, Token? Current, Token? Power)> MainsItem =
        Try(OneOf(Is(TokenKind.Comma), Slash).Optional().Then(OneOf(
            Alternating.Select(static (bool, ImmutableArray<int>, Token?, Token?) (_) => (true, default, null, null)),
            Try(Frequencies).Select(static (bool, ImmutableArray<int>, Token?, Token?) (hertz) => (true, hertz, null, null)),
            Try(Maximum.Optional().Then(Amps)).Before(MaximumBehind)
                .Select(static (bool, ImmutableArray<int>, Token?, Token?) (amps) => (false, default, amps, null)),
            Watts.Before(MaximumBehind)
                .Select(static (bool, ImmutableArray<int>, Token?, Token?) (watts) => (false, default, null, watts)))));

    // "115/230V": one or the other, where "100-240V" is anything between (IEC 60950-1 1.7.1).
    private static readonly Parser<Token, ImmutableArray<(int Minimum, int Maximum)>> MainsVoltages = OneOf(
        Try(VoltageRange).Select(static ImmutableArray<(int, int)> (range) => [range]),
        Try(Map(
            static ImmutableArray<(int, int)> (first, second) => [(first.Value, first.Value), (second.Value, second.Value)],
            Number.Before(Slash), Volts)),
        Volts.Select(static ImmutableArray<(int, int)> (volts) => [(volts.Value, volts.Value)]));

    /// <summary>"100-240V~ 50/60Hz 1.5A": an AC sign or a frequency must be printed.</summary>
    public static readonly Parser<Token, MainsPiece> Mains = Map(
        static (isAlternating, voltages, items) => Combine(isAlternating, voltages, items),
        Is(TokenKind.Alternating).IsPresent(), MainsVoltages, MainsItem.AtMost(6))
        .Where(static mains => mains is not null).Select(static mains => mains!);

    private static readonly Parser<Token, (Token Watts, bool IsMaximum)> Watt = OneOf(
        Try(Map(
            static (_, watts, _) => (watts, true),
            OneOf(Maximum, Is(Term.UpTo)).Before(Is(TokenKind.Colon).Optional()), Watts, MaximumBehind)),
        Map(static (watts, isMaximum) => (watts, isMaximum), Watts, MaximumBehind));

    /// <summary>"65W Max".</summary>
    public static readonly Parser<Token, PowerPiece> PlainPower = Map(
        static (first, watt, end) => new PowerPiece(watt.Watts, watt.IsMaximum, first..end), P.CurrentOffset, Watt, P.CurrentOffset);

    /// <summary>"65W Max", "(65W)".</summary>
    public static readonly Parser<Token, PowerPiece> Power = OneOf(Try(Open.Then(PlainPower).Before(Close)), PlainPower);

    private static int Hertz(Token token) => token.Kind == TokenKind.Number ? token.Value / 1000 : token.Value;

    private static MainsPiece? Combine(
        bool isAlternating, ImmutableArray<(int, int)> voltages,
        (bool Sign, ImmutableArray<int> Frequencies, Token? Current, Token? Power)[] items)
    {
        bool sign = isAlternating || items.Any(static item => item.Sign);
        ImmutableArray<int>[] frequencies = [.. items.Select(static item => item.Frequencies).Where(static f => !f.IsDefault)];
        Token[] currents = [.. items.Select(static item => item.Current).OfType<Token>()];
        Token[] powers = [.. items.Select(static item => item.Power).OfType<Token>()];
        return sign && frequencies.Length <= 1 && currents.Length <= 1 && powers.Length <= 1
            ? new MainsPiece(voltages, frequencies.FirstOrDefault([]), currents.FirstOrDefault(), powers.FirstOrDefault())
            : null;
    }
}
