using System.Globalization;
using System.Text;

namespace Portwitness.Service.Telemetry;

/// <summary>Makes texts that may hold what a client sent fit for a log: one line, short, and nothing in it that steers a terminal.</summary>
internal static class LogText
{
    // Enough to find the field; the caller has the whole text.
    private const int MaxCharacters = 200;

    /// <summary>The text with control and invisible characters as \u and four digits, cut at 200 characters.</summary>
    public static string Of(string text)
    {
        StringBuilder visible = new();
        foreach (char character in text)
        {
            int before = visible.Length;
            if (IsPlain(character))
            {
                visible.Append(character);
            }
            else
            {
                visible.Append(CultureInfo.InvariantCulture, $"\\u{(int)character:X4}");
            }

            if (visible.Length > MaxCharacters)
            {
                visible.Length = before;
                return visible.Append('…').ToString();
            }
        }

        return visible.ToString();
    }

    /// <summary>Where an exception comes from: methods of this program, without its message, on one line.</summary>
    public static string Stack(Exception exception) => (exception.StackTrace ?? "").ReplaceLineEndings(" ");

    // Pairs of surrogates may be invisible too, and a half of one is no text.
    private static bool IsPlain(char character) => char.GetUnicodeCategory(character) is not (
        UnicodeCategory.Control or UnicodeCategory.Format or UnicodeCategory.Surrogate or UnicodeCategory.LineSeparator
        or UnicodeCategory.ParagraphSeparator or UnicodeCategory.PrivateUse or UnicodeCategory.OtherNotAssigned);
}
