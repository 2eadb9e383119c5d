namespace Portwitness.Captures.Offers;

/// <summary>Cuts a line into offers: at commas and semicolons, but not at the comma of "2,22A".</summary>
public static class OfferPieces
{
    /// <summary>The pieces of a text of any number of lines that are not blank.</summary>
    public static IEnumerable<string> Split(string text)
    {
        ArgumentNullException.ThrowIfNull(text);
        return text.Split('\n').SelectMany(Of).Select(static piece => piece.Text);
    }

    /// <summary>The pieces that are not blank, each with its column, counted from 1.</summary>
    public static IEnumerable<(string Text, int Column)> Of(string line)
    {
        int start = 0;
        for (int at = 0; at <= line.Length; at++)
        {
            if (at < line.Length && !IsCut(line, at))
            {
                continue;
            }

            string piece = line[start..at];
            string trimmed = piece.TrimStart();
            if (trimmed.Length > 0)
            {
                yield return (trimmed.TrimEnd(), start + piece.Length - trimmed.Length + 1);
            }

            start = at + 1;
        }
    }

    private static bool IsCut(string line, int at) => line[at] switch
    {
        ';' or '\uFF1B' or '\u3001' or '\uFF0C' or '\r' => true,
        ',' => at == 0 || at + 1 == line.Length || !char.IsAsciiDigit(line[at - 1]) || !char.IsAsciiDigit(line[at + 1]),
        _ => false,
    };
}
