namespace Portwitness.Labels;

/// <summary>
/// A semicolon behind a port's name is a colon, and a colon between two ratings is a comma: they are taken for one another, and
/// neither could stand there. Lenticular brackets around the beginning of a line stand for a colon behind it.
/// </summary>
internal static class Punctuation
{
    private const char LenticularOpen = '\u3010';
    private const int MaxInHeading = 12;

    public static List<Token> Repair(List<Token> tokens, FoldedText text)
    {
        for (int i = 1; i + 1 < tokens.Count; i++)
        {
            Token sign = tokens[i];
            TokenKind kind = sign.Kind switch
            {
                TokenKind.Semicolon when tokens[i - 1].Term == Term.PortName && tokens[i + 1].Is(Dimension.Voltage) => TokenKind.Colon,
                TokenKind.Colon when tokens[i - 1].Is(Dimension.Current) && tokens[i + 1].Is(Dimension.Voltage) => TokenKind.Comma,
                _ => sign.Kind,
            };
            if (kind != sign.Kind)
            {
                tokens[i] = sign with { Kind = kind };
                text.Repairs.Add(new Repair(RepairKind.Sign, sign.Start, sign.End, kind == TokenKind.Colon ? ":" : ","));
            }
        }

        return Headings(tokens, text);
    }

    // "【出力】5V⎓3A": the brackets stand for a colon behind the heading.
    private static List<Token> Headings(List<Token> tokens, FoldedText text)
    {
        for (int i = 0; i < tokens.Count; i++)
        {
            bool isOpen = tokens[i].Kind == TokenKind.Open && (i == 0 || tokens[i - 1].Kind == TokenKind.Break)
                && text.Printed[tokens[i].Start] == LenticularOpen;
            int close = isOpen ? tokens.FindIndex(i + 1, Math.Min(MaxInHeading, tokens.Count - i - 1), static token => token.Kind is TokenKind.Close or TokenKind.Break) : -1;
            if (close > i + 1 && close + 1 < tokens.Count && tokens[close].Kind == TokenKind.Close
                && tokens[close + 1].Kind != TokenKind.Break
                && tokens.FindIndex(i + 1, close - i - 1, static token => token.Kind == TokenKind.Plus) < 0
                && !PortGrammar.IsPort(tokens[(i + 1)..close]))
            {
                tokens[close] = tokens[close] with { Kind = TokenKind.Colon };
                tokens.RemoveAt(i);
            }
        }

        return tokens;
    }
}
