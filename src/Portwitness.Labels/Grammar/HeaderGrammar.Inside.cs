namespace Portwitness.Labels;

/// <content>Sockets, and what stands in a header beside its ports.</content>
internal sealed partial class HeaderGrammar
{
    // "AC: 250V~": the sockets of a strip; a range of voltages is an inlet's.
    private HeaderPiece? Socket()
    {
        bool isSocket = IsAlternating(0) && reader.Peek(1).Kind == TokenKind.Colon
            && reader.Peek(2).Is(Dimension.Voltage) && !(reader.IsRangeSign(3) && reader.Peek(4).Is(Dimension.Voltage));
        reader.At += isSocket ? 1 : 0;
        if (!isSocket && (reader.Current.Term == Term.Port || (IsAlternating(0) && reader.Peek(1).Term is Term.Port or Term.Product)))
        {
            // "Outlets: 250 V~ 16 A", "AC outlet: AC 100 V".
            int words = IsAlternating(0) || IsAlternating(1) ? 2 : 1;
            int value = reader.Peek(words).Kind == TokenKind.Colon ? words + 1 : words;
            bool isSaid = words == 2 || IsAlternating(value);
            value += IsAlternating(value) ? 1 : 0;
            while (value < MaxToVoltage && (reader.Peek(value).Is(Dimension.Power) || reader.Peek(value).Is(Dimension.Current)
                || reader.Peek(value).Kind is TokenKind.Comma or TokenKind.Slash || reader.Peek(value).Term == Term.Maximum))
            {
                value++;
            }

            isSocket = reader.Peek(value).Is(Dimension.Voltage) && !(reader.IsRangeSign(value + 1) && reader.Peek(value + 2).Is(Dimension.Voltage))
                && (isSaid || reader.Peek(value + 1).Kind is TokenKind.Alternating or TokenKind.Tilde);
            reader.At += isSocket ? words : 0;
        }

        return isSocket ? new HeaderPiece(Direction.Output, []) : null;
    }

    private bool IsAlternating(int ahead) => reader.Peek(ahead) is { Kind: TokenKind.Alternating, Word.Length: > 0 };

    private string? ProtocolInside()
    {
        // "(PD 3.0)", "(PD compatible)".
        int version = reader.Peek(2).Kind == TokenKind.Number || reader.Peek(2).Term == Term.Nothing ? 1 : 0;
        SkipProtocols();
        if (reader.Current.Kind != TokenKind.Open || reader.Peek(1).Term is not (Term.PowerDelivery or Term.Programmable or Term.OpenProtocol)
            || reader.Peek(2 + version).Kind != TokenKind.Close)
        {
            return null;
        }

        string word = reader.Peek(1).Word;
        reader.At += 3 + version;
        return word;
    }

    // "(PD 3.0, PPS)": of several, nobody says which a rating is of.
    private void SkipProtocols()
    {
        int first = reader.At;
        bool isOpen = reader.Skip(TokenKind.Open);
        int count = 0;
        while (isOpen && count < MaxInUse && reader.Skip(count > 0 ? reader.Current.Kind : TokenKind.Open) | count == 0
            && reader.Current.Term is Term.PowerDelivery or Term.Programmable or Term.OpenProtocol)
        {
            count++;
            reader.At++;
            reader.At += reader.Current.Kind == TokenKind.Number ? 1 : 0;
            if (reader.Current.Kind is not (TokenKind.Comma or TokenKind.Slash or TokenKind.Plus))
            {
                break;
            }
        }

        reader.At = count > 1 && reader.Skip(TokenKind.Close) ? reader.At : first;
    }

    // "(65W)", "(PD 65W)", "65W", before the colon.
    private (string? Protocol, PowerPiece? Power) MaximumInside()
    {
        int first = reader.At;
        bool isOpen = reader.Skip(TokenKind.Open);
        Token? protocol = reader.Current.Term is Term.PowerDelivery or Term.Programmable or Term.OpenProtocol ? reader.Current : null;
        reader.At += protocol is null ? 0 : 1;
        if (protocol is not null)
        {
            reader.At += reader.Current.Kind == TokenKind.Number ? 1 : 0;
            reader.Skip(TokenKind.Comma);
        }

        if (modes.PlainPower() is { } power && (!isOpen || reader.Skip(TokenKind.Close)) && reader.Current.Kind == TokenKind.Colon)
        {
            return (protocol?.Word, power.AsMaximum());
        }

        reader.At = first;
        return (null, null);
    }
}
