namespace Portwitness.Labels;

/// <summary>
/// "USB-C" over "Input: 5 V 3 A" and "Output: 9 V 2 A": the name of the port is said of both lines, and is written behind each direction. An output
/// alone is none of a section, and neither is one in watts: it may be of something else.
/// </summary>
internal static class PortSections
{
    private const int MaxInName = 8;
    private const int MaxLines = 6;

    /// <summary>Writes the ports behind the directions below them.</summary>
    public static List<Token> Apply(List<Token> tokens)
    {
        if (!tokens.Exists(static token => token.Term == Term.Input) || !tokens.Exists(static token => token.Kind == TokenKind.Break))
        {
            return tokens;
        }

        List<Range> lines = TableLines.Lines(tokens);
        List<Token>? result = null;
        int copied = 0;
        for (int line = 0; line + 1 < lines.Count; line++)
        {
            // Below several names nobody knows whose the lines are.
            Range? found = line > 0 && NameOf(tokens, lines[line - 1]) is not null ? null : NameOf(tokens, lines[line]);
            if ((found is null && !NamesPort(tokens, lines[line])) || Below(tokens, lines, line + 1) is not (> 0 and var count))
            {
                continue;
            }

            result ??= [];
            result.AddRange(tokens[copied..lines[line].Start.Value]);
            if (found is not { } name)
            {
                // "Blorp USB-C" says something of both lines that nobody knows.
                copied = lines[line].Start.Value;
                for (int i = line + 1; i <= line + count; i++)
                {
                    int start = lines[i].Start.Value;
                    result.AddRange(tokens[copied..start]);
                    result.Add(new Token { Kind = TokenKind.Unclear, Start = tokens[start].Start, End = tokens[start].Start, SpaceBefore = 0 });
                    copied = start;
                }

                line += count;
                continue;
            }

            // What is said of the port itself is in the lines below; its own line stays, with nothing in it.
            copied = lines[line].End.Value;
            for (int i = line + 1; i <= line + count; i++)
            {
                int behind = lines[i].Start.Value + Head(tokens, lines[i]);
                result.AddRange(tokens[copied..behind]);
                result.AddRange(tokens[name].Select(static token => token with { IsMoved = true, SpaceBefore = 1 }));
                copied = behind;
            }

            line += count;
            if (line + 1 < lines.Count && IsSpoilt(tokens, lines[line + 1]))
            {
                // "Blorp output: 9 V 2 A" is of the port, too, and not read.
                int start = lines[line + 1].Start.Value;
                result.AddRange(tokens[copied..start]);
                result.AddRange(tokens[name].Select(static token => token with { IsMoved = true, SpaceBefore = 1 }));
                copied = start;
            }
        }

        result?.AddRange(tokens[copied..]);
        return result ?? tokens;
    }

    // The name of one port alone, "USB-C (input and output)", with or without a colon.
    private static Range? NameOf(List<Token> tokens, Range line)
    {
        (int start, int end) = (line.Start.Value, line.End.Value);
        if (start < end && tokens[end - 1].Kind == TokenKind.Colon)
        {
            end--;
        }

        int open = tokens.FindIndex(start, end - start, static token => token.Kind == TokenKind.Open);
        if (open > start && tokens[end - 1].Kind == TokenKind.Close)
        {
            bool isOfBoth = tokens[(open + 1)..(end - 1)].TrueForAll(static token => token.Term is Term.BothWays or Term.Input or Term.Output or Term.And
                || token.Kind == TokenKind.Slash);
            end = isOfBoth ? open : end;
        }

        return end - start is > 0 and <= MaxInName && PortGrammar.IsPort(tokens[start..end]) ? start..end : null;
    }

    // A port's name among other words, and no value.
    private static bool NamesPort(List<Token> tokens, Range line) =>
        tokens.FindIndex(line.Start.Value, line.End.Value - line.Start.Value, static token => token.Term == Term.PortName) >= 0
            && tokens.FindIndex(line.Start.Value, line.End.Value - line.Start.Value, static token => token.Kind == TokenKind.Quantity) < 0;

    // How many lines of directions follow, each with a mode; 0 unless an input is among them.
    private static int Below(List<Token> tokens, List<Range> lines, int first)
    {
        int line = first;
        bool hasInput = false;
        while (line < lines.Count && line - first < MaxLines && Head(tokens, lines[line]) > 0 && HasModesOnly(tokens, lines[line]))
        {
            hasInput |= tokens[lines[line].Start.Value].Term == Term.Input;
            line++;
        }

        return hasInput ? line - first : 0;
    }

    // A direction behind other words, with modes and no port of its own.
    private static bool IsSpoilt(List<Token> tokens, Range line) => Head(tokens, line) == 0 && HasModesOnly(tokens, line)
        && tokens.FindIndex(line.Start.Value, line.End.Value - line.Start.Value, static token => token.Term is Term.Input or Term.Output) >= 0;

    // How many words say the direction in front of the colon; 0 for any other line.
    private static int Head(List<Token> tokens, Range line)
    {
        int at = line.Start.Value;
        while (at < line.End.Value && tokens[at].Term is Term.Input or Term.Output or Term.Use or Term.At)
        {
            at++;
        }

        int count = at - line.Start.Value;
        return count > 0 && tokens[line.Start.Value].Term is Term.Input or Term.Output && at < line.End.Value && tokens[at].Kind == TokenKind.Colon ? count : 0;
    }

    private static bool HasModesOnly(List<Token> tokens, Range line) =>
        tokens.FindIndex(line.Start.Value, line.End.Value - line.Start.Value, static token => token.Is(Dimension.Current)) >= 0
            && tokens.FindIndex(
                line.Start.Value, line.End.Value - line.Start.Value,
                static token => token.Kind is TokenKind.Alternating || token.Is(Dimension.Frequency) || token.Term is Term.PortName or Term.Usb or Term.Wireless or Term.Cable) < 0;
}
