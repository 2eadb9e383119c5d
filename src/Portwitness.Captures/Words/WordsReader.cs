using System.Buffers.Binary;
using System.Globalization;
using Portwitness.Captures.Input;
using Portwitness.PowerDelivery.Framing;
using Portwitness.PowerDelivery.Headers;
using Portwitness.PowerDelivery.Limits;
using Portwitness.PowerDelivery.Messages;
using Portwitness.PowerDelivery.PowerData;

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
    private const ushort KnownOfHeader = 0xF01F;
    private const ushort KnownOfOverfullHeader = 0x801F;
    private const ushort KnownOfExtendedMessageHeader = 0x801F;
    private const ushort KnownOfExtendedHeader = 0x01FF;

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

    // From position 8 an EPR list holds fixed supplies above 20 V and EPR AVS (R3.2v1.1, 6.5.15.1).
    private static bool IsOfEpr((uint Value, bool Known) word)
    {
        SourcePowerObject offered = new(word.Value);
        return word.Known && (offered.Kind == PowerObjectKind.EprAvs
            || (offered.Kind == PowerObjectKind.Fixed && offered.AsFixed().Voltage > Electrical.SprMaximumFixed));
    }

    private void HandOn()
    {
        int count = _words.Count;
        bool extended = count > MaximumSprObjects && IsOfEpr(_words[MaximumSprObjects]);
        int start = extended ? 4 : 2;
        byte[] bytes = new byte[start + (4 * count)];
        byte[] known = new byte[bytes.Length];
        MessageKind kind = extended ? MessageKind.EPRSourceCapabilities : MessageKind.SourceCapabilities;
        MessageHeader header = MessageHeader.Create(kind, extended ? 0 : Math.Min(count, MaximumSprObjects), 0, false, false, 0);
        BinaryPrimitives.WriteUInt16LittleEndian(bytes, header.Raw);
        BinaryPrimitives.WriteUInt16LittleEndian(known, extended ? KnownOfExtendedMessageHeader
            : count > MaximumSprObjects ? KnownOfOverfullHeader : KnownOfHeader);
        if (extended)
        {
            BinaryPrimitives.WriteUInt16LittleEndian(bytes.AsSpan(2), ExtendedHeader.Create(false, 0, false, 4 * count).Raw);
            BinaryPrimitives.WriteUInt16LittleEndian(known.AsSpan(2), KnownOfExtendedHeader);
        }

        for (int index = 0; index < count; index++)
        {
            (uint value, bool isKnown) = _words[index];
            BinaryPrimitives.WriteUInt32LittleEndian(bytes.AsSpan(start + (4 * index)), value);
            BinaryPrimitives.WriteUInt32LittleEndian(known.AsSpan(start + (4 * index)), isKnown ? uint.MaxValue : 0);
        }

        sink.OnMessage(new MessageRecord
        {
            TimeUs = 0, Line = _firstLine, Sop = SopKind.Sop, Bytes = bytes, Known = known,
        });
    }
}
