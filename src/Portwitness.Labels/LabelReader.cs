using Portwitness.Labels.Photos;

namespace Portwitness.Labels;

/// <summary>
/// Reads a label's text: characters are folded (<see cref="FoldedText"/>), cut into tokens (<see cref="Tokenizer"/>), put in the order of their
/// meaning (<see cref="Wraps"/>, <see cref="Tables"/>, <see cref="Sentences"/>), joined to
/// pieces (<see cref="LabelGrammar"/>), and given to the statement they belong to (<see cref="StatementReader"/>). What could mean
/// two things is not read.
/// </summary>
public static class LabelReader
{
    /// <summary>
    /// Reads any text; what cannot be read is kept as <see cref="Label.Unread"/>. Never throws for its content. Safe between
    /// threads; time and memory grow in step with the length.
    /// </summary>
    /// <exception cref="ArgumentException">The text is beyond <see cref="LabelLimits"/>: ask <see cref="LabelLimits.Excess"/> before.</exception>
    public static Label Read(string text) => Read(text, [], out _);

    /// <summary>
    /// Reads a text in which a person has settled some words. Places stay those of the text, and each correction is one of
    /// <see cref="Label.Repairs"/>. A correction whose words are not printed exactly once in its line is handed back in
    /// <paramref name="unused"/>, and nothing is done for it.
    /// </summary>
    /// <exception cref="ArgumentException">The text is beyond <see cref="LabelLimits"/>: ask <see cref="LabelLimits.Excess"/> before.</exception>
    public static Label Read(string text, IReadOnlyList<LabelCorrection> corrections, out IReadOnlyList<LabelCorrection> unused)
    {
        ArgumentNullException.ThrowIfNull(text);
        if (RecognisedText.TryRead(text) is { } photo)
        {
            return Read(photo.Text, corrections, out unused) with { Photo = photo };
        }

        Repair[] found = LabelCorrection.Locate(text, corrections, out unused);
        if (LabelLimits.ExcessBytes(text, corrections) is { } excess)
        {
            throw new ArgumentException(excess, nameof(text));
        }

        List<Range> withoutRating = LabelCorrection.LinesWithoutRating(text, corrections, ref unused);
        FoldedText folded = FoldedText.Of(text, found);
        List<Token> cut = Tokenizer.Read(folded);
        foreach (Range line in withoutRating)
        {
            Silence(cut, line);
        }

        return LabelLimits.ExcessTokens(cut) is { } tooMany ? throw new ArgumentException(tooMany, nameof(text))
            : Read(folded, cut) with { Corrections = [.. corrections] };
    }

    // The line becomes one word that rates nothing.
    private static void Silence(List<Token> tokens, Range line)
    {
        int first = tokens.FindIndex(token => token.Start >= line.Start.Value && token.Kind != TokenKind.Break);
        int last = tokens.FindLastIndex(token => token.End <= line.End.Value && token.Kind != TokenKind.Break);
        if (first >= 0 && last >= first)
        {
            Token word = tokens[first] with { Kind = TokenKind.Word, Term = Term.Nothing, Word = "", Dimension = Dimension.None, End = tokens[last].End };
            tokens.RemoveRange(first, last - first + 1);
            tokens.Insert(first, word);
        }
    }

    /// <summary>Reads a text that is cut into tokens.</summary>
    internal static Label Read(FoldedText folded, List<Token> cut)
    {
        List<Token> joined = Wraps.Join(Punctuation.Repair(ChargingVerbs.Settle(cut), folded), folded);
        List<Token> tokens = Tables.Unfold(PairedLines.Apply(HeadUnits.Apply(SlashTables.Apply(SharedUnits.Apply(TurnedPairs.Apply(joined))), folded)), folded);
        tokens = Sentences.Straighten(PortSections.Apply(CircledPorts.Apply(tokens, folded)));
        List<Piece> pieces = LabelGrammar.Read(tokens);
        NumberedPorts.Name(pieces, tokens);
        LabelBuilder builder = new(folded, tokens);
        new StatementReader(tokens, pieces, PlainLines.Of(tokens), builder).Read();
        return builder.Build(pieces);
    }
}
