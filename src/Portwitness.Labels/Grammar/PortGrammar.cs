using System.Globalization;

namespace Portwitness.Labels;

/// <summary>The names of ports.</summary>
internal sealed partial class PortGrammar(TokenReader reader)
{
    private const int MaxInConnector = 4;

    private static readonly string[] NumberedPrefixes = ["USB", "OUT", "OUTPUT", "IN", "INPUT", "PORT", "PD"];

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
            SkipConnector();
            reader.Take(Term.PortName);
            int open = reader.Current.Kind == TokenKind.Open && reader.Peek(1).Term == Term.BuiltIn && reader.Peek(2).Kind == TokenKind.Close ? 3 : 0;
            open = open > 0 ? open : reader.Current.Term == Term.BuiltIn ? 1 : 0;
            reader.At += open;
            if (open > 0)
            {
                SkipPlug();
            }
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

    // "Cable (USB-C)": what is at its end.
    private void SkipConnector()
    {
        int first = reader.At;
        bool isInside = reader.Skip(TokenKind.Open) && reader.SkipWords(MaxInConnector, Term.Usb, Term.ConnectorType, Term.PortName, Term.BuiltIn, Term.Cable) > 0
            && !char.IsAsciiDigit(reader.Peek(-1).Word[^1]) && reader.Skip(TokenKind.Close);
        reader.At = isInside ? reader.At : first;
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
        Token? number = NumberBehind();
        SkipPlug();
        return Name(null, null, cable, number);
    }

    // "Coiled cable (captive) USB-C:": the cable's plug, which has no number.
    private void SkipPlug()
    {
        int first = reader.At;
        bool isInside = reader.Skip(TokenKind.Open);
        bool isPlug = reader.SkipWords(3, Term.Usb, Term.ConnectorType, Term.PortName, Term.PowerDelivery) > 0
            && !char.IsAsciiDigit(reader.Peek(-1).Word[^1]) && (!isInside || reader.Skip(TokenKind.Close));
        reader.At = isPlug ? reader.At : first;
    }

    /// <summary>"Wireless", "Wireless 1": no port of USB, but it takes part in combinations.</summary>
    public string? Pad() => reader.Take(Term.Wireless) is { } pad ? Name(null, null, pad, NumberBehind()) : null;

    /// <summary>Whether the tokens are a port's name, with or without a colon.</summary>
    public static bool IsPort(List<Token> tokens)
    {
        Token end = new() { Kind = TokenKind.Colon, Start = 0, End = 0, SpaceBefore = 0 };
        TokenReader reader = new([.. tokens.Where(static token => token.Kind != TokenKind.Colon), end]);
        return new PortGrammar(reader).Port() is not null && reader.Current.Kind == TokenKind.Colon && reader.At == reader.Count - 1;
    }

    /// <summary>Whether the name is that of a cable that belongs to the product.</summary>
    public static bool IsCable(string name) => WordParts.Find(name.AsSpan().TrimEnd("0123456789")) == Term.Cable;

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
}
