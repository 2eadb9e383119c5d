namespace Portwitness.Labels;

/// <summary>
/// Reads a label's text: characters are folded (<see cref="FoldedText"/>), cut into tokens (<see cref="Tokenizer"/>), joined to
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
    public static Label Read(string text)
    {
        ArgumentNullException.ThrowIfNull(text);
        if (text.Length > MaximumLength)
        {
            throw new ArgumentException($"A label's text has at most {MaximumLength} characters, this one has {text.Length}.", nameof(text));
        }

        List<Token> tokens = Tokenizer.Read(FoldedText.Of(text));
        List<Piece> pieces = LabelGrammar.Read(tokens);
        LabelBuilder builder = new(text, tokens);
        new StatementReader(tokens, pieces, builder).Read();
        return builder.Build(pieces);
    }
}
