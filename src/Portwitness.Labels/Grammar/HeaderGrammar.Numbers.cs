using System.Collections.Immutable;

namespace Portwitness.Labels;

/// <content>Outputs and ports that have a number for a name.</content>
internal sealed partial class HeaderGrammar
{
    // "Output 1 / Output 2:", "Output 1/2:", "Output 1 and 2:".
    private ImmutableArray<string> SeveralNumbered(Direction direction, Token word)
    {
        if (!PortGrammar.IsCount(reader.Current))
        {
            return [];
        }

        int first = reader.At;
        List<string> names = [];
        while (PortGrammar.IsCount(reader.Current) && reader.Take(TokenKind.Number) is { } number)
        {
            names.Add(PortGrammar.Name(null, null, word, number));
            if (!reader.Skip(TokenKind.Slash) && !reader.Skip(TokenKind.Comma) && !reader.Skip(Term.And))
            {
                break;
            }

            int at = reader.At;
            reader.At = Word() == direction ? reader.At : at;
        }

        if (names.Count > 1 && reader.Current.Kind == TokenKind.Colon)
        {
            return [.. names];
        }

        reader.At = first;
        return [];
    }

    // "Port 1 (USB-C)", "Port 1: USB-C 45W".
    private HeaderPiece? Numbered()
    {
        int first = reader.At;
        bool isNumbered = reader.Skip(Term.Port);
        Token? number = isNumbered ? ports.NumberBehind() : null;
        int at = reader.At;
        if (number is not null && reader.Skip(TokenKind.Colon) && ports.Port() is { } behind && (reader.Skip(TokenKind.Comma) || true) && IsBeforeValue())
        {
            return new HeaderPiece(Direction.Unsaid, [behind]) { Number = number.Value / 1000 };
        }

        reader.At = at;
        SkipPosition();
        bool isOpen = isNumbered && reader.Skip(TokenKind.Open);
        string? port = isOpen ? ports.Port() : null;
        string? protocol = port is not null && reader.Current.Term is Term.PowerDelivery or Term.Programmable && reader.Peek(1).Kind == TokenKind.Close
            ? reader.Current.Word : null;
        reader.At += protocol is null ? 0 : 1;
        return port is not null && reader.Skip(TokenKind.Close)
            ? new HeaderPiece(Direction.Unsaid, [port]) { Number = number?.Value / 1000, Protocol = protocol } : reader.Back<HeaderPiece>(first);
    }

    // "USB-C (1):"; the second, or two of them?
    private Token? NumberInside()
    {
        bool isInside = reader.Current.Kind == TokenKind.Open && PortGrammar.IsCount(reader.Peek(1)) && reader.Peek(2).Kind == TokenKind.Close
            && reader.Peek(3).Kind == TokenKind.Colon;
        Token? number = isInside ? reader.Peek(1) : null;
        reader.At += isInside ? 3 : 0;
        return number;
    }
}
