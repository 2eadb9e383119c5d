namespace Portwitness.Labels;

/// <summary>
/// "① USB-C1 …", "② USB-A …" and then "①+②: 45W+15W": the numbers stand for the ports behind them. (Unicode, Enclosed Alphanumerics.)
/// </summary>
internal static class CircledPorts
{
    private const char First = '\u2460';
    private const char Last = '\u2468';
    private const int MaxInName = 4;

    /// <summary>Writes the ports for the numbers of a sum, where each number has one port.</summary>
    public static List<Token> Apply(List<Token> tokens, FoldedText text)
    {
        if (!text.Printed.AsSpan().ContainsAnyInRange(First, Last))
        {
            return tokens;
        }

        Dictionary<char, List<Token>?> named = [];
        for (int i = 0; i + 1 < tokens.Count; i++)
        {
            if (Number(tokens[i], text) is { } number && Name(tokens, i + 1) is { Count: > 0 } name)
            {
                named[number] = named.ContainsKey(number) ? null : name;
            }
        }

        List<Token> result = [];
        for (int i = 0; i < tokens.Count; i++)
        {
            bool isOfSum = (i + 1 < tokens.Count && tokens[i + 1].Kind == TokenKind.Plus) || (i > 0 && tokens[i - 1].Kind == TokenKind.Plus);
            if (isOfSum && Number(tokens[i], text) is { } number && named.GetValueOrDefault(number) is { } name)
            {
                // The number stands for the name, and the sum is where it stands.
                Token sign = tokens[i];
                result.AddRange(name.Select(token => token with { Start = sign.Start, End = sign.End, SpaceBefore = sign.SpaceBefore }));
            }
            else
            {
                result.Add(tokens[i]);
            }
        }

        return result;
    }

    private static char? Number(Token token, FoldedText text) =>
        token.Kind is TokenKind.Note or TokenKind.Number or TokenKind.NumberSign && token.End - token.Start == 1 && text.Printed[token.Start] is >= First and <= Last and var number ? number : null;

    // The longest name of a port that begins there.
    private static List<Token> Name(List<Token> tokens, int start)
    {
        for (int end = Math.Min(tokens.Count, start + MaxInName); end > start; end--)
        {
            if (PortGrammar.IsPort(tokens[start..end]))
            {
                return tokens[start..end];
            }
        }

        return [];
    }
}
