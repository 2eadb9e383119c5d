using System.Text;
using System.Text.RegularExpressions;
using Portwitness.Reports.Text;

namespace Portwitness.Reports.Markdown;

/// <summary>
/// Text from labels, file names and captures as plain words of GitHub-flavoured Markdown: no mark-up, no HTML, no links, no end of a
/// line or of a table's cell. CommonMark 0.31.2, 2.4: any ASCII punctuation may be escaped by a backslash.
/// </summary>
internal static partial class MarkdownText
{
    private const string Escaped = @"\`*_[]#|~$";

    /// <summary>Words within a line or a cell.</summary>
    public static string Of(string text)
    {
        string line = string.Join(' ', text.ReplaceLineEndings("\n").Split('\n').Select(VisibleText.Of)).Trim();
        StringBuilder words = new(line.Length + 16);
        foreach (char character in line)
        {
            switch (character)
            {
                case '&': words.Append("&amp;"); break;
                case '<': words.Append("&lt;"); break;
                case '>': words.Append("&gt;"); break;
                default:
                    words.Append(Escaped.Contains(character, StringComparison.Ordinal) ? "\\" : "").Append(character);
                    break;
            }
        }

        // What would become a link without any mark-up (GFM 6.9).
        return Links().Replace(words.ToString(), @"$1\$2");
    }

    /// <summary>Words that a line, or an item of a list, begins with: they begin no list, heading or rule of their own.</summary>
    public static string Line(string text) => Begins().Replace(Of(text), @"$1\$2");

    /// <summary>A name as code, which nothing within can end: its fence is longer than any run of backticks (CommonMark 6.1).</summary>
    public static string Code(string text)
    {
        string line = VisibleText.Of(text.ReplaceLineEndings(" "));
        string fence = new('`', 1 + Backticks().Matches(line).Select(static run => run.Length).DefaultIfEmpty(0).Max());
        return line.Length == 0 ? "" : fence.Length > 1 ? $"{fence} {line} {fence}" : fence + line + fence;
    }

    [GeneratedRegex(@"^(\d*)((?<=\d)[.)](?=\s|$)|(?<!\d)[-+=])")]
    private static partial Regex Begins();

    [GeneratedRegex(@"((?:https?|ftp|mailto|xmpp)(?=:)|www(?=\.))([:.])", RegexOptions.IgnoreCase)]
    private static partial Regex Links();

    [GeneratedRegex("`+")]
    private static partial Regex Backticks();
}
