using System.Diagnostics.CodeAnalysis;
using Pidgin;

namespace Portwitness.Labels;

/// <summary>
/// As many as there are. The library's own repetition is generic without end, of which the Native AOT compiler warns.
/// </summary>
internal sealed class RepeatParser<T>(Parser<Token, T> parser) : Parser<Token, IReadOnlyList<T>>
{
    /// <inheritdoc/>
    public override bool TryParse(
        ref ParseState<Token> state, ref PooledList<Expected<Token>> expecteds,
        [MaybeNullWhen(false)] out IReadOnlyList<T> result)
    {
        List<T> items = [];
        PooledList<Expected<Token>> own = new(state.Configuration.ArrayPoolProvider.GetArrayPool<Expected<Token>>());
        long before = state.Location;
        while (parser.TryParse(ref state, ref own, out T? item))
        {
            own.Clear();
            items.Add(item);
            if (state.Location == before)
            {
                break;
            }

            before = state.Location;
        }

        expecteds.AddRange(own.AsSpan());
        own.Dispose();

        // What fails after it has taken something is an error, as everywhere in the library.
        result = items;
        return state.Location == before;
    }
}
