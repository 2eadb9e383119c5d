using Portwitness.Captures.Input;

namespace Portwitness.Captures.Quoted;

/// <summary>
/// A text that went through mails and web pages, with what they add taken off: marks of a quotation and time stamps in front of lines, the
/// escapes of mails, blanks of every kind. Lines are kept apart by one line feed, words by one blank.
/// </summary>
internal sealed class QuotedText
{
    /// <summary>Most bytes that are kept.</summary>
    public const int MaxBytes = 1 << 18;

    private readonly List<(long Line, byte[] Text)> _raw = [];
    private readonly List<byte> _text = [];
    private readonly List<(int At, long Line)> _lines = [];
    private int _length;
    private bool _isMail;

    /// <summary>What was kept.</summary>
    public ReadOnlySpan<byte> Bytes
    {
        get
        {
            if (_text.Count == 0 && _raw.Count > 0)
            {
                ReadAll();
            }

            return System.Runtime.InteropServices.CollectionsMarshal.AsSpan(_text);
        }
    }

    /// <summary>Takes a line; false when there is no room for it.</summary>
    public bool Add(long line, ReadOnlySpan<byte> text)
    {
        if (_length + text.Length + 1 > MaxBytes)
        {
            return false;
        }

        _length += text.Length + 1;
        _isMail |= QuotedPrintable.IsLikely(text);
        _raw.Add((line, text.ToArray()));
        return true;
    }

    private void ReadAll()
    {
        byte[] begun = [];
        long begunAt = 0;
        foreach ((long line, byte[] text) in _raw)
        {
            begunAt = begun.Length == 0 ? line : begunAt;
            bool isCutBehindName = begun.Length > 0 && QuotedPrintable.BeginsWord(text);
            byte[] whole = begun.Length == 0 ? text : isCutBehindName ? [.. begun, (byte)'=', .. text] : [.. begun, .. text];
            ReadOnlySpan<byte> trimmed = whole.AsSpan().TrimEnd("\r"u8);
            bool goesOn = _isMail && QuotedPrintable.GoesOn(trimmed);
            begun = goesOn ? [.. trimmed[..^1]] : [];
            if (!goesOn)
            {
                ReadLine(begunAt, _isMail ? QuotedPrintable.Decode(trimmed) : whole);
            }
        }

        if (begun.Length > 0)
        {
            ReadLine(begunAt, QuotedPrintable.Decode(begun));
        }

        _raw.Clear();
    }

    private void ReadLine(long line, ReadOnlySpan<byte> text)
    {
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

        // A blank at the end would stand in front of what the next line begins with.
        if (_text.Count > _lines[^1].At && _text[^1] == ' ')
        {
            _text.RemoveAt(_text.Count - 1);
        }

        _text.Add((byte)'\n');
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
