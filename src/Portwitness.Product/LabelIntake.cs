using System.Buffers;
using System.Text;
using Portwitness.Labels;

namespace Portwitness.Product;

/// <summary>Takes the bytes of a label's file. Memory is bounded: what is longer than any label is counted as too long, and dropped.</summary>
public sealed class LabelIntake
{
    // With a byte order mark.
    private static readonly int MaxBytes = LabelLimits.MaxBytes + Encoding.UTF8.Preamble.Length;

    private static readonly UTF8Encoding Strict = new(encoderShouldEmitUTF8Identifier: false, throwOnInvalidBytes: true);

    private readonly ArrayBufferWriter<byte> _bytes = new();
    private bool _isTooLong;

    /// <summary>Takes the next piece.</summary>
    public void Write(ReadOnlySpan<byte> piece)
    {
        _isTooLong |= piece.Length > MaxBytes - _bytes.WrittenCount;
        if (!_isTooLong)
        {
            _bytes.Write(piece);
        }
    }

    /// <summary>The text; null with what is wrong when there is none that can be read.</summary>
    internal string? Complete(out string? problem)
    {
        problem = null;
        if (_isTooLong)
        {
            problem = $"it is longer than a label; {LabelLimits.MaxBytes} bytes (64 KiB) are at most";
            return null;
        }

        try
        {
            ReadOnlySpan<byte> text = _bytes.WrittenSpan;
            return Strict.GetString(text.StartsWith(Encoding.UTF8.Preamble) ? text[Encoding.UTF8.Preamble.Length..] : text);
        }
        catch (DecoderFallbackException exception)
        {
            problem = $"byte {exception.Index + 1} is not UTF-8; save the file as UTF-8";
            return null;
        }
    }
}
