using System.Diagnostics.CodeAnalysis;
using Pidgin;

namespace Portwitness.Labels;

/// <summary>Chooses a parser by the tokens that come, so that what cannot match is not tried.</summary>
internal sealed class ChoiceParser(ChoiceParser.Choice choose) : Parser<Token, Piece>
{
    /// <summary>Tokens that the choice sees.</summary>
    public const int Ahead = 24;

    /// <summary>The parser for the tokens ahead, of which there is at least one.</summary>
    public delegate Parser<Token, Piece> Choice(ReadOnlySpan<Token> ahead);

    /// <inheritdoc/>
    public override bool TryParse(
        ref ParseState<Token> state, ref PooledList<Expected<Token>> expecteds, [MaybeNullWhen(false)] out Piece result)
    {
        result = null;
        return state.HasCurrent && choose(state.LookAhead(Ahead)).TryParse(ref state, ref expecteds, out result);
    }
}
