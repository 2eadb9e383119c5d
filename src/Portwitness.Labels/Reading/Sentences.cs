namespace Portwitness.Labels;

/// <summary>
/// Sentences about ports and powers: "When C1 and C2 are both in use, C1 gives 45 W and C2 20 W". Where every word of a sentence is known,
/// and none of them but those that a <see cref="SentenceSlots"/> counts can change a meaning, it is written as a plain line would be:
/// "C1+C2: 45W+20W". Any other sentence stays as it is.
/// </summary>
internal static class Sentences
{
    /// <summary>The tokens, with sentences as plain lines.</summary>
    public static List<Token> Straighten(List<Token> tokens)
    {
        List<Token>? result = null;
        bool isUnderHeading = false;
        int start = 0;
        for (int i = 0; i <= tokens.Count; i++)
        {
            if (i < tokens.Count && tokens[i].Kind != TokenKind.Break)
            {
                continue;
            }

            if (MayHaveSentence(tokens, start, i) && Line(tokens, start, i, isUnderHeading) is { } line)
            {
                result ??= tokens[..start];
                result.AddRange(line);
            }
            else
            {
                result?.AddRange(tokens.GetRange(start, i - start));
            }

            if (i < tokens.Count)
            {
                result?.Add(tokens[i]);
            }

            isUnderHeading = i > start ? tokens[i - 1].Kind == TokenKind.Colon : isUnderHeading;
            start = i + 1;
        }

        return result ?? tokens;
    }

    private static bool MayHaveSentence(List<Token> tokens, int start, int end)
    {
        (bool hasValue, bool hasWord) = (false, false);
        for (int i = start; i < end; i++)
        {
            hasValue |= tokens[i].Is(Dimension.Power) || tokens[i].Is(Dimension.Voltage);
            hasWord |= tokens[i].Counts > 0 || tokens[i].Term is Term.Use or Term.Gives or Term.Alone or Term.Together
                or Term.Shared or Term.Many
                or Term.Via or Term.Article;
        }

        return hasValue && hasWord;
    }

    // The line with each of its sentences that can be written plainly on a line of its own; null when none can.
    private static List<Token>? Line(List<Token> tokens, int start, int end, bool isUnderHeading)
    {
        List<Token> line = [];
        bool isAny = false;
        int first = start;
        for (int i = start; i <= end; i++)
        {
            bool isEnd = i == end || (tokens[i].Kind == TokenKind.Semicolon)
                || (tokens[i].Kind == TokenKind.Stop && (i + 1 == end
                || tokens[i + 1] is { Kind: TokenKind.Word, SpaceBefore: > 0 }));
            if (!isEnd)
            {
                continue;
            }

            List<Token>? plain = SentenceSlots.Read(tokens, first, i)?.Plain(mayBeTotal: !isUnderHeading
                || first > start);
            if (plain is null && tokens[first..i].Exists(static token => token.Kind == TokenKind.Quantity
                || token.Term is Term.PortName or Term.Usb))
            {
                // What is said of ports there may be said of the others, too.
                return null;
            }

            if (plain is null)
            {
                line.AddRange(tokens.GetRange(first, Math.Min(end, i + 1) - first));
            }
            else
            {
                bool isBehind = line.Count > 0 && line[^1].Kind != TokenKind.Break;
                line.AddRange(isBehind ? [Sign(TokenKind.Break, plain[0].Start), .. plain] : plain);
                if (i + 1 < end)
                {
                    line.Add(Sign(TokenKind.Break, plain[^1].End));
                }
            }

            isAny |= plain is not null;
            first = i + 1;
        }

        return isAny ? InOrder(line) : null;
    }

    // What stands in front of the token before it is elsewhere in the text.
    private static List<Token> InOrder(List<Token> line)
    {
        for (int i = 1; i < line.Count; i++)
        {
            if (line[i].Start < line[i - 1].End)
            {
                line[i] = line[i] with { IsMoved = true, SpaceBefore = 1 };
            }
        }

        return line;
    }

    /// <summary>A sign that is not printed, but said.</summary>
    public static Token Sign(TokenKind kind, int at) => new() { Kind = kind, Start = at, End = at, SpaceBefore = 0 };
}
