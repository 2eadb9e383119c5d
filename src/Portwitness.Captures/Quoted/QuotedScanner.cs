using System.Globalization;
using Portwitness.Captures.Input;
using Portwitness.Captures.KernelLog;
using Portwitness.Captures.Offers;

namespace Portwitness.Captures.Quoted;

/// <summary>Finds the objects in a quoted text, in order.</summary>
/// <param name="text">The text.</param>
/// <param name="form">How objects are written.</param>
/// <param name="isStated">Whether somebody says that it is a quoted list: words then need nothing beside them.</param>
/// <param name="faults">Where is told what cannot be read; null to look only.</param>
internal sealed class QuotedScanner(QuotedText text, QuotedForm form, bool isStated, FaultLog? faults)
{
    private const int Digits = 8;
    private const int MaxIndex = 15;

    // Words that are printed without zeros in front have none in front anywhere.
    private readonly bool _isPadded = text.Bytes.IndexOf("0x0"u8) >= 0 || text.Bytes.IndexOf("0X0"u8) >= 0;
    private readonly List<QuotedObject> _objects = [];
    private int _section;
    private bool _isOfSink;
    private bool _sinkTold;

    /// <summary>Whether there is something that is an object, and hardly anything else.</summary>
    public bool FoundCertain { get; private set; }

    /// <summary>Finds them.</summary>
    public List<QuotedObject> Scan()
    {
        ReadOnlySpan<byte> all = text.Bytes;
        for (int start = 0; start < all.Length;)
        {
            int length = all[start..].IndexOf((byte)'\n');
            int end = length < 0 ? all.Length : start + length;
            ScanLine(start, end);
            start = end + 1;
        }

        return _objects;
    }

    private void ScanLine(int start, int end)
    {
        ReadOnlySpan<byte> all = text.Bytes;
        int before = _objects.Count;
        NoteSide(all[start..end]);
        for (int at = start; at < end;)
        {
            if (all[at] is (byte)'{' or (byte)'}')
            {
                _section++;
            }

            bool begins = at == 0 || !IsOfWord(all[at - 1]);
            at += Math.Max(1, !begins ? 0 : Kernel(at) is > 0 and int kernel ? kernel : form == QuotedForm.Bytes ? Bytes(at) : Word(at));
        }

        if (_objects.Count == before && all[start..end].IndexOfAnyInRange((byte)'A', (byte)'z') >= 0)
        {
            _section++;
        }
    }

    // What a line says of the side whose list it is stands for those below.
    private void NoteSide(ReadOnlySpan<byte> line)
    {
        bool isSource = Has(line, "source"u8) || Has(line, "src"u8) || Has(line, "charger"u8);
        _isOfSink = !isSource && (_isOfSink || Has(line, "sink"u8) || Has(line, "snk"u8));
    }

    // "PDO 0: type 0, 5000 mV, 3000 mA [E]": the kernel's, which counts from 0.
    private int Kernel(int at)
    {
        LogCursor cursor = new(text.Bytes[at..], ignoresBlanks: true);
        if (!cursor.Literal("PDO"u8) || !cursor.Number(out int index) || !cursor.Literal(": type"u8) || !cursor.Number(out int type) || !cursor.Literal(","u8))
        {
            return 0;
        }

        int start = cursor.Position;
        bool isRead = CapabilityLine.TryReadStart(ref cursor, type, out ShownWord word);
        FoundCertain |= isRead;
        if (!isRead)
        {
            Report(at, FaultText.QuotedObjectUnread(text.Bytes.Slice(at, start)));
        }

        Add(at, new CodedOffer(isRead ? word.Value : 0, isRead ? word.Known : 0), index, countsFromZero: true);
        return isRead ? cursor.Position : start;
    }

    private int Word(int at)
    {
        ReadOnlySpan<byte> rest = text.Bytes[at..];
        bool isPrefixed = rest.StartsWith("0x"u8) || rest.StartsWith("0X"u8);
        int start = isPrefixed ? 2 : 0;
        int length = rest[start..].IndexOfAnyExcept(HexText.Digits);
        int end = length < 0 ? rest.Length : start + length;
        if ((!isPrefixed && end != Digits) || end == start || (end < rest.Length && IsOfWord(rest[end])))
        {
            return 0;
        }

        QuotedLabel? label = QuotedLabel.Before(text.Bytes, at);
        bool isCounted = label is { IsOfObject: true };
        if (label is { IsOfObject: false } || (!isPrefixed && !isCounted && !isStated) || (end - start != Digits && !isCounted))
        {
            return end;
        }

        bool isShort = end - start < Digits && (_isPadded || rest[end..].Trim(" \n"u8).IsEmpty);
        bool isRead = uint.TryParse(rest[start..end], NumberStyles.AllowHexSpecifier, CultureInfo.InvariantCulture, out uint word) && !isShort;
        if (!isRead)
        {
            Report(at, FaultText.QuotedObjectUnread(rest[..end]));
        }

        FoundCertain |= isRead && (IsSafe5V(word) || (isCounted && text.Bytes[..at].EndsWith("="u8)));
        Add(at, isRead ? new CodedOffer(word, uint.MaxValue) : default, label?.Index, countsFromZero: false);
        return end;
    }

    // A run of bytes, one by one or in fours, with nothing but blanks and commas between them.
    private int Bytes(int at)
    {
        List<byte> run = [];
        ReadOnlySpan<byte> rest = text.Bytes[at..];
        int end = 0;
        for (int next = 0; TryBytes(rest, ref next, run);)
        {
            end = next;
            int gap = rest[next..].IndexOfAnyExcept(" ,;\n"u8);
            next += Math.Max(0, gap);
            if (gap <= 0)
            {
                break;
            }
        }

        QuotedLabel? label = QuotedLabel.Before(text.Bytes, at);
        if (run.Count < sizeof(uint) || label is { IsOfObject: false })
        {
            return end;
        }

        for (int word = 0; word < run.Count; word += sizeof(uint))
        {
            bool isWhole = word + sizeof(uint) <= run.Count;
            if (!isWhole)
            {
                Report(at, FaultText.QuotedBytesLeft(run.Count - word));
            }

            uint value = isWhole ? System.Buffers.Binary.BinaryPrimitives.ReadUInt32LittleEndian(
                System.Runtime.InteropServices.CollectionsMarshal.AsSpan(run)[word..]) : 0;
            Add(at, new CodedOffer(value, isWhole ? uint.MaxValue : 0), run.Count == sizeof(uint) ? label?.Index : null, countsFromZero: false);
        }

        return end;
    }

    private static bool TryBytes(ReadOnlySpan<byte> rest, ref int at, List<byte> run)
    {
        int start = at + (rest[at..].StartsWith("0x"u8) || rest[at..].StartsWith("0X"u8) ? 2 : 0);
        int length = rest[start..].IndexOfAnyExcept(HexText.Digits);
        length = length < 0 ? rest.Length - start : length;
        bool isCut = start + length < rest.Length && IsOfWord(rest[start + length]);
        if (length is not (2 or Digits) || isCut)
        {
            return false;
        }

        run.AddRange(Convert.FromHexString(System.Text.Encoding.ASCII.GetString(rest.Slice(start, length))));
        at = start + length;
        return true;
    }

    private void Add(int at, CodedOffer coded, int? index, bool countsFromZero)
    {
        if (_isOfSink && !countsFromZero)
        {
            if (!_sinkTold)
            {
                Report(at, FaultText.QuotedOfSink);
            }

            _sinkTold = true;
        }
        else if (index > MaxIndex)
        {
            Report(at, FaultText.QuotedIndexTooLarge(index.Value));
        }
        else
        {
            _objects.Add(new QuotedObject(coded, index, countsFromZero, _section, text.LineAt(at)));
        }
    }

    private void Report(int at, string detail) => faults?.Report(text.LineAt(at), 1, FaultCodes.QuotedUnread, detail);

    private static bool IsSafe5V(uint word) => QuotedLists.IsSafe5V(new CodedOffer(word, uint.MaxValue));

    private static bool IsOfWord(byte letter) => char.IsAsciiLetterOrDigit((char)letter) || letter is (byte)'_' or >= 0x80;

    private static bool Has(ReadOnlySpan<byte> line, ReadOnlySpan<byte> word)
    {
        for (int at = 0; at + word.Length <= line.Length; at++)
        {
            if (System.Text.Ascii.EqualsIgnoreCase(line.Slice(at, word.Length), word))
            {
                return true;
            }
        }

        return false;
    }
}
