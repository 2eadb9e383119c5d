using System.Globalization;

namespace Portwitness.Labels;

/// <summary>
/// Units that stand in a head: "Output voltage (V): 5.0 / 9.0", and "Voltage (V) | Current (A)" over "5.0 | 3.0". The bare numbers behind
/// or below the head have its unit.
/// </summary>
internal static class HeadUnits
{
    private const int MaxRows = 40;

    // "(V)".
    private const int UnitLength = 3;

    // What is longer is no value.
    private const int LongestNumber = 7;

    /// <summary>Gives the numbers their units.</summary>
    public static List<Token> Apply(List<Token> tokens, FoldedText text)
    {
        if (!tokens.Exists(static token => token.Kind == TokenKind.Open))
        {
            return tokens;
        }

        List<Range> lines = TableLines.Lines(tokens);
        for (int line = lines.Count - 1; line >= 0; line--)
        {
            List<Range> cells = TableLines.Cells(tokens, lines[line]);
            if (cells.Count > 1 && cells.TrueForAll(cell => UnitEnd(tokens, cell.Start.Value, cell.End.Value, text, out _) == cell.End.Value))
            {
                OverColumns(tokens, text, lines, line, cells);
            }
            else
            {
                Behind(tokens, text, lines[line]);
            }
        }

        return tokens;
    }

    private static void OverColumns(List<Token> tokens, FoldedText text, List<Range> lines, int head, List<Range> columns)
    {
        for (int line = head + 1; line < lines.Count && line - head <= MaxRows; line++)
        {
            List<Range> cells = TableLines.Cells(tokens, lines[line]);
            bool areBare = cells.Count == columns.Count && cells.TrueForAll(cell => IsBare(tokens, cell.Start.Value, cell.End.Value));
            if (!areBare && !TableLines.IsRule(tokens, lines[line]))
            {
                return;
            }

            for (int i = 0; areBare && i < cells.Count; i++)
            {
                _ = UnitEnd(tokens, columns[i].Start.Value, columns[i].End.Value, text, out Dimension dimension);
                Convert(tokens, text, cells[i].Start.Value, cells[i].End.Value, dimension);
            }
        }
    }

    private static void Behind(List<Token> tokens, FoldedText text, Range line)
    {
        int end = UnitEnd(tokens, line.Start.Value, line.End.Value, text, out Dimension dimension);
        int values = end < line.End.Value && end > 0 && tokens[end].Kind is TokenKind.Colon or TokenKind.Bar ? end + 1 : end;
        if (end > 0 && values > end && IsBare(tokens, values, line.End.Value))
        {
            Convert(tokens, text, values, line.End.Value, dimension);

            // The head is one word with its unit.
            tokens[end - UnitLength - 1] = tokens[end - UnitLength - 1] with { End = tokens[end - 1].End };
            tokens.RemoveRange(end - UnitLength, UnitLength);
        }
    }

    // Where "(V)" ends behind words of a head; 0 when the words are others.
    private static int UnitEnd(List<Token> tokens, int start, int end, FoldedText text, out Dimension dimension)
    {
        dimension = Dimension.None;
        int at = start;
        while (at < end && tokens[at].Term is Term.Output or Term.Input or Term.Heading or Term.Maximum or Term.MaximumOutput or Term.Efficiency
            or Term.LowLoad or Term.NoLoad or Term.Conversion)
        {
            at++;
        }

        if (at == start || at + 3 > end || tokens[at].Kind != TokenKind.Open || tokens[at + 2].Kind != TokenKind.Close)
        {
            return 0;
        }

        dimension = text.Printed.AsSpan(tokens[at + 1].Start, tokens[at + 1].End - tokens[at + 1].Start) switch
        {
            "V" or "Volt" => Dimension.Voltage,
            "A" or "Ampere" => Dimension.Current,
            "W" or "Watt" => Dimension.Power,
            "Hz" => Dimension.Frequency,
            "%" => Dimension.Ratio,
            _ => Dimension.None,
        };
        return dimension == Dimension.None ? 0 : at + 3;
    }

    private static bool IsBare(List<Token> tokens, int start, int end)
    {
        bool hasNumber = false;
        for (int i = start; i < end; i++)
        {
            bool isNumber = tokens[i].Kind is TokenKind.Number or TokenKind.Other;
            hasNumber |= isNumber;
            if (!isNumber && tokens[i].Kind is not (TokenKind.Slash or TokenKind.Comma or TokenKind.Semicolon or TokenKind.Bar or TokenKind.Dash))
            {
                return false;
            }
        }

        return hasNumber;
    }

    private static void Convert(List<Token> tokens, FoldedText text, int start, int end, Dimension dimension)
    {
        for (int i = start; i < end; i++)
        {
            ReadOnlySpan<char> printed = text.Printed.AsSpan(tokens[i].Start, tokens[i].End - tokens[i].Start);
            bool isNumber = tokens[i].Kind is TokenKind.Number or TokenKind.Other && printed.Length <= LongestNumber
                && decimal.TryParse(printed.ToString().Replace(',', '.'), NumberStyles.AllowDecimalPoint, CultureInfo.InvariantCulture, out _);
            if (isNumber)
            {
                decimal value = decimal.Parse(printed.ToString().Replace(',', '.'), NumberStyles.AllowDecimalPoint, CultureInfo.InvariantCulture);
                int decimals = printed.IndexOfAny('.', ',') is >= 0 and var point ? printed.Length - point - 1 : 0;
                int scale = dimension == Dimension.Frequency ? 1 : 1000;
                int step = decimals switch { 0 => scale, 1 => scale / 10, 2 => scale / 100, _ => 1 };
                tokens[i] = tokens[i] with
                {
                    Kind = TokenKind.Quantity,
                    Dimension = dimension,
                    Value = (int)(value * scale),
                    Step = Math.Max(1, step),
                };
            }
        }
    }
}
