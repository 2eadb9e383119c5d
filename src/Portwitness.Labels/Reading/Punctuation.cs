namespace Portwitness.Labels;

/// <summary>
/// A semicolon behind a port's name is a colon, and a colon between two ratings is a comma: they are taken for one another, and
/// neither could stand there. Lenticular brackets around the beginning of a line stand for a colon behind it, and so do those around a
/// condition on a line of its own.
/// </summary>
internal static class Punctuation
{
    // Lenticular brackets, and the full-width ones of other kinds.
    private const string HeadingOpen = "\u3010\u3014\uFF3B[";
    private const int MaxInHeading = 12;
    private const int LeastPoints = 4;

    private static readonly string[] NoteWords = ["注", "注记", "note", "anm", "anmerkung", "nota"];

    public static List<Token> Repair(List<Token> tokens, FoldedText text)
    {
        if (tokens is [{ Kind: TokenKind.Dash } first, { Kind: TokenKind.Word, SpaceBefore: > 0 }, ..])
        {
            tokens[0] = first with { Kind = TokenKind.Bullet };
        }

        for (int i = 1; i + 1 < tokens.Count; i++)
        {
            Token sign = tokens[i];
            TokenKind kind = sign.Kind switch
            {
                TokenKind.Semicolon when tokens[i - 1].Term == Term.PortName && tokens[i + 1].Is(Dimension.Voltage) => TokenKind.Colon,
                TokenKind.Semicolon when sign.SpaceBefore > 0 && IsCellOfHeading(tokens, i) => TokenKind.Colon,
                TokenKind.Colon when tokens[i - 1].Is(Dimension.Current) && tokens[i + 1].Is(Dimension.Voltage) => TokenKind.Comma,
                // "- C1: 65W": an item of a list.
                TokenKind.Dash when tokens[i - 1].Kind == TokenKind.Break && tokens[i + 1] is { Kind: TokenKind.Word, SpaceBefore: > 0 } => TokenKind.Bullet,
                _ => sign.Kind,
            };
            if (kind == TokenKind.Bullet && sign.Kind == TokenKind.Dash)
            {
                tokens[i] = sign with { Kind = kind };
            }
            else if (kind != sign.Kind)
            {
                tokens[i] = sign with { Kind = kind };
                text.Repairs.Add(new Repair(RepairKind.Sign, sign.Start, sign.End, kind == TokenKind.Colon ? ":" : ","));
            }
        }

        return Headings(Notes(Leaders(tokens)), text);
    }

    // "Output voltage ; 5.0 V": the columns of a sheet.
    private static bool IsCellOfHeading(List<Token> tokens, int sign)
    {
        int first = sign;
        while (first > 0 && tokens[first - 1].Kind != TokenKind.Break)
        {
            first--;
        }

        return first < sign && tokens[sign + 1].Kind is TokenKind.Quantity or TokenKind.Number
            && tokens[first..sign].TrueForAll(static token => token.Kind == TokenKind.Word && token.Term is not (Term.PortName or Term.Maximum));
    }

    // "Output.....5V": the points lead to the value.
    private static List<Token> Leaders(List<Token> tokens)
    {
        for (int i = 1; i + 1 < tokens.Count; i++)
        {
            int end = i;
            while (end < tokens.Count && tokens[end].Kind == TokenKind.Stop)
            {
                end++;
            }

            // Points without blanks are one sign, which between two values is a range.
            bool isRow = tokens[i] is { Kind: TokenKind.Stop, Term: Term.To } && tokens[i + 1].Kind is TokenKind.Quantity or TokenKind.Number;
            if ((isRow || end - i >= LeastPoints) && tokens[i - 1].Kind is TokenKind.Word or TokenKind.Close)
            {
                tokens[i] = tokens[i] with { Kind = TokenKind.Colon, End = tokens[end - 1].End };
                tokens.RemoveRange(i + 1, end - i - 1);
            }
        }

        return tokens;
    }

    // "(note 1)" behind a value, "note 1)" in front of a line.
    private static List<Token> Notes(List<Token> tokens)
    {
        for (int i = 0; i + 2 < tokens.Count; i++)
        {
            if (tokens[i].Kind == TokenKind.Open && tokens[i + 2].Kind == TokenKind.Close && tokens[i + 1].Word is [>= 'a' and <= 'e'])
            {
                // "C1 (a): 65W", and "(a) when used alone".
                tokens[i] = tokens[i] with { Kind = TokenKind.Note, End = tokens[i + 2].End };
                tokens.RemoveRange(i + 1, 2);
                continue;
            }

            int word = tokens[i].Kind == TokenKind.Open ? i + 1 : i;
            bool isAtStart = i == 0 || tokens[i - 1].Kind == TokenKind.Break;
            bool isNote = (word > i || isAtStart) && word + 2 < tokens.Count && Array.Exists(NoteWords, one => one.Equals(tokens[word].Word, StringComparison.OrdinalIgnoreCase))
                && PortGrammar.IsCount(tokens[word + 1]) && tokens[word + 2].Kind == TokenKind.Close;
            if (isNote)
            {
                tokens[i] = tokens[i] with { Kind = TokenKind.Note, Term = Term.None, Word = "", End = tokens[word + 2].End };
                tokens.RemoveRange(i + 1, word + 2 - i);
            }
        }

        return tokens;
    }

    // "【出力】5V⎓3A": the brackets stand for a colon behind the heading.
    private static List<Token> Headings(List<Token> tokens, FoldedText text)
    {
        for (int i = 0; i < tokens.Count; i++)
        {
            bool isAtStart = i == 0 || tokens[i - 1].Kind == TokenKind.Break;
            bool isOpen = tokens[i].Kind == TokenKind.Open && (isAtStart ? HeadingOpen.Contains(text.Printed[tokens[i].Start], StringComparison.Ordinal)
                : text.Printed[tokens[i].Start] == HeadingOpen[0]);
            int close = isOpen ? tokens.FindIndex(i + 1, Math.Min(MaxInHeading, tokens.Count - i - 1), static token => token.Kind is TokenKind.Close or TokenKind.Break) : -1;
            bool isWhole = close > i + 1 && (close + 1 == tokens.Count || tokens[close + 1].Kind == TokenKind.Break);
            bool isHeading = isWhole ? IsCondition(tokens[(i + 1)..close]) : text.Printed[tokens[Math.Max(i, 0)].Start] == HeadingOpen[0];
            if (close > i + 1 && isHeading && tokens[close].Kind == TokenKind.Close
                && tokens.FindIndex(i + 1, close - i - 1, static token => token.Kind == TokenKind.Plus) < 0 && !PortGrammar.IsPort(tokens[(i + 1)..close]))
            {
                tokens[close] = tokens[close] with { Kind = TokenKind.Colon };
                if (isAtStart)
                {
                    tokens.RemoveAt(i);
                }
                else
                {
                    // "【A】…【B】…": another line.
                    tokens[i] = tokens[i] with { Kind = TokenKind.Break, End = tokens[i].Start };
                }
            }
        }

        return tokens;
    }

    // "[2 ports in use]" on a line of its own.
    private static bool IsCondition(List<Token> words) => words.Exists(word => word.Counts > 0
        || word.Term is Term.Alone or Term.Together or Term.Many or Term.Output or Term.Input
        || (PortGrammar.IsCount(word) && words.Exists(other => other.Term == Term.Port)));
}
