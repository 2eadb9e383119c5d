using System.Collections.Immutable;
using System.Globalization;
using Pidgin;
using static Pidgin.Parser;
using static Portwitness.Labels.Tokens;
using P = Pidgin.Parser<Portwitness.Labels.Token>;

namespace Portwitness.Labels;

/// <summary>Ports, and the headers that say whose ratings follow.</summary>
internal static class PortGrammar
{
    private static readonly string[] NumberedPrefixes = ["USB", "OUT", "OUTPUT", "IN", "INPUT", "PORT", "PD"];

    private static readonly Parser<Token, Token> Slash = Is(TokenKind.Slash);

    // "Type-C 1:"; elsewhere a number after a port is something else.
    private static readonly Parser<Token, Token?> NumberBehind = Number
        .Where(static t => t.Value % 1000 == 0 && t.Value < 100_000)
        .Before(Lookahead(P.Token(static t => t.Kind is TokenKind.Colon or TokenKind.Plus or TokenKind.Close))).OrNull();

    private static readonly Parser<Token, string> Named = Map(
            static (usb, type, name, number) => number is null || !char.IsAsciiDigit(name.Word[^1]) ? Name(usb, type, name, number) : "",
            Is(Term.Usb).OrNull(), Is(Term.ConnectorType).OrNull(), Is(Term.PortName), NumberBehind)
        .Where(static name => name.Length > 0);

    private static readonly Parser<Token, string> Numbered = Map(
        static (port, number) => Name(null, null, port, number), Is(Term.Port), NumberBehind.Where(static t => t is not null));

    private static readonly Parser<Token, string> Usb = Map(
        static (usb, number) => Name(null, null, usb, number), Is(Term.Usb), NumberBehind);

    /// <summary>"USB-C1", "C1", "Type-C 1", "USB", "Port 2", "USB-C port".</summary>
    public static readonly Parser<Token, string> Port =
        OneOf(Try(Named), Try(Numbered), Usb).Before(Is(Term.Port).IsPresent());

    private static readonly Parser<Token, ImmutableArray<string>> Ports =
        Map(static ImmutableArray<string> (first, rest) => [first, .. rest], Port, Slash.Then(Port).AtMost(7));

    private static readonly Parser<Token, Direction> Word = OneOf(
        Is(Term.Input).ThenReturn(Direction.Input), Is(Term.Output).ThenReturn(Direction.Output));

    private static readonly Parser<Token, Direction> Directions = Map(
        static (first, second) => first | second,
        Word, Try(OneOf(Slash, Is(TokenKind.Plus)).Then(Word)).Or(P.Return(Direction.Unsaid)));

    private static readonly Parser<Token, string?> ProtocolInside =
        Open.Then(Is(Term.PowerDelivery)).Before(Close).Select(static t => t.Word).OrNull();

    private static readonly Parser<Token, (Direction Direction, ImmutableArray<string> Ports)> DirectionFirst = Map(
        static (direction, ports) => (direction, ports),
        Directions,
        OneOf(
            Try(Open.Then(Ports).Before(Close)),
            Try(Ports.NotBefore(Is(TokenKind.Plus))),
            P.Return(ImmutableArray<string>.Empty)));

    private static readonly Parser<Token, (Direction Direction, ImmutableArray<string> Ports)> PortsFirst = Map(
        static (ports, direction) => (direction, ports),
        Ports,
        OneOf(Try(Open.Then(Directions).Before(Close)), Directions, P.Return(Direction.Unsaid)));

    // "Output 2:".
    private static readonly Parser<Token, (Direction Direction, ImmutableArray<string> Ports)> NumberedOutput = Map(
        static (Direction, ImmutableArray<string>) (word, number) => (Direction.Output, [Name(null, null, word, number)]),
        Is(Term.Output), NumberBehind.Where(static number => number is not null));

    /// <summary>A header, never the beginning of a combination.</summary>
    public static readonly Parser<Token, HeaderPiece> Header = Map(
        static (header, protocol, isMarked) => new HeaderPiece(header.Direction, header.Ports, isMarked, protocol),
        OneOf(Try(NumberedOutput), Try(DirectionFirst), PortsFirst), ProtocolInside, Mark.IsPresent())
        .NotBefore(Is(TokenKind.Plus));

    /// <summary>
    /// Whether a word has the shape of a port's name: a receptacle's letter, with or without a number and "USB" or "Type" before it,
    /// or a numbered word ("USB1", "OUT2").
    /// </summary>
    public static bool IsName(string word)
    {
        string name = PortNames.Shorten(word);
        if (name.Length == 0)
        {
            return false;
        }

        ReadOnlySpan<char> letters = name.AsSpan().TrimEnd("0123456789");
        int digits = name.Length - letters.Length;
        bool isMoreThanLetter = digits > 0 || name.Length < word.Length;
        return digits <= 2
            && (letters is "A" or "B" or "C" || (isMoreThanLetter && letters is "a" or "b" or "c")
                || (digits > 0 && NumberedPrefixes.Contains(letters.ToString().ToUpperInvariant())));
    }

    private static string Name(Token? usb, Token? type, Token name, Token? number)
    {
        string digits = number is null ? "" : (number.Value / 1000).ToString(CultureInfo.InvariantCulture);
        return PortNames.Shorten(string.Concat(usb is null ? "" : "USB ", type is null ? "" : "Type ", name.Word, digits));
    }
}
