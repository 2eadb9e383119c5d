using System.Globalization;
using Portwitness.Reports.Text;

namespace Portwitness.Reports.Csv;

/// <summary>
/// Rows of comma-separated values (RFC 4180). A text that a spreadsheet would run as a formula gets an apostrophe in front, and whatever
/// a terminal would obey is spelled out.
/// </summary>
internal static class CsvRows
{
    private const string BeginsFormula = "=+-@";

    /// <summary>Writes one row; numbers are cells of digits, null is an empty cell.</summary>
    public static void Write(TextWriter writer, params object?[] cells) =>
        writer.Write(string.Join(',', cells.Select(Cell)) + "\r\n");

    private static string Cell(object? value)
    {
        if (value is not string text)
        {
            return Convert.ToString(value, CultureInfo.InvariantCulture) ?? "";
        }

        string visible = VisibleText.Of(text);
        if (visible.Length > 0 && BeginsFormula.Contains(visible.TrimStart() is [var first, ..] ? first : ' ', StringComparison.Ordinal))
        {
            visible = "'" + visible;
        }

        return visible.AsSpan().ContainsAny(",\"'") ? $"\"{visible.Replace("\"", "\"\"", StringComparison.Ordinal)}\"" : visible;
    }
}
