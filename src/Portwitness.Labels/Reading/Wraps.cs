namespace Portwitness.Labels;

/// <summary>
/// Joins a rating that goes on in the next line. A line is joined to the next only where its end is no end of a rating, or the
/// next one's beginning no beginning.
/// </summary>
internal static class Wraps
{
    // Tokens that a parenthesis over two lines has on each of them.
    private const int MaxInParenthesis = 6;

    public static List<Token> Join(List<Token> tokens, FoldedText text)
    {
        List<Token>? joined = null;
        int unclosed = -1;
        bool hasPlus = false;
        for (int i = 0; i < tokens.Count; i++)
        {
            unclosed = tokens[i].Kind switch { TokenKind.Open => i, TokenKind.Close => -1, _ => unclosed };
            bool isWrap = tokens[i].Kind == TokenKind.Break && i > 0 && i + 1 < tokens.Count && Joins(tokens, i, unclosed, hasPlus);
            bool isEnd = tokens[i].Kind == TokenKind.Break && !isWrap;
            unclosed = isEnd ? -1 : unclosed;
            hasPlus = !isEnd && (hasPlus || tokens[i].Kind == TokenKind.Plus);
            if (isWrap)
            {
                joined ??= tokens[..i];
                Token next = tokens[i + 1];
                text.Repairs.Add(new Repair(
                    RepairKind.Wrap, tokens[i - 1].Start, next.End,
                    $"{Printed(text, tokens[i - 1])} {Printed(text, next)}"));
                text.Together.Add(tokens[i - 1].Start..next.End);
                tokens[i + 1] = next with { IsMoved = true, SpaceBefore = 1 };
            }
            else
            {
                joined?.Add(tokens[i]);
            }
        }

        return joined ?? tokens;
    }

    private static string Printed(FoldedText text, Token token) => text.Printed[token.Start..token.End];

    private static bool Joins(List<Token> tokens, int index, int unclosed, bool hasPlus)
    {
        Token? before = At(tokens, index - 2);
        Token last = tokens[index - 1];
        Token next = tokens[index + 1];
        Token? behind = At(tokens, index + 2);
        return EndsWithinMode(before, last, next, behind) || EndsWithinRange(before, last, next)
            || EndsWithinMains(last, next, behind) || IsSplit(before, last, next, behind, hasPlus)
            || (unclosed >= 0 && index - unclosed <= MaxInParenthesis && ClosesSoon(tokens, index + 1))
            || (last.Is(Dimension.Power) && next.Term == Term.Maximum && behind is null or { Kind: TokenKind.Break });
    }

    private static Token? At(List<Token> tokens, int index) => index >= 0 && index < tokens.Count ? tokens[index] : null;

    // "5V⎓ / 3A", "5V / ⎓3A", "5V / 3A"; but not the voltages of a table's head over a row of currents.
    private static bool EndsWithinMode(Token? before, Token last, Token next, Token? behind) =>
        last.Kind is TokenKind.Direct or TokenKind.Equals or TokenKind.At
            ? before?.Is(Dimension.Voltage) == true && next.Is(Dimension.Current)
            : last.Is(Dimension.Voltage) && before?.Is(Dimension.Voltage) != true
                && (next.Is(Dimension.Current)
                    ? behind?.Is(Dimension.Current) != true
                    : next.Kind is TokenKind.Direct or TokenKind.Equals && behind?.Is(Dimension.Current) == true);

    private static bool EndsWithinRange(Token? before, Token last, Token next) =>
        (last.Kind is TokenKind.Dash or TokenKind.Tilde || last.Term == Term.To)
        && (before?.Kind == TokenKind.Number || before?.Is(Dimension.Voltage) == true) && next.Is(Dimension.Voltage);

    // "100-240V~ / 50/60Hz", "50/60Hz / 1.5A".
    private static bool EndsWithinMains(Token last, Token next, Token? behind) =>
        (last.Kind is TokenKind.Tilde or TokenKind.Alternating
            && (next.Is(Dimension.Frequency) || next.Is(Dimension.Current)
                || (next.Kind == TokenKind.Number && behind?.Kind is TokenKind.Slash or TokenKind.Dash)))
        || (last.Is(Dimension.Frequency) && next.Is(Dimension.Current));

    // "C1+ / C2: 45W+ / 20W"; a plus in front only goes on where there was one, since "+12V" is a voltage.
    private static bool IsSplit(Token? before, Token last, Token next, Token? behind, bool hasPlus) =>
        (last.Kind == TokenKind.Plus && before is not null && IsShare(before) && IsShare(next))
        || (next.Kind == TokenKind.Plus && hasPlus && behind is not null && IsShare(last) && IsShare(behind));

    private static bool IsShare(Token token) => token.Term is Term.PortName or Term.Usb or Term.Wireless or Term.ConnectorType
        || (token.Kind == TokenKind.Quantity && token.Dimension is Dimension.Power or Dimension.Current or Dimension.Voltage);

    private static bool ClosesSoon(List<Token> tokens, int start)
    {
        int end = Math.Min(tokens.Count, start + MaxInParenthesis);
        for (int i = start; i < end && tokens[i].Kind is not (TokenKind.Open or TokenKind.Break); i++)
        {
            if (tokens[i].Kind == TokenKind.Close)
            {
                return true;
            }
        }

        return false;
    }
}
