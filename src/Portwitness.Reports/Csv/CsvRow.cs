using System.Globalization;
using System.Text;
using Portwitness.Reports.Text;

namespace Portwitness.Reports.Csv;

/// <summary>
/// One record of RFC 4180. Text that a spreadsheet would run as a formula gets an apostrophe in front, as spreadsheets themselves
/// mark text; numbers, which are never anybody's text, do not.
/// </summary>
internal sealed class CsvRow
{
    // The first four in both widths: some spreadsheets take full-width forms for their likes.
    private const string BeginFormulas = "=+-@＝＋－＠\t\r\n";

    private readonly StringBuilder _line = new();
    private bool _begun;

    public static void WriteHeadings(TextWriter writer, params IEnumerable<string> names) => writer.Write(string.Join(',', names) + "\r\n");

    /// <summary>Adds a text; an empty one is an empty cell.</summary>
    public CsvRow Add(string text)
    {
        string cell = string.Join('\n', text.ReplaceLineEndings("\n").Split('\n').Select(VisibleText.Of));
        bool formula = new[] { text.FirstOrDefault(), cell.FirstOrDefault(), cell.TrimStart().FirstOrDefault() }.Any(BeginFormulas.Contains);
        string mark = formula ? "'" : "";
        return Next(cell.Length == 0 ? "" : $"\"{mark}{cell.Replace("\"", "\"\"", StringComparison.Ordinal)}\"");
    }

    /// <summary>Adds a number; an unknown one is an empty cell.</summary>
    public CsvRow Add(long? number) => Next(number?.ToString(CultureInfo.InvariantCulture) ?? "");

    public void Write(TextWriter writer) => writer.Write(_line.Append("\r\n"));

    private CsvRow Next(string cell)
    {
        _line.Append(_begun ? "," : "").Append(cell);
        _begun = true;
        return this;
    }
}
