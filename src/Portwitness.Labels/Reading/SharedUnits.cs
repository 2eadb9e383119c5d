namespace Portwitness.Labels;

/// <summary>
/// Numbers that share the unit behind the last one: "C1+C2: 45/20 W", "45+20W". Only behind ports of a combination, where nothing else can be meant.
/// </summary>
internal static class SharedUnits
{
    /// <summary>Gives the numbers their unit, and reads the strokes between them as plus signs.</summary>
    public static List<Token> Apply(List<Token> tokens)
    {
        int ports = 0;
        bool hasPlus = false;
        for (int at = 0; at < tokens.Count; at++)
        {
            SettleWith(tokens, at);
            ports = tokens[at].Kind == TokenKind.Break ? 0 : tokens[at].Term is Term.PortName or Term.Usb ? ports + 1 : ports;
            hasPlus = tokens[at].Kind != TokenKind.Break && (hasPlus || tokens[at].Kind == TokenKind.Plus);
            if (ports > 1 && hasPlus && tokens[at].Kind is TokenKind.Colon or TokenKind.Equals && ValuesEnd(tokens, at + 1, ports) is { } end)
            {
                Convert(tokens, at + 1, end);
                at = end - 1;
            }
        }

        return tokens;
    }

    // "C1 with C2: 45W and 20W": the words stand for plus signs where there are as many values as ports.
    private static void SettleWith(List<Token> tokens, int at)
    {
        bool isPair = at + 6 < tokens.Count && tokens[at].Term == Term.PortName && tokens[at + 1].Term == Term.Use && tokens[at + 2].Term == Term.PortName
            && tokens[at + 3].Kind == TokenKind.Colon && tokens[at + 4].Is(Dimension.Power) && tokens[at + 6].Is(Dimension.Power)
            && (tokens[at + 5].Term == Term.And || tokens[at + 5].Kind is TokenKind.Plus or TokenKind.Comma)
            && (at + 7 == tokens.Count || tokens[at + 7].Kind is TokenKind.Break or TokenKind.Stop);
        if (isPair)
        {
            tokens[at + 1] = tokens[at + 1] with { Kind = TokenKind.Plus, Term = Term.None };
            tokens[at + 5] = tokens[at + 5] with { Kind = TokenKind.Plus, Term = Term.None };
        }
    }

    // Behind the last of as many values as ports; null when they are none.
    private static int? ValuesEnd(List<Token> tokens, int start, int ports)
    {
        int last = start + (2 * (ports - 1));
        if (last >= tokens.Count || !tokens[last].Is(Dimension.Power) || (last + 1 < tokens.Count && tokens[last + 1].Kind is TokenKind.Slash or TokenKind.Plus))
        {
            return null;
        }

        for (int i = start; i < last; i += 2)
        {
            bool isValue = tokens[i].Kind == TokenKind.Number && tokens[i + 1].Kind is TokenKind.Slash or TokenKind.Plus && tokens[i + 1].Kind == tokens[start + 1].Kind;
            if (!isValue)
            {
                return null;
            }
        }

        return last + 1;
    }

    private static void Convert(List<Token> tokens, int start, int end)
    {
        for (int i = start; i < end - 1; i += 2)
        {
            tokens[i] = tokens[i] with { Kind = TokenKind.Quantity, Dimension = Dimension.Power, Step = 1000 };
            tokens[i + 1] = tokens[i + 1] with { Kind = TokenKind.Plus };
        }
    }
}
