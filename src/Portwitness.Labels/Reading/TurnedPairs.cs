namespace Portwitness.Labels;

/// <summary>
/// Modes that are printed another way round: "3A/5V, 2A/9V" and "5V (3A), 9V (2A)". They are written as volts and amperes, so that no ampere is
/// taken for that of the volts in front of it.
/// </summary>
internal static class TurnedPairs
{
    // Signs and words between the volts and the amperes of a mode.
    private const int MaxBetween = 8;

    /// <summary>Writes such pairs as modes.</summary>
    public static List<Token> Apply(List<Token> tokens)
    {
        List<Token>? result = null;
        int copied = 0;
        for (int i = 0; i + 2 < tokens.Count; i++)
        {
            if (tokens[i].Is(Dimension.Voltage) && i + 3 < tokens.Count && tokens[i + 1].Kind == TokenKind.Open && tokens[i + 2].Is(Dimension.Current)
                && tokens[i + 3].Kind == TokenKind.Close)
            {
                result ??= [];
                result.AddRange(tokens[copied..(i + 1)]);
                result.Add(tokens[i + 2]);
                copied = i + 4;
                i += 3;
                continue;
            }

            int end = EndOfTurned(tokens, i);
            if (end == i)
            {
                continue;
            }

            result ??= [];
            result.AddRange(tokens[copied..i]);
            for (int at = i; at < end; at++)
            {
                if (IsTurned(tokens, at))
                {
                    result.Add(tokens[at + 2] with { IsMoved = true, SpaceBefore = 1 });
                    result.Add(tokens[at] with { IsMoved = true, SpaceBefore = 1 });
                    at += 2;
                }
                else
                {
                    result.Add(tokens[at]);
                }
            }

            copied = end;
            i = end - 1;
        }

        result?.AddRange(tokens[copied..]);
        return result ?? tokens;
    }

    // Where a list of turned pairs ends that begins there, and begins with no volts in front; the same place for none.
    private static int EndOfTurned(List<Token> tokens, int start)
    {
        if (!IsTurned(tokens, start) || IsBehindVolts(tokens, start))
        {
            return start;
        }

        int end = start + 3;
        while (end < tokens.Count)
        {
            int next = tokens[end].Kind is TokenKind.Comma or TokenKind.Semicolon or TokenKind.Bullet ? end + 1 : end;
            if (!IsTurned(tokens, next) || (next == end && tokens[next].SpaceBefore == 0))
            {
                break;
            }

            end = next + 3;
        }

        return end;
    }

    // "5 V max. 3 A / 9 V": the amperes are those of the volts in front.
    private static bool IsBehindVolts(List<Token> tokens, int start)
    {
        for (int i = start - 1; i >= Math.Max(0, start - MaxBetween) && tokens[i].Kind != TokenKind.Break; i--)
        {
            if (tokens[i].Kind is TokenKind.Quantity or TokenKind.Number)
            {
                return !tokens[i].Is(Dimension.Current) && !tokens[i].Is(Dimension.Power);
            }
        }

        return false;
    }

    // Amperes behind the volts are theirs, unless volts of their own follow.
    private static bool IsTurned(List<Token> tokens, int at) => IsPair(tokens, at)
        && (at + 3 == tokens.Count || !tokens[at + 3].Is(Dimension.Current) || IsPair(tokens, at + 3));

    private static bool IsPair(List<Token> tokens, int at) => at + 2 < tokens.Count && tokens[at].Is(Dimension.Current)
        && tokens[at + 1].Kind == TokenKind.Slash && tokens[at + 2].Is(Dimension.Voltage);
}
