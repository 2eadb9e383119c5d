namespace Portwitness.Labels;

/// <summary>The cells of a line: set apart by bars, or by more than one space.</summary>
internal static class TableLines
{
    /// <summary>The lines of the tokens, without their breaks.</summary>
    public static List<Range> Lines(List<Token> tokens)
    {
        List<Range> lines = [];
        int start = 0;
        for (int i = 0; i <= tokens.Count; i++)
        {
            if (i == tokens.Count || tokens[i].Kind == TokenKind.Break)
            {
                lines.Add(start..i);
                start = i + 1;
            }
        }

        return lines;
    }

    /// <summary>The cells; an empty one between bars has no tokens. A line of strokes under a head has none at all.</summary>
    public static List<Range> Cells(List<Token> tokens, Range line)
    {
        (int start, int end) = (line.Start.Value, line.End.Value);
        bool hasBars = false;
        bool isRule = end > start;
        for (int i = start; i < end; i++)
        {
            hasBars |= tokens[i].Kind == TokenKind.Bar;
            isRule &= tokens[i].Kind is TokenKind.Bar or TokenKind.Direct or TokenKind.Dash or TokenKind.Plus or TokenKind.Equals
                or TokenKind.Colon or TokenKind.Bullet;
        }

        List<Range> cells = [];
        if (isRule)
        {
            return cells;
        }

        int cell = start;
        for (int i = start; i <= end; i++)
        {
            bool isEdge = i == end || (hasBars ? tokens[i].Kind == TokenKind.Bar : i > start && tokens[i].SpaceBefore > 1);
            if (isEdge)
            {
                bool isOuter = hasBars && i == cell && (i == start || i == end);
                if (!isOuter)
                {
                    cells.Add(cell..i);
                }

                cell = hasBars ? i + 1 : i;
            }
        }

        return cells;
    }

    /// <summary>Whether a line is a stroke of a table's frame.</summary>
    public static bool IsRule(List<Token> tokens, Range line) =>
        line.End.Value - line.Start.Value > 0 && Cells(tokens, line).Count == 0;
}
