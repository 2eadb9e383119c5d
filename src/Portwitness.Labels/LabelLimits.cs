using System.Text;

namespace Portwitness.Labels;

/// <summary>
/// How long a label may be. Printed labels have some hundred bytes and a few dozen words a line; the limits bound what a hostile text costs.
/// </summary>
public static class LabelLimits
{
    /// <summary>The longest text, in bytes of UTF-8, with corrections put in: 64 KiB.</summary>
    public const int MaxBytes = 64 << 10;

    /// <summary>The most tokens of one line: words, numbers with their units, and signs.</summary>
    public const int MaxTokensInLine = 2000;

    // Of a shorter line not even signs that stand for several ("⑴" for three) make more tokens.
    private const int ShortLine = MaxTokensInLine / 8;

    /// <summary>Says in a sentence what is beyond the limits, and what to do; null when nothing is.</summary>
    /// <param name="text">The text.</param>
    /// <param name="corrections">What a person has settled in it; each counts with what it is read as.</param>
    public static string? Excess(string text, params IReadOnlyList<LabelCorrection> corrections)
    {
        ArgumentNullException.ThrowIfNull(text);
        return ExcessBytes(text, corrections) ?? (HasLongLine(text, corrections)
            ? ExcessTokens(Tokenizer.Read(FoldedText.Of(text, LabelCorrection.Locate(text, corrections, out _)))) : null);
    }

    internal static string? ExcessBytes(string text, IReadOnlyList<LabelCorrection> corrections)
    {
        long bytes = corrections.Sum(static correction => (long)Encoding.UTF8.GetByteCount(correction.ReadAs)) + Encoding.UTF8.GetByteCount(text);
        return bytes > MaxBytes
            ? $"the label has {bytes} bytes, the limit is {MaxBytes} (64 KiB); leave out what is not printed on the product" : null;
    }

    internal static string? ExcessTokens(List<Token> tokens)
    {
        int line = 1;
        int count = 0;
        foreach (Token token in tokens)
        {
            (line, count) = token.Kind == TokenKind.Break ? (line + 1, 0) : (line, count + 1);
            if (count > MaxTokensInLine)
            {
                return $"line {line} of the label has more than {MaxTokensInLine} words, numbers and signs, which is the limit; "
                    + "begin a new line where the label does";
            }
        }

        return null;
    }

    private static bool HasLongLine(string text, IReadOnlyList<LabelCorrection> corrections)
    {
        if (corrections.Sum(static correction => (long)correction.ReadAs.Length) > ShortLine)
        {
            return true;
        }

        foreach (ReadOnlySpan<char> line in text.AsSpan().EnumerateLines())
        {
            if (line.Length > ShortLine)
            {
                return true;
            }
        }

        return false;
    }
}
