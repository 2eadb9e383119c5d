using System.Collections.Frozen;

namespace Portwitness.Reports.Proofing;

/// <summary>What words of an article say of the amounts beside them. They are in Words.txt.</summary>
internal static class ArticleWords
{
    private static readonly FrozenDictionary<string, string[]> Rows = Read();

    /// <summary>Whether a sentence has a word of a row.</summary>
    public static bool Has(string sentence, string row) => Rows[row].Any(word => Contains(sentence, word));

    /// <summary>Where the words of a row stand in a sentence.</summary>
    public static IEnumerable<int> PlacesOf(string sentence, string row) => Rows[row].SelectMany(word => PlacesOfWord(sentence, word)).Distinct();

    private static bool Contains(string sentence, string word) => PlacesOfWord(sentence, word).Any();

    private static IEnumerable<int> PlacesOfWord(string sentence, string word)
    {
        bool isBeginning = word[^1] == '*';
        string sought = isBeginning ? word[..^1] : word;
        bool isHan = sought[0] >= '\u4e00';
        for (int at = sentence.IndexOf(sought, StringComparison.OrdinalIgnoreCase); at >= 0; at = sentence.IndexOf(sought, at + 1, StringComparison.OrdinalIgnoreCase))
        {
            int end = at + sought.Length;
            if (isHan || ((at == 0 || !char.IsLetter(sentence[at - 1])) && (isBeginning || end == sentence.Length || !char.IsLetter(sentence[end]))))
            {
                yield return at;
            }

            if (at + 1 >= sentence.Length)
            {
                yield break;
            }
        }
    }

    private static FrozenDictionary<string, string[]> Read()
    {
        using StreamReader reader = new(typeof(ArticleWords).Assembly.GetManifestResourceStream("Proofing.Words.txt")!);
        return reader.ReadToEnd().Split('\n').Where(static line => line.Length > 0 && line[0] != '#').Select(static line => line.Split(':', 2))
            .ToFrozenDictionary(static row => row[0], static row => row[1].Split(',', StringSplitOptions.TrimEntries | StringSplitOptions.RemoveEmptyEntries));
    }
}
