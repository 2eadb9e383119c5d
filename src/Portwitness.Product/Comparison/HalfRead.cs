using System.Globalization;
using Portwitness.Labels;

namespace Portwitness.Product.Comparison;

/// <summary>
/// Tells ratings of which only the beginning was read: right behind them are words with a number that were not. What they say is not
/// known, so they disagree with nothing.
/// </summary>
internal sealed class HalfRead(Label label)
{
    // What may stand between a value and the next one of the same rating.
    private static readonly char[] Between = [' ', '\t', '\u3000', '/', ',', '(', '\uFF0F', '\uFF0C', '\u3001'];

    private readonly ILookup<int, UnreadSpan> _unread = label.Unread
        .Where(static span => span.Text.Any(char.IsAsciiDigit)).ToLookup(static span => span.At.Line);

    private readonly string[] _lines = label.Unread.IsEmpty ? [] : label.Text.TrimStart('\uFEFF').ReplaceLineEndings("\n").Split('\n');

    /// <summary>Whether words follow a rating that may belong to it.</summary>
    /// <param name="at">Where the rating is printed.</param>
    public bool Is(Place at) => TextAt(at) is { } text && _unread[at.Line].Any(span => span.At.Column > at.Column && Follows(at, text, span.At));

    private bool Follows(Place at, string text, Place unread)
    {
        int[] starts = StringInfo.ParseCombiningCharacters(_lines[at.Line - 1]);
        if (unread.Column > starts.Length)
        {
            return false;
        }

        ReadOnlySpan<char> until = _lines[at.Line - 1].AsSpan(starts[at.Column - 1]..starts[unread.Column - 1]);
        return until.StartsWith(text, StringComparison.Ordinal) && until[text.Length..].Trim(Between).IsEmpty;
    }

    private string? TextAt(Place at)
    {
        foreach (PrintedOutput output in label.Outputs)
        {
            string? text = output.Fixed.FirstOrDefault(mode => mode.At == at)?.Text ?? output.Ranges.FirstOrDefault(range => range.At == at)?.Text;
            if (text is not null)
            {
                return text;
            }
        }

        return label.Inputs.FirstOrDefault(input => input.At == at)?.Text;
    }
}
