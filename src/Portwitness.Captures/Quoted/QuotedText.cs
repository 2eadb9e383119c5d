namespace Portwitness.Captures.Quoted;

/// <summary>
/// A text that went through mails and web pages, with what they add taken off: marks of a quotation and time stamps in front of lines,
/// blanks of every kind. Lines are kept apart by one line feed, words by one blank.
/// </summary>
internal sealed class QuotedText
{
    /// <summary>Most bytes that are kept.</summary>
    public const int MaxBytes = 1 << 18;

    private readonly List<byte> _text = [];
    private readonly List<(int At, long Line)> _lines = [];

    /// <summary>What was kept.</summary>
    public ReadOnlySpan<byte> Bytes => System.Runtime.InteropServices.CollectionsMarshal.AsSpan(_text);

    /// <summary>Takes a line; false when there is no room for it.</summary>
    public bool Add(long line, ReadOnlySpan<byte> text)
    {
        if (_text.Count + text.Length + 1 > MaxBytes)
        {
            return false;
        }

        _lines.Add((_text.Count, line));
        text = text.TrimStart("> \t|"u8);
        while (text.StartsWith("&gt;"u8))
        {
            text = text["&gt;"u8.Length..].TrimStart("> \t|"u8);
        }

        text = KernelLog.KernelLogLine.TryReadTime(text, out _, out int start) ? text[start..] : text;
        bool isBlank = true;
        for (int at = 0; at < text.Length;)
        {
            int blank = BlankAt(text[at..]);
            if (blank == 0)
            {
                _text.Add(text[at++]);
                isBlank = false;
                continue;
            }

            if (!isBlank)
            {
                _text.Add((byte)' ');
            }

            isBlank = true;
            at += blank;
        }

        _text.Add((byte)'\n');
        return true;
    }

    /// <summary>The line that a position is in.</summary>
    public long LineAt(int position)
    {
        int found = _lines.BinarySearch((position, long.MaxValue));
        return _lines[Math.Max(0, (found < 0 ? ~found : found) - 1)].Line;
    }

    // Blanks, tabs, no-break and thin blanks, zero-width ones, byte order marks, and how a page's source writes the first of them.
    private static int BlankAt(ReadOnlySpan<byte> text) => text switch
    {
        [(byte)' ' or (byte)'\t' or (byte)'\r', ..] => 1,
        [0xC2, 0xA0, ..] => 2,
        [0xE2, 0x80, >= 0x80 and <= 0x8B or 0xAF, ..] or [0xE3, 0x80, 0x80, ..] or [0xEF, 0xBB, 0xBF, ..] => 3,
        _ => text.StartsWith("&nbsp;"u8) ? "&nbsp;"u8.Length : 0,
    };
}
