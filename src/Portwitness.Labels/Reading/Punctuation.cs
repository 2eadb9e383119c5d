namespace Portwitness.Labels;

/// <summary>
/// A semicolon behind a port's name is a colon, and a colon between two ratings is a comma: they are taken for one another, and
/// neither could stand there.
/// </summary>
internal static class Punctuation
{
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

        return tokens;
    }
}
