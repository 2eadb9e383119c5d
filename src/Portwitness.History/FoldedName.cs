using System.Text;

namespace Portwitness.History;

/// <summary>
/// Names as searches compare them: upper and lower case of every script are the same, by the Unicode Standard's default caseless matching (3.13,
/// D144, with CaseFolding.txt; no normalization), as far as one letter becomes one letter, and "ß" is "ss". The Turkish dotted capital and dotless
/// small i are letters of their own there: they match themselves alone. Both kinds of store search in this text, so that they find the same.
/// </summary>
internal static class FoldedName
{
    private const int SharpS = 0xDF;

    /// <summary>Folds a text.</summary>
    public static string Of(string text)
    {
        StringBuilder folded = new(text.Length);
        foreach (Rune letter in text.EnumerateRunes())
        {
            // By way of the capital letter, forms such as the final sigma become the common one.
            Rune small = Rune.ToLowerInvariant(Rune.ToUpperInvariant(letter));
            if (small.Value == SharpS)
            {
                folded.Append("ss");
            }
            else
            {
                folded.Append(small);
            }
        }

        return folded.ToString();
    }
}
