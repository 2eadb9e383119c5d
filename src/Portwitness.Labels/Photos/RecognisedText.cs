using System.Collections.Immutable;
using System.Globalization;
using System.Text;

namespace Portwitness.Labels.Photos;

/// <summary>
/// The text of a photo, as a program for character recognition gives it: a table of twelve columns apart by tabs, with a heading, a row a word
/// (level 5) with its block, paragraph and line, its box and how sure the program was. Text is not quoted.
/// </summary>
/// <param name="Text">The words, lines as on the photo.</param>
/// <param name="Words">Each word, in the order of the text.</param>
/// <param name="Width">Of the photo, in pixels; 0 when the table does not say.</param>
/// <param name="Height">Of the photo, in pixels; 0 when the table does not say.</param>
public sealed record RecognisedText(string Text, ImmutableArray<RecognisedWord> Words, int Width, int Height)
{
    private const string Heading = "level\tpage_num\tblock_num\tpar_num\tline_num\tword_num\tleft\ttop\twidth\theight\tconf\ttext";
    private const int Columns = 12;
    private const string PageLevel = "1";
    private const string WordLevel = "5";

    // Beyond this many heights of a letter between them two words stand in different columns.
    private const int ColumnGap = 2;

    /// <summary>Whether a text is such a table.</summary>
    public static bool IsTable(string text) => text.AsSpan().TrimStart('\uFEFF').StartsWith(Heading, StringComparison.Ordinal);

    /// <summary>The text of such a table; null for any other text. Rows that are none of a word are passed over.</summary>
    public static RecognisedText? TryRead(string table)
    {
        ArgumentNullException.ThrowIfNull(table);
        if (!IsTable(table))
        {
            return null;
        }

        List<RecognisedWord> words = [];
        StringBuilder text = new();
        (int width, int height, int line, (string, string, string)? place) = (0, 0, 1, null);
        foreach (string row in table.Split('\n').Skip(1))
        {
            string[] cells = row.TrimEnd('\r').Split('\t', Columns);
            if (cells.Length == Columns && cells[0] == PageLevel)
            {
                (width, height) = (Number(cells[8]), Number(cells[9]));
            }

            if (cells.Length != Columns || cells[0] != WordLevel || string.IsNullOrWhiteSpace(cells[11]))
            {
                continue;
            }

            (string, string, string) at = (cells[2], cells[3], cells[4]);
            RecognisedWord word = new(line, cells[11].Trim(), Percent(cells[10]), Number(cells[6]), Number(cells[7]), Number(cells[8]), Number(cells[9]));
            if (place is { } before && before != at)
            {
                text.Append('\n');
                word = word with { Line = ++line };
            }
            else if (words.Count > 0)
            {
                text.Append(IsFar(words[^1], word) ? "   " : " ");
            }

            place = at;
            text.Append(word.Text);
            words.Add(word);
        }

        return new RecognisedText(text.ToString(), [.. words], width, height);
    }

    private static bool IsFar(RecognisedWord before, RecognisedWord word) =>
        (long)word.Left - before.Left - before.Width > (long)ColumnGap * Math.Max(before.Height, word.Height);

    private static int Number(string cell) => int.TryParse(cell, NumberStyles.None, CultureInfo.InvariantCulture, out int number) ? number : 0;

    private static int Percent(string cell) =>
        decimal.TryParse(cell, NumberStyles.AllowDecimalPoint, CultureInfo.InvariantCulture, out decimal percent) ? (int)Math.Clamp(percent, 0, 100) : 0;
}
