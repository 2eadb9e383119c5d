namespace Portwitness.Labels;

/// <summary>What can be a part of a word.</summary>
internal static class Letters
{
    // Each letter behind those that are printed for it where accents are left out.
    private const string Accents = "àa áa âa ãa äa åa ąa çc ćc čc èe ée êe ëe ęe ìi íi îi ïi ñn ńn òo óo ôo õo öo øo śs šs ùu úu ûu üu ýy źz żz žz łl ёе";

    private const string LikeLatin = "АВСЕНКМОРТХасеорху";

    private static readonly char[] Plain = PlainLetters();

    /// <summary>
    /// A letter of a script without spaces (Chinese, Japanese), or of one that sets them freely (Korean): its words are found in the text.
    /// </summary>
    public static bool IsUnspaced(char c) => c >= '\u3005' && c is (>= '\u4E00' and <= '\u9FFF') or (>= '\u3400' and <= '\u4DBF')
        or (>= '\u3041' and <= '\u3096') or (>= '\u30A1' and <= '\u30FA') or '\u30FC' or '\u3005' or (>= '\uAC00' and <= '\uD7A3');

    /// <summary>A letter of a script that sets words apart by spaces.</summary>
    public static bool IsLetter(char c) => char.IsLetter(c) && !IsUnspaced(c);

    public static bool IsLetterOrDigit(char c) => char.IsLetterOrDigit(c) && !IsUnspaced(c);

    /// <summary>A small letter without its accent, as capitals are often printed.</summary>
    public static char WithoutAccent(char c) => c < Plain.Length ? Plain[c] : c;

    /// <summary>A word in which Cyrillic letters stand for the Latin ones that look the same; null where one looks like none, or none is there.</summary>
    public static string? InLatin(string word)
    {
        if (!word.AsSpan().ContainsAnyInRange('\u0400', '\u04FF'))
        {
            return null;
        }

        char[] letters = word.ToCharArray();
        foreach (ref char c in letters.AsSpan())
        {
            int at = LikeLatin.IndexOf(c, StringComparison.Ordinal);
            if (at < 0 && c >= '\u0400')
            {
                return null;
            }

            c = at < 0 ? c : "ABCEHKMOPTXaceopxy"[at];
        }

        return word == "\u0412" ? null : new string(letters);
    }

    private static char[] PlainLetters()
    {
        char[] plain = [.. Enumerable.Range(0, 0x0460).Select(static i => (char)i)];
        foreach (string pair in Accents.Split(' '))
        {
            plain[pair[0]] = pair[1];
        }

        return plain;
    }
}
