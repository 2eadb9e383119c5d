using System.Globalization;
using System.Text.RegularExpressions;

namespace Portwitness.Captures.Offers;

/// <summary>A line of a photo, as it is read.</summary>
/// <param name="Line">Its number, counted from 1.</param>
/// <param name="Text">The offer; null when there is none that can be read.</param>
/// <param name="Note">What was read otherwise than it was recognised, or passed over; null for nothing.</param>
/// <param name="Problem">Why an offer that stands there is not read; null when it is, or when there is none.</param>
internal sealed record PhotoLine(long Line, string? Text, string? Note, string? Problem);

/// <summary>
/// Makes offers of the words that were recognised on the photo of a display. Letters that look like digits are taken for them inside amounts.
/// What is not certain is not read: a line with a doubtful amount, a number that may be torn off an amount, a voltage that no offer has.
/// </summary>
internal static partial class PhotoOffers
{
    private const int LeastMillivolts = 3_000;

    private static readonly (char Letter, char Digit)[] Alike =
    [
        ('O', '0'), ('o', '0'), ('Q', '0'), ('D', '0'), ('l', '1'), ('I', '1'), ('|', '1'), ('i', '1'), ('S', '5'), ('s', '5'), ('B', '8'), ('Z', '2'), ('z', '2'),
    ];

    /// <summary>The lines in order.</summary>
    public static PhotoLine[] Read(IReadOnlyList<(long Line, string Text)> lines)
    {
        PhotoLine[] read = [.. lines.Select(static line => Read(line.Line, line.Text))];

        // "1 5.00V" is the first offer, or 15.00 V torn apart: numbers that count are there in all lines, one after the other.
        PhotoLine[] offers = [.. read.Where(static line => line.Text is not null)];
        int?[] counts = [.. offers.Select(static line => CountOf(line.Text!))];
        bool areCounts = counts.All(static count => count is not null) && counts.Index().All(one => one.Item == counts[0] + one.Index) && counts is [0 or 1, ..];
        return areCounts || counts.All(static count => count is null) ? read : [.. read.Select(static line => line.Text is { } text && CountOf(text) is not null
            ? line with { Text = null, Problem = $"\"{text}\" begins with a number that may be part of its voltage" }
            : line)];
    }

    private static PhotoLine Read(long line, string text)
    {
        List<string> words = [];
        List<string> notes = [];
        bool isDoubtful = false;
        foreach (string word in text.Split(' ', StringSplitOptions.RemoveEmptyEntries))
        {
            bool isUnsure = word[0] == TypedOfferText.Doubtful;
            string plain = isUnsure ? word[1..] : word;
            if (words.Count == 0 && Title().IsMatch(plain))
            {
                // "PDO1", "FIX": the number and the amounts say the same.
                continue;
            }

            string mended = Amount().IsMatch(plain) && plain.Any(char.IsAsciiDigit) ? Mend(plain) : plain;
            if (mended != plain)
            {
                notes.Add($"\"{plain}\" was taken for \"{mended}\"");
            }

            isDoubtful |= isUnsure && mended.Any(char.IsAsciiDigit);
            words.Add(mended);
        }

        string all = string.Join(' ', words);
        bool hasVolts = Volts().IsMatch(all);
        bool hasMore = Amperes().IsMatch(all);
        string? note = notes.Count > 0 ? string.Join(", ", notes) : null;
        if (!hasVolts || !hasMore)
        {
            return hasVolts || hasMore
                ? new PhotoLine(line, null, note, $"\"{all}\" has no voltage, or no current beside it")
                : new PhotoLine(line, null, $"\"{text.Replace(TypedOfferText.Doubtful.ToString(), "", StringComparison.Ordinal)}\" was passed over", null);
        }

        return isDoubtful
            ? new PhotoLine(line, null, note, $"\"{all}\" was recognised with little certainty")
            : new PhotoLine(line, all, note, null);
    }

    /// <summary>Why an offer is not believed; null when it may be one.</summary>
    public static string? Doubt(Offer offer) => offer.Minimum.Millivolts is > 0 and < LeastMillivolts || (offer.Minimum.Millivolts == 0 && offer.Maximum.Millivolts > 0)
        ? $"\"{offer.Text}\" has a voltage that no source offers"
        : null;

    private static int? CountOf(string text) =>
        Count().Match(text) is { Success: true } found ? int.Parse(found.Groups[1].ValueSpan, NumberStyles.None, CultureInfo.InvariantCulture) : null;

    private static string Mend(string word)
    {
        int end = word.Length;
        while (end > 0 && char.IsAsciiLetter(word[end - 1]) && word[end - 1] is 'V' or 'v' or 'A' or 'a' or 'W' or 'w' or 'm')
        {
            end--;
        }

        return string.Concat(word.Select((letter, at) => at < end && Array.Find(Alike, alike => alike.Letter == letter) is { Digit: not '\0' } found ? found.Digit : letter));
    }

    [GeneratedRegex(@"^(PDO\w{0,2}|FIX(ED)?|SPR|SRC|No)[.:)\]]?$", RegexOptions.IgnoreCase | RegexOptions.CultureInvariant)]
    private static partial Regex Title();

    [GeneratedRegex(@"^[0-9OoQDlIi|SsBZz.,~:/=\u2013\u2014\u2393-]*(m?[VvAa]|[Ww])?([0-9OoQDlIi|SsBZz.,~/=-]+(m?[VvAa]|[Ww]))?[.,;:]?$", RegexOptions.CultureInvariant)]
    private static partial Regex Amount();

    [GeneratedRegex(@"\d\s?m?[Vv](?![A-Za-z])", RegexOptions.CultureInvariant)]
    private static partial Regex Volts();

    [GeneratedRegex(@"\d\s?(m?[Aa]|[Ww])(?![A-Za-z])", RegexOptions.CultureInvariant)]
    private static partial Regex Amperes();

    [GeneratedRegex(@"^\W*(\d{1,2})\W*\s+\d", RegexOptions.CultureInvariant)]
    private static partial Regex Count();
}
