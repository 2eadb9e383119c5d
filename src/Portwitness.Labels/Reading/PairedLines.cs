namespace Portwitness.Labels;

/// <summary>
/// "Voltage: 5 V / 9 V" over "Current: 3 A / 2 A" below a port's name, or with that name in both lines: the values are paired in order and written as
/// modes. As many amperes as volts, or one for all.
/// </summary>
internal static class PairedLines
{
    private const int MaxValues = 12;
    private const int MaxInHead = 8;

    /// <summary>Writes such lines as modes.</summary>
    public static List<Token> Apply(List<Token> tokens)
    {
        if (!tokens.Exists(static token => token.Term is Term.Heading or Term.Output) || !tokens.Exists(static token => token.Kind == TokenKind.Break))
        {
            return tokens;
        }

        List<Range> lines = TableLines.Lines(tokens);
        List<Token>? result = null;
        int copied = 0;
        for (int line = 0; line + 1 < lines.Count; line++)
        {
            if (Values(tokens, lines[line], Dimension.Voltage) is not { Count: > 0 } volts || Values(tokens, lines[line + 1], Dimension.Current) is not { Count: > 0 } amperes
                || (amperes.Count != volts.Count && amperes.Count != 1) || !IsOfOnePort(tokens, lines, line, out bool isNamed))
            {
                continue;
            }

            result ??= [];
            int colon = tokens.FindIndex(lines[line].Start.Value, static token => token.Kind is TokenKind.Colon or TokenKind.Bar);
            result.AddRange(tokens[copied..lines[line].Start.Value]);
            result.AddRange(isNamed ? tokens[lines[line].Start.Value..colon].FindAll(static token => token.Term != Term.Heading) : []);
            result.AddRange(isNamed ? [tokens[colon] with { Kind = TokenKind.Colon }] : []);
            for (int i = 0; i < volts.Count; i++)
            {
                result.Add(tokens[volts[i]] with { SpaceBefore = 1, IsMoved = i > 0 });
                result.Add(tokens[amperes[Math.Min(i, amperes.Count - 1)]] with { SpaceBefore = 1 });
                result.Add(new Token { Kind = TokenKind.Comma, Start = result[^1].End, End = result[^1].End, SpaceBefore = 0 });
            }

            // Both are one line then.
            copied = lines[line + 1].End.Value;
            line++;
        }

        result?.AddRange(tokens[copied..]);
        return result ?? tokens;
    }

    // Where the values of a line stand that are all of one quantity, with words of headings in front; empty for any other line.
    private static List<int> Values(List<Token> tokens, Range line, Dimension dimension)
    {
        int at = line.Start.Value;
        while (at < line.End.Value && at - line.Start.Value < MaxInHead
            && (tokens[at].Term is Term.Heading or Term.Output or Term.PortName or Term.Usb or Term.Port or Term.ConnectorType || tokens[at].Kind is TokenKind.Dash or TokenKind.Bullet))
        {
            at++;
        }

        List<int> values = [];
        if (at == line.Start.Value || at == line.End.Value || tokens[at].Kind is not (TokenKind.Colon or TokenKind.Bar)
            || !tokens[line.Start.Value..at].Exists(static token => token.Term is Term.Heading or Term.Output))
        {
            return values;
        }

        for (int i = at + 1; i < line.End.Value; i++)
        {
            bool isValue = (i - at) % 2 == 1;
            if (values.Count == MaxValues || (isValue ? !tokens[i].Is(dimension) : tokens[i].Kind is not (TokenKind.Slash or TokenKind.Comma or TokenKind.Bullet or TokenKind.Bar)))
            {
                return [];
            }

            if (isValue)
            {
                values.Add(i);
            }
        }

        return values;
    }

    // The same port is named in both lines, or in neither and then on the line above.
    private static bool IsOfOnePort(List<Token> tokens, List<Range> lines, int line, out bool isNamed)
    {
        string[] first = Ports(tokens, lines[line]), second = Ports(tokens, lines[line + 1]);
        isNamed = first.Length == 1;
        bool isSame = isNamed && second.Length == 1 && PortNames.Same(first[0], second[0]);
        bool isBelow = first.Length + second.Length == 0 && line > 0 && IsName(tokens[lines[line - 1]])
            && !tokens[lines[line]].Concat(tokens[lines[line + 1]]).Any(static token => token.Term == Term.Output);
        return isSame || isBelow;
    }

    private static string[] Ports(List<Token> tokens, Range line) => [.. tokens[line].Where(static token => token.Term == Term.PortName).Select(static token => token.Word)];

    private static bool IsName(List<Token> line)
    {
        List<Token> words = line is [.., { Kind: TokenKind.Colon }] ? line[..^1] : line;
        List<Token> name = words.FindAll(static token => token.Term != Term.Output);
        return name.Count is > 0 and <= MaxInHead && PortGrammar.IsPort(name);
    }
}
