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

    private static readonly Parser<Token, string> Cable = Map(
        static (cable, number) => Name(null, null, cable, number), Is(Term.Cable), NumberBehind);

    /// <summary>"USB-C1", "C1", "Type-C 1", "USB", "Port 2", "USB-C port", "Built-in cable".</summary>
    public static readonly Parser<Token, string> Port =
        OneOf(Try(Named), Try(Numbered), Try(Cable), Usb).Before(Is(Term.Port).IsPresent());

    /// <summary>"Wireless", "Wireless 1": no port of USB, but it takes part in combinations.</summary>
    public static readonly Parser<Token, string> Pad = Map(
        static (pad, number) => Name(null, null, pad, number), Is(Term.Wireless), NumberBehind);

    private static readonly Parser<Token, string> WholePort = Port.Before(Is(TokenKind.Colon)).Before(Parser<Token>.End);

    // "C1/C2", "C1/2".
    private static readonly Parser<Token, ImmutableArray<string>> Slashed = Map(
        Numbers, Port, Slash.Then(Port.Or(Number.Where(static t => t.Value % 1000 == 0 && t.Value < 100_000)
            .Select(static t => (t.Value / 1000).ToString(CultureInfo.InvariantCulture)))).AtMost(7))
        .Where(static names => !names.IsEmpty);

    // "C1, C2:", "C1 or C2:"; without the colon the comma may separate anything.
    private static readonly Parser<Token, ImmutableArray<string>> Listed = Map(
        static ImmutableArray<string> (first, second, rest) => [first, second, .. rest],
        Port, NextListed, NextListed.AtMost(6)).Before(Lookahead(OneOf(Is(TokenKind.Colon), Is(TokenKind.Equals), Is(Term.Output), Is(Term.Input))));

    private static readonly Parser<Token, ImmutableArray<string>> Ports = Try(Listed).Or(Slashed);

    // "C1 only", "C1 (single port)": what a statement about one port says anyway.
    private static readonly Parser<Token, bool> Alone =
        Try(Open.Then(Is(Term.Alone)).Before(Close)).Or(Is(Term.Alone)).IsPresent();

    // "AC" of "AC output".
    private static readonly Parser<Token, bool> Nature = P.Token(
        static t => t.Kind is TokenKind.Alternating or TokenKind.Direct && t.Word.Length > 0).IsPresent();

    private static Parser<Token, string> NextListed => OneOf(Is(TokenKind.Comma), Is(Term.Or)).Then(Port);

    private static readonly Parser<Token, Direction> Word = OneOf(
        Is(Term.Input).ThenReturn(Direction.Input), Is(Term.Output).ThenReturn(Direction.Output));

    // "Input/Output", "Input/Eingang/Entrée".
    private static readonly Parser<Token, Direction> Directions = Map(
        static (first, rest) => rest.Aggregate(first, static (all, one) => all | one),
        Word, OneOf(Slash, Is(TokenKind.Plus)).Then(Word).AtMost(4));

    private static readonly Parser<Token, string?> ProtocolInside =
        Open.Then(Is(Term.PowerDelivery)).Before(Close).Select(static t => t.Word).OrNull();

    private static readonly Parser<Token, (Direction Direction, ImmutableArray<string> Ports)> DirectionFirst = Map(
        static (_, direction, ports) => (direction, ports),
        Nature, Directions,
        OneOf(
            Try(Open.Then(Ports).Before(Close)),
            Try(Ports.Before(Alone).NotBefore(Is(TokenKind.Plus))),
            P.Return(ImmutableArray<string>.Empty)));

    private static readonly Parser<Token, (Direction Direction, ImmutableArray<string> Ports)> PortsFirst = Map(
        static (ports, _, direction) => (direction, ports),
        Ports, Alone,
        OneOf(Try(Open.Then(Directions).Before(Close)), Directions, P.Return(Direction.Unsaid)));

    // "Output 2:".
    private static readonly Parser<Token, (Direction Direction, ImmutableArray<string> Ports)> NumberedOutput = Map(
        static (Direction, ImmutableArray<string>) (word, number) => (Direction.Output, [Name(null, null, word, number)]),
        Is(Term.Output), NumberBehind.Where(static number => number is not null));

    private sealed record InnerMaximum(string? Protocol, PowerPiece Power);

    // "(65W)", "(PD 65W)", before the colon.
    private static readonly Parser<Token, InnerMaximum?> MaximumInside = Map(
        static (protocol, power) => new InnerMaximum(protocol?.Word, power with { IsMaximum = true }),
        Open.Then(P.Token(static t => t.Term is Term.PowerDelivery or Term.Programmable or Term.OpenProtocol).OrNull()),
        ModeGrammar.PlainPower.Placed()).Before(Close).Before(Lookahead(Is(TokenKind.Colon))).OrNull();

    /// <summary>A header, never the beginning of a combination.</summary>
    public static readonly Parser<Token, HeaderPiece> Header = Map(
        static (header, protocol, maximum, isMarked) => new HeaderPiece(header.Direction, header.Ports, isMarked, protocol)
        {
            Power = maximum?.Power, PowerProtocol = maximum?.Protocol,
        },
        OneOf(Try(NumberedOutput), Try(DirectionFirst), PortsFirst), ProtocolInside, MaximumInside, Mark.IsPresent())
        .NotBefore(Is(TokenKind.Plus));

    /// <summary>Whether the tokens are a port's name, with or without a colon.</summary>
    public static bool IsPort(List<Token> tokens)
    {
        bool isMarked = tokens[^1].Kind == TokenKind.Colon;
        Token[] marked = [.. tokens, .. isMarked ? Array.Empty<Token>() : [tokens[^1] with { Kind = TokenKind.Colon, Term = Term.None }]];
        return WholePort.Parse(marked.AsSpan()).Success;
    }

    /// <summary>Whether the name is that of a cable that belongs to the product.</summary>
    public static bool IsCable(string name) =>
        Vocabulary.Find(name.AsSpan().TrimEnd("0123456789")) == Term.Cable;

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

    // A bare number takes the letters of the first port; none are empty.
    private static ImmutableArray<string> Numbers(string first, string[] rest)
    {
        string letters = first.TrimEnd('0', '1', '2', '3', '4', '5', '6', '7', '8', '9');
        bool isClear = letters.Length < first.Length || !rest.Any(static name => char.IsAsciiDigit(name[0]));
        return isClear ? [first, .. rest.Select(name => char.IsAsciiDigit(name[0]) ? letters + name : name)] : [];
    }

    private static string Name(Token? usb, Token? type, Token name, Token? number)
    {
        string digits = number is null ? "" : (number.Value / 1000).ToString(CultureInfo.InvariantCulture);
        return PortNames.Shorten(string.Concat(usb is null ? "" : "USB ", type is null ? "" : "Type ", name.Word, digits));
    }
}
