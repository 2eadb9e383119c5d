namespace Portwitness.Labels;

/// <summary>Joins neighbouring words that are one phrase of the <see cref="Vocabulary"/>, the longest first.</summary>
internal static class Phrases
{
    public static List<Token> Join(List<Token> tokens)
    {
        int kept = 0;
        for (int i = 0; i < tokens.Count;)
        {
            (Token token, int length) = PhraseAt(tokens, i);
            tokens[kept++] = token;
            i += length;
        }

        tokens.RemoveRange(kept, tokens.Count - kept);
        return tokens;
    }

    private static (Token Token, int Length) PhraseAt(List<Token> tokens, int start)
    {
        Token first = tokens[start];
        if (first.Word.Length == 0 || !Vocabulary.StartsPhrase(first.Word))
        {
            return (first, 1);
        }

        (Token Token, int Length) longest = (first, 1);
        string phrase = first.Word;
        int words = 1;
        for (int length = 2; words < Vocabulary.LongestPhrase && start + length <= tokens.Count; length++)
        {
            Token last = tokens[start + length - 1];
            if (last is { Kind: TokenKind.Stop or TokenKind.Dash, SpaceBefore: 0 })
            {
                // "Art.-Nr."
                continue;
            }

            if (last.Word.Length == 0 || last.SpaceBefore > 1)
            {
                break;
            }

            words++;
            phrase = string.Concat(phrase, " ", last.Word);
            Term term = Vocabulary.Find(phrase);
            if (term != Term.None)
            {
                longest = (first with { Kind = Tokenizer.KindOf(term), Word = phrase, Term = term, End = last.End }, length);
            }
        }

        return longest;
    }
}
