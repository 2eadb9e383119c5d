using System.Collections.Frozen;
using System.Collections.Immutable;
using System.Text;

namespace Portwitness.Labels;

/// <summary>
/// The words that labels use. A language is a file of words, Words/*.txt, nothing else: each row has a meaning of <see cref="Term"/> and
/// its phrases. Case and accents do not matter, words are separated by one space, and the longest phrase wins. A phrase belongs there
/// only if it can mean nothing else on a label: what is not known stays unread, which is safe; what is read wrongly is not.
/// Of protocols only those of published standards are listed; any other name is kept as printed.
/// </summary>
internal static class Vocabulary
{
    // No phrase is longer, in characters.
    private const int LongestKey = 64;

    private static readonly FrozenDictionary<string, Term>.AlternateLookup<ReadOnlySpan<char>> Meanings = Index();

    private static readonly FrozenSet<string>.AlternateLookup<ReadOnlySpan<char>> PhraseStarts =
        Table.SelectMany(static row => row.Phrases).Where(static phrase => phrase.Contains(' '))
            .Select(static phrase => WithoutAccents(phrase[..phrase.IndexOf(' ')])).ToFrozenSet().GetAlternateLookup<ReadOnlySpan<char>>();

    /// <summary>All rows of all files.</summary>
    public static ImmutableArray<(string Language, Term Meaning, ImmutableArray<string> Phrases)> Table => field.IsDefault ? field = Read() : field;

    /// <summary>Words in the longest phrase.</summary>
    public static int LongestPhrase { get; } =
        Table.SelectMany(static row => row.Phrases).Max(static phrase => phrase.Count(static c => c == ' ') + 1);

    /// <summary>Characters in the longest phrase that is written without spaces.</summary>
    public static int LongestUnspaced { get; } =
        Table.SelectMany(static row => row.Phrases).Where(static phrase => Letters.IsUnspaced(phrase[0])).Max(static phrase => phrase.Length);

    /// <summary>What the word or phrase means; <see cref="Term.None"/> when it is not listed.</summary>
    public static Term Find(ReadOnlySpan<char> phrase)
    {
        if (phrase.Length is 0 or > LongestKey)
        {
            return Term.None;
        }

        Span<char> key = stackalloc char[LongestKey];
        key = key[..phrase.ToLowerInvariant(key)];
        if (Meanings.TryGetValue(key, out Term term))
        {
            return term;
        }

        bool isAccented = false;
        foreach (ref char c in key)
        {
            char plain = Letters.WithoutAccent(c);
            isAccented |= plain != c;
            c = plain;
        }

        return isAccented && Meanings.TryGetValue(key, out term) ? term : Term.None;
    }

    /// <summary>Whether a phrase of several words begins with this word.</summary>
    public static bool StartsPhrase(ReadOnlySpan<char> word)
    {
        if (word.Length is 0 or > LongestKey)
        {
            return false;
        }

        Span<char> key = stackalloc char[LongestKey];
        key = key[..word.ToLowerInvariant(key)];
        foreach (ref char c in key)
        {
            c = Letters.WithoutAccent(c);
        }

        return PhraseStarts.Contains(key);
    }

    // A phrase as it is written comes before what is left of another one without its accents ("à" is no "a").
    private static FrozenDictionary<string, Term>.AlternateLookup<ReadOnlySpan<char>> Index()
    {
        Dictionary<string, Term> meanings = [];
        foreach ((_, Term meaning, ImmutableArray<string> phrases) in Table)
        {
            foreach (string phrase in phrases)
            {
                meanings.TryAdd(phrase, meaning);
            }
        }

        foreach ((_, Term meaning, ImmutableArray<string> phrases) in Table)
        {
            foreach (string phrase in phrases.Where(static phrase => phrase.Length > 2))
            {
                meanings.TryAdd(WithoutAccents(phrase), meaning);
            }
        }

        return meanings.ToFrozenDictionary().GetAlternateLookup<ReadOnlySpan<char>>();
    }

    private static string WithoutAccents(string phrase) => string.Concat(phrase.Select(Letters.WithoutAccent));

    private static ImmutableArray<(string, Term, ImmutableArray<string>)> Read()
    {
        Dictionary<string, Term> terms = Enum.GetValues<Term>().ToDictionary(static term => NameOf(term.ToString()));
        return [.. Rows(".txt").Select(row => (row.Language, terms[row.Name], row.Words.ToImmutableArray()))];
    }

    /// <summary>The rows of all files of words with an ending: "name: word, word", a row that begins with blanks goes on the one before.</summary>
    internal static IEnumerable<(string Language, string Name, string[] Words)> Rows(string ending)
    {
        foreach (string file in typeof(Vocabulary).Assembly.GetManifestResourceNames()
            .Where(name => name.EndsWith(ending, StringComparison.Ordinal)).Order(StringComparer.Ordinal))
        {
            using StreamReader reader = new(typeof(Vocabulary).Assembly.GetManifestResourceStream(file)!, Encoding.UTF8);
            string text = reader.ReadToEnd().ReplaceLineEndings("\n").Replace(",\n   ", ",", StringComparison.Ordinal);
            foreach (string line in text.Split('\n').Where(static line => line.Length > 0 && line[0] != '#'))
            {
                int colon = line.IndexOf(':', StringComparison.Ordinal);
                yield return (file[..^ending.Length], line[..colon],
                    line[(colon + 1)..].Split(',', StringSplitOptions.TrimEntries | StringSplitOptions.RemoveEmptyEntries));
            }
        }
    }

    /// <summary>The name of a meaning in the files of words: "rated-capacity" for "RatedCapacity".</summary>
    internal static string NameOf(string meaning) =>
        string.Concat(meaning.Select(static (c, i) => char.IsUpper(c) ? (i > 0 ? "-" : "") + char.ToLowerInvariant(c) : c.ToString()));
}
