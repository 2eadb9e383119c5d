namespace Portwitness.Labels;

/// <summary>
/// Sentences about one port and its modes: "On input the USB-C port accepts 5 V/3 A and 9 V/2 A". The words in front of the first voltage are
/// written as a heading, where each of them is known and none but the port and the direction says anything.
/// </summary>
internal static class SentenceHeads
{
    private const int MaxWords = 12;

    /// <summary>The sentence with its heading; null when its beginning is none, or is one already.</summary>
    public static List<Token>? Plain(List<Token> tokens, int start, int end)
    {
        int volts = tokens.FindIndex(start, Math.Min(MaxWords, end - start), static token => token.Is(Dimension.Voltage));
        if (volts < start + 2 || tokens[volts - 1].Kind == TokenKind.Colon)
        {
            return null;
        }

        TokenReader reader = new(tokens) { At = start };
        PortGrammar ports = new(reader);
        Range? port = null;
        Token? direction = null;
        bool hasVerb = false;
        while (reader.At < volts)
        {
            int first = reader.At;
            Token token = reader.Current;
            if (token.Term is Term.Input or Term.Output)
            {
                if (direction is not null && direction.Term != token.Term)
                {
                    return null;
                }

                // "accepts": a verb of its own.
                hasVerb |= port is not null;
                direction ??= token;
                reader.At++;
            }
            else if (ports.Port() is not null)
            {
                if (port is not null || reader.At > volts)
                {
                    return null;
                }

                port = first..reader.At;
            }
            else if (token.Term is Term.Gives or Term.Use or Term.Article or Term.Via or Term.At or Term.Port or Term.Product or Term.From
                || token.Kind == TokenKind.Comma)
            {
                hasVerb |= token.Term == Term.Gives;
                reader.At++;
            }
            else
            {
                return null;
            }
        }

        bool isHeading = port is { } named && hasVerb && (direction is not null || named.Start.Value > start);
        return !isHeading ? null :
        [
            .. direction is null ? [] : (Token[])[direction], .. tokens[port!.Value], Sentences.Sign(TokenKind.Colon, tokens[volts].Start), .. tokens[volts..end],
        ];
    }
}
