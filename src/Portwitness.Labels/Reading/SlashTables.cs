namespace Portwitness.Labels;

/// <summary>
/// A table whose cells are parted by strokes: "Output voltage / Output current / Output power" over "5.0 V / 3.0 A / 15.0 W". The strokes are read as bars.
/// </summary>
internal static class SlashTables
{
    private const int MaxRows = 16;

    /// <summary>Reads the strokes of such tables as bars.</summary>
    public static List<Token> Apply(List<Token> tokens)
    {
        if (!tokens.Exists(static token => token.Kind == TokenKind.Slash))
        {
            return tokens;
        }

        List<Range> lines = TableLines.Lines(tokens);
        for (int line = 0; line + 1 < lines.Count; line++)
        {
            int columns = Columns(tokens, lines[line], static token => token.Term is Term.Output or Term.Heading or Term.MaximumOutput or Term.Input);
            if (columns < 2 || !IsRow(tokens, lines[line + 1], columns))
            {
                continue;
            }

            Part(tokens, lines[line]);
            for (int row = line + 1; row < lines.Count && row - line <= MaxRows && IsRow(tokens, lines[row], columns); row++)
            {
                Part(tokens, lines[row]);
            }
        }

        return tokens;
    }

    private static bool IsRow(List<Token> tokens, Range line, int columns) =>
        Columns(tokens, line, static token => token.Kind == TokenKind.Quantity) == columns && tokens[line.Start].Is(Dimension.Voltage);

    // How many cells of one token the line has; 0 when it has others.
    private static int Columns(List<Token> tokens, Range line, Func<Token, bool> isCell)
    {
        int length = line.End.Value - line.Start.Value;
        for (int i = 0; i < length; i++)
        {
            Token token = tokens[line.Start.Value + i];
            if (i % 2 == 0 ? !isCell(token) : token.Kind != TokenKind.Slash)
            {
                return 0;
            }
        }

        return length % 2 == 1 ? (length + 1) / 2 : 0;
    }

    private static void Part(List<Token> tokens, Range line)
    {
        for (int i = line.Start.Value + 1; i < line.End.Value; i += 2)
        {
            tokens[i] = tokens[i] with { Kind = TokenKind.Bar };
        }
    }
}
