using System.Collections.Immutable;
using FluentAssertions.Collections;
using FluentAssertions.Primitives;
using Portwitness.Analysis.Phrases;

namespace Portwitness.Testing;

/// <summary>What tests compare of a phrase is what users read.</summary>
public static class PhraseAssertions
{
    /// <summary>Begins an assertion on the English of a phrase.</summary>
    public static StringAssertions Should(this Phrase? phrase) => (phrase is null ? null : PhraseText.Of(phrase)).Should();

    /// <summary>Begins an assertion on the English of phrases.</summary>
    public static StringCollectionAssertions Should(this ImmutableArray<Phrase> phrases) => phrases.Select(PhraseText.Of).Should();

    /// <summary>The English of a phrase.</summary>
    public static string Text(this Phrase? phrase) => PhraseText.Of(phrase);
}
