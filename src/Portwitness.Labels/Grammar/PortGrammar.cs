using System.Collections.Immutable;
using System.Globalization;

namespace Portwitness.Labels;

/// <summary>The names of ports, alone and in lists.</summary>
internal sealed class PortGrammar(TokenReader reader)
{
    private const int MaxPorts = 16;
    private const int MaxCounted = 12;

    // "5V DC ⎓ 2.4A".
    private const int MaxInMode = 4;

    private static readonly string[] NumberedPrefixes = ["USB", "OUT", "OUTPUT", "IN", "INPUT", "PORT", "PD"];

    /// <summary>Whether "and" stands between the ports that were read last.</summary>
    public bool AreJoined { get; private set; }

    /// <summary>"USB-C1", "C1", "Type-C 1", "USB", "Port 2", "USB-C port", "Built-in cable".</summary>
    public string? Port()
    {
        int first = reader.At;
        if (reader.Current.Term == Term.Port && reader.Peek(1).Term is Term.Usb or Term.PortName && reader.Peek(1).SpaceBefore < 2)
        {
            // "Port C1".
            reader.At++;
        }

        if (Captive() is { } captive)
        {
            return captive;
        }

        Token? usb = reader.Take(Term.Usb);
        Token? type = reader.Take(Term.ConnectorType);
        string? name = null;
        if (reader.Take(Term.PortName) is { } named)
        {
            Token? number = NumberBehind();
            name = number is null || !char.IsAsciiDigit(named.Word[^1]) ? Name(usb, type, named, number) : null;
        }
        else if (type is null && usb is null && reader.Take(Term.Port) is { } port)
        {
            name = NumberBehind() is { } number ? Name(null, null, port, number) : null;
        }
        else if (type is null && usb is null && reader.Take(Term.Cable) is { } cable)
        {
            name = Name(null, null, cable, NumberBehind());
            reader.Take(Term.PortName);
            int open = reader.Current.Kind == TokenKind.Open && reader.Peek(1).Term == Term.BuiltIn && reader.Peek(2).Kind == TokenKind.Close ? 3 : 0;
            reader.At += open > 0 ? open : reader.Current.Term == Term.BuiltIn ? 1 : 0;
        }
        else if (type is null && usb is not null)
        {
            name = Name(null, null, usb, NumberBehind());
        }

        if (name is null)
        {
            return reader.Back<string>(first);
        }

        reader.SkipWords(2, Term.Port, Term.ConnectorType);
        reader.Skip(TokenKind.Note);
        return name;
    }

    // "Built-in USB-C cable", "cable (captive)".
    private string? Captive()
    {
        int first = reader.At;
        bool isBuiltIn = reader.SkipWords(2, Term.BuiltIn) > 0;
        reader.SkipWords(3, Term.Usb, Term.ConnectorType, Term.PortName);
        Token? cable = reader.At == first ? null : reader.Take(Term.Cable);
        isBuiltIn |= cable is not null && reader.Current.Term == Term.BuiltIn;
        if (cable is null || !isBuiltIn)
        {
            return reader.Back<string>(first);
        }

        reader.SkipWords(1, Term.BuiltIn);
        return Name(null, null, cable, NumberBehind());
    }

    /// <summary>"Wireless", "Wireless 1": no port of USB, but it takes part in combinations.</summary>
    public string? Pad() => reader.Take(Term.Wireless) is { } pad ? Name(null, null, pad, NumberBehind()) : null;

    /// <summary>"C1/C2", "C1/2", "A1–A4", "USB-A×2", "2 x USB-A", "C1, C2:", "C1 or C2"; empty when no port is named.</summary>
    public ImmutableArray<string> Ports()
    {
        int first = reader.At;
        AreJoined = false;
        if (Counted() is { } counted)
        {
            return counted;
        }

        if (Port() is not { } port)
        {
            reader.At = first;
            return [];
        }

        if (Times(port) is { } times)
        {
            return times;
        }

        if (Numbers(port) is { } numbers)
        {
            return numbers;
        }

        if (Through(port) is { } through)
        {
            return through;
        }

        int single = reader.At;
        List<string> listed = [port];
        (bool areJoined, bool areAlternatives) = (false, true);
        while (listed.Count < MaxPorts)
        {
            areJoined |= reader.Current.Term == Term.And;
            bool isAlternative = reader.Current.Term == Term.Or;
            if (!SkipListSign() || Port() is not { } next)
            {
                break;
            }

            listed.Add(next);
            areAlternatives &= isAlternative;
        }

        // "C1 or C2 65W".
        if (listed.Count > 1 && (EndsList() || (areAlternatives && reader.Current.Is(Dimension.Power))))
        {
            AreJoined = areJoined;
            return [.. listed];
        }

        reader.At = single;
        return Slashed(port);
    }

    /// <summary>"C1 and C2", "C e A", and "C1, C2, A" in front of words of use; empty for one port.</summary>
    public ImmutableArray<string> Joined()
    {
        int first = reader.At;
        List<string> ports = [];
        bool isListed = false;
        while (ports.Count < MaxPorts)
        {
            int at = reader.At;
            isListed |= ports.Count > 0 && reader.Current.Kind == TokenKind.Comma;
            if ((ports.Count > 0 && !reader.Skip(Term.And) && !reader.Skip(TokenKind.Comma)) || Port() is not { } port)
            {
                reader.At = at;
                break;
            }

            ports.Add(port);
        }

        if (ports.Count > 1 && (!isListed || reader.Current.Term is Term.Use or Term.Together))
        {
            return [.. ports];
        }

        reader.At = first;
        return [];
    }

    /// <summary>Whether the tokens are a port's name, with or without a colon.</summary>
    public static bool IsPort(List<Token> tokens)
    {
        Token end = new() { Kind = TokenKind.Colon, Start = 0, End = 0, SpaceBefore = 0 };
        TokenReader reader = new([.. tokens.Where(static token => token.Kind != TokenKind.Colon), end]);
        return new PortGrammar(reader).Port() is not null && reader.Current.Kind == TokenKind.Colon && reader.At == reader.Count - 1;
    }

    /// <summary>Whether the name is that of a cable that belongs to the product.</summary>
    public static bool IsCable(string name) => Vocabulary.Find(name.AsSpan().TrimEnd("0123456789")) == Term.Cable;

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

    /// <summary>A word and the number behind it as one name.</summary>
    public static string Name(Token? usb, Token? type, Token name, Token? number)
    {
        string digits = number is null ? "" : (number.Value / 1000).ToString(CultureInfo.InvariantCulture);
        return PortNames.Shorten(string.Concat(usb is null ? "" : "USB ", type is null ? "" : "Type ", name.Word, digits));
    }

    /// <summary>"Type-C 1:"; elsewhere a number after a port is something else.</summary>
    public Token? NumberBehind()
    {
        if (reader.Current.Kind == TokenKind.NumberSign && IsCount(reader.Peek(1)))
        {
            reader.At++;
            return reader.Take(TokenKind.Number);
        }

        bool isNumber = IsCount(reader.Current)
            && reader.Peek(1).Kind is TokenKind.Colon or TokenKind.Plus or TokenKind.Close or TokenKind.Open;
        return isNumber ? reader.Take(TokenKind.Number) : null;
    }

    /// <summary>A whole number from 1 to 99.</summary>
    public int? Count() => IsCount(reader.Current) ? reader.Take(TokenKind.Number)!.Value / 1000 : null;

    /// <summary>Whether a token is a whole number from 1 to 99.</summary>
    public static bool IsCount(Token token) => token.Kind == TokenKind.Number && token.Value % 1000 == 0 && token.Value is > 0 and < 100_000;

    /// <summary>Steps over "output", "simultaneous use".</summary>
    public void SkipUse() => reader.SkipWords(4, Term.Together, Term.Use, Term.Output, Term.Port, Term.Shared);

    // "2 x USB-A", "3 ports USB-A", "3 USB-A ports".
    private ImmutableArray<string>? Counted()
    {
        int first = reader.At;
        Token count = reader.Current;
        if (IsCount(count) && count.Value / 1000 <= MaxCounted && reader.Peek(1).Term == Term.Times)
        {
            reader.At += 2;
            if (Port() is { } port && !char.IsAsciiDigit(port[^1]))
            {
                return Numbered(port, 1, count.Value / 1000);
            }
        }
        else if (IsCount(count) && count.Value / 1000 is > 1 and <= MaxCounted && reader.Peek(1).Term is Term.Port or Term.Usb or Term.PortName)
        {
            reader.At++;
            bool isCount = reader.Skip(Term.Port);
            if (Port() is { } port && !char.IsAsciiDigit(port[^1]) && (isCount || reader.Peek(-1).Term == Term.Port))
            {
                return Numbered(port, 1, count.Value / 1000);
            }
        }

        reader.At = first;
        return null;
    }

    // "USB-A 1 and 2:", "USB-C 1/2:".
    private ImmutableArray<string>? Numbers(string port)
    {
        if (!IsCount(reader.Current) || char.IsAsciiDigit(port[^1]))
        {
            return null;
        }

        int first = reader.At;
        List<string> names = [];
        while (names.Count < MaxPorts && Count() is { } number)
        {
            names.Add(port + number.ToString(CultureInfo.InvariantCulture));
            if (!reader.Skip(TokenKind.Slash) && !SkipListSign())
            {
                break;
            }
        }

        if (names.Count > 1 && EndsList())
        {
            return [.. names];
        }

        reader.At = first;
        return null;
    }

    // "USB-A×2", "USB-A (×2)".
    private ImmutableArray<string>? Times(string port)
    {
        int open = reader.Current.Kind == TokenKind.Open && reader.Peek(3).Kind == TokenKind.Close ? 1 : 0;
        Token count = reader.Peek(1 + open);
        if (reader.Peek(open).Term != Term.Times || !IsCount(count) || count.Value / 1000 > MaxCounted || char.IsAsciiDigit(port[^1]))
        {
            return null;
        }

        reader.At += 2 + (2 * open);
        return Numbered(port, 1, count.Value / 1000);
    }

    // "A1–A4", "C1~3".
    private ImmutableArray<string>? Through(string port)
    {
        int first = reader.At;
        string letters = Letters(port);
        bool isRange = letters.Length < port.Length && reader.IsRangeSign();
        reader.At += isRange ? 1 : 0;
        Token number = reader.Current;
        bool isNumber = isRange && IsCount(number);
        reader.At += isNumber ? 1 : 0;
        string? last = !isRange ? null : isNumber ? letters + (number.Value / 1000).ToString(CultureInfo.InvariantCulture) : Port();
        if (last is not null && Letters(last) == letters
            && int.TryParse(port.AsSpan(letters.Length), out int from) && int.TryParse(last.AsSpan(letters.Length), out int to)
            && from < to && to - from < MaxCounted)
        {
            return Numbered(letters, from, to);
        }

        reader.At = first;
        return null;
    }

    // One alone keeps its name.
    private static ImmutableArray<string> Numbered(string letters, int from, int to) => from == to && from == 1
        ? [letters] : [.. Enumerable.Range(from, to - from + 1).Select(i => letters + i.ToString(CultureInfo.InvariantCulture))];

    private static string Letters(string port) => port.TrimEnd('0', '1', '2', '3', '4', '5', '6', '7', '8', '9');

    private bool SkipListSign() => reader.Skip(TokenKind.Comma) || reader.Skip(TokenKind.Bullet) || reader.SkipWords(1, Term.Or, Term.And) > 0;

    // Without a colon or the like the comma may separate anything.
    private bool EndsList() => reader.Current.Kind is TokenKind.Colon or TokenKind.Equals or TokenKind.Open
        || reader.Current.Term is Term.Output or Term.Input or Term.BothWays or Term.Each or Term.Maximum or Term.UpTo or Term.To or Term.Alone
        || IsEachBehind();

    // "USB-A1, USB-A2 5V⎓2.4A each".
    private bool IsEachBehind()
    {
        int ahead = 0;
        while (ahead < MaxInMode && reader.Peek(ahead).Kind is TokenKind.Quantity or TokenKind.Direct or TokenKind.Slash)
        {
            ahead++;
        }

        return ahead > 0 && reader.Peek(ahead).Term == Term.Each;
    }

    // A bare number takes the letters of the first port.
    private ImmutableArray<string> Slashed(string first)
    {
        List<string> ports = [first];
        string letters = Letters(first);
        while (ports.Count < MaxPorts)
        {
            int at = reader.At;
            bool isSlash = reader.Skip(TokenKind.Slash);
            Token number = reader.Current;
            bool isNumber = isSlash && IsCount(number);
            string? next = !isSlash ? null : isNumber ? letters + (number.Value / 1000).ToString(CultureInfo.InvariantCulture) : Port();
            if (isNumber && letters.Length == first.Length)
            {
                return [];
            }

            reader.At += isNumber ? 1 : 0;
            if (next is null)
            {
                reader.At = at;
                break;
            }

            // "cord/cable" is one.
            if (!(IsCable(next) && IsCable(ports[^1])))
            {
                ports.Add(next);
            }
        }

        return [.. ports];
    }
}
