namespace Portwitness.Labels;

/// <summary>
/// Reads a label's text: characters are folded (<see cref="FoldedText"/>), cut into tokens (<see cref="Tokenizer"/>), put in the order of their
/// meaning (<see cref="Wraps"/>, <see cref="Tables"/>), joined to
/// pieces (<see cref="LabelGrammar"/>), and given to the statement they belong to (<see cref="StatementReader"/>). What could mean
/// two things is not read.
/// </summary>
public static class LabelReader
{
    /// <summary>The longest text that is read, in UTF-16 units. A label has hundreds; this only bounds what a hostile text costs.</summary>
    public const int MaximumLength = 1 << 20;

    /// <summary>
    /// Reads any text; what cannot be read is kept as <see cref="Label.Unread"/>. Never throws for its content. Safe between
    /// threads; time and memory grow in step with the length.
    /// </summary>
    /// <exception cref="ArgumentException">The text is longer than <see cref="MaximumLength"/>: check before calling.</exception>
    public static Label Read(string text) => Read(text, []);

    /// <summary>
    /// Reads a text in which a person has settled some words. Places stay those of the text, and each correction is one of
    /// <see cref="Label.Repairs"/>. A correction whose words are not printed exactly once in its line is handed back in
    /// <paramref name="unused"/>, and nothing is done for it.
    /// </summary>
    /// <exception cref="ArgumentException">The text is longer than <see cref="MaximumLength"/>: check before calling.</exception>
    public static Label Read(string text, IReadOnlyList<LabelCorrection> corrections, out IReadOnlyList<LabelCorrection> unused)
    {
        List<Repair> found = [];
        List<LabelCorrection> rest = [];
        foreach (LabelCorrection correction in corrections)
        {
            if (correction.Find(text) is { } repair && !found.Exists(other => other.Start < repair.End && repair.Start < other.End))
            {
                found.Add(repair);
            }
            else
            {
                rest.Add(correction);
            }
        }

        unused = rest;
        return Read(text, [.. found.OrderBy(static repair => repair.Start)]);
    }

    private static Label Read(string text, ReadOnlySpan<Repair> corrections)
    {
        ArgumentNullException.ThrowIfNull(text);
        if (text.Length > MaximumLength)
        {
            throw new ArgumentException($"A label's text has at most {MaximumLength} characters, this one has {text.Length}.", nameof(text));
        }

        FoldedText folded = FoldedText.Of(text, corrections);
        List<Token> tokens = Tables.Unfold(Wraps.Join(Punctuation.Repair(Tokenizer.Read(folded), folded), folded), folded);
        List<Piece> pieces = LabelGrammar.Read(tokens);
        LabelBuilder builder = new(folded, tokens);
        new StatementReader(tokens, pieces, builder).Read();
        return builder.Build(pieces);
    }
}
