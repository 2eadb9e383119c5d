using System.Globalization;
using Portwitness.Captures.Input;
using Portwitness.Captures.Offers;

namespace Portwitness.Captures.Words;

/// <summary>
/// Reads a bare list of 32-bit words, the objects of one capability list in order. They make a Source_Capabilities, or,
/// with an object of EPR at position 8, an EPR_Source_Capabilities in one piece. Only what the list itself says is
/// known of the header: the kind, and a length that a header can state.
/// </summary>
internal sealed class WordsReader(ICaptureSink sink, FaultLog faults) : ILineReader
{
    /// <summary>MaxExtendedMsgLen, 260 bytes, in words (R3.2v1.1, Table 6.84).</summary>
    private const int MaximumWords = 65;

    private const int MaximumSprObjects = 7;

    private readonly List<(uint Value, bool Known)> _words = [];
    private long _firstLine;
    private bool _afterGap;
    private bool _closed;

    /// <summary>Whether a line, blanks trimmed, looks like words.</summary>
    public static bool IsLikely(ReadOnlySpan<byte> line)
    {
        if (line.StartsWith("#"u8))
        {
            return true;
        }

        int end = line.IndexOfAny(" \t,#"u8);
        ReadOnlySpan<byte> token = end < 0 ? line : line[..end];
        bool prefixed = token.StartsWith("0x"u8) || token.StartsWith("0X"u8);
        return prefixed || (token.Length >= 6 && !token.ContainsAnyExcept(HexText.Digits));
    }

    /// <inheritdoc/>
    public void Read(long line, ReadOnlySpan<byte> text)
    {
        int comment = text.IndexOf((byte)'#');
        text = comment < 0 ? text : text[..comment];
        int at = 0;
        while (text[at..].IndexOfAnyExcept(" \t,"u8) is >= 0 and int blanks)
        {
            at += blanks;
            int length = text[at..].IndexOfAny(" \t,"u8);
            length = length < 0 ? text.Length - at : length;
            ReadToken(line, at + 1, text.Slice(at, length));
            at += length;
        }
    }

    /// <inheritdoc/>
    public void Skipped(long line) => _afterGap = true;

    /// <inheritdoc/>
    public void Complete()
    {
        sink.OnHeader(new CaptureHeader { Format = "words" });
        if (_words.Exists(word => word.Known))
        {
            HandOn();
        }
        else if (_words.Count == 0 && !_closed)
        {
            faults.Report(1, 1, FaultCodes.Empty, FaultText.WordsOnlyComments);
        }
    }

    private void ReadToken(long line, int column, ReadOnlySpan<byte> token)
    {
        if (_afterGap || _words.Count == MaximumWords)
        {
            if (!_closed)
            {
                _closed = true;
                faults.Report(
                    line, column, FaultCodes.WordsUnplaced, _afterGap ? FaultText.WordsAfterGap : FaultText.WordsTooMany);
            }

            return;
        }

        ReadOnlySpan<byte> digits = token.StartsWith("0x"u8) || token.StartsWith("0X"u8) ? token[2..] : token;
        bool known = uint.TryParse(digits, NumberStyles.AllowHexSpecifier, CultureInfo.InvariantCulture, out uint value)
            && digits.Length == 8;
        if (!known)
        {
            faults.Report(line, column, FaultCodes.WordInvalid, FaultText.WordInvalid(token));
        }

        _firstLine = _words.Count == 0 ? line : _firstLine;
        _words.Add((known ? value : 0, known));
    }

    private void HandOn()
    {
        CodedOffer[] all = [.. _words.Select(static word => new CodedOffer(word.Value, word.Known ? uint.MaxValue : 0))];
        bool isEpr = all.Length > MaximumSprObjects && ListedObjects.IsOfEpr(all[MaximumSprObjects]);
        int spr = isEpr ? MaximumSprObjects : all.Length;
        ListedObjects.HandTo(sink, _firstLine, all.AsSpan(0, spr), all.AsSpan(spr), isEpr, isWhole: true);
    }
}
