using System.Buffers;
using System.Buffers.Binary;
using System.IO.Compression;
using Portwitness.Captures.Input;

namespace Portwitness.Captures.Archives;

/// <summary>Takes bytes.</summary>
internal delegate void ByteTaker(ReadOnlySpan<byte> piece);

/// <summary>Holds a small compressed input until its end, and then unpacks it piece by piece, up to a limit.</summary>
internal sealed class GzipInput(FaultLog faults)
{
    private const int MostPackedBytes = 1 << 20;
    private const int MostUnpackedBytes = 16 << 20;
    private const int PieceBytes = 16 << 10;

    private readonly ArrayBufferWriter<byte> _packed = new();
    private bool _tooLong;

    /// <summary>Whether an input begins as gzip does (RFC 1952, 2.3.1): two bytes of magic, then the one method there is.</summary>
    public static bool IsLikely(ReadOnlySpan<byte> start) => start.StartsWith((ReadOnlySpan<byte>)[0x1F, 0x8B, 8]);

    /// <summary>Takes the next piece.</summary>
    public void Write(ReadOnlySpan<byte> piece)
    {
        int room = MostPackedBytes - _packed.WrittenCount;
        _tooLong |= piece.Length > room;
        _packed.Write(piece[..Math.Min(piece.Length, room)]);
    }

    /// <summary>Hands the content on; false when it is not all of it, which is reported.</summary>
    public bool Unpack(ByteTaker take)
    {
        using GZipStream stream = new(new MemoryStream(_packed.WrittenSpan.ToArray()), CompressionMode.Decompress);
        byte[] piece = new byte[PieceBytes];
        long unpacked = 0;
        bool isWhole = false;
        try
        {
            for (int length; (length = stream.Read(piece)) > 0 && (unpacked += length) <= MostUnpackedBytes;)
            {
                take(piece.AsSpan(0, length));
            }

            isWhole = unpacked == StatedLength();
        }
        catch (Exception exception) when (exception is InvalidDataException or IOException)
        {
        }

        _tooLong |= unpacked > MostUnpackedBytes;
        if (!isWhole && !_tooLong)
        {
            faults.Report(0, 0, FaultCodes.ArchiveInvalid, FaultText.GzipInvalid);
        }

        if (_tooLong)
        {
            faults.Report(0, 0, FaultCodes.ArchiveTooLong, FaultText.GzipTooLong);
        }

        return isWhole && !_tooLong;
    }

    // The length of what was packed ends the file (RFC 1952, 2.3.1). The stream ends silently where a file is cut.
    private long StatedLength() =>
        _packed.WrittenCount < 18 ? -1 : BinaryPrimitives.ReadUInt32LittleEndian(_packed.WrittenSpan[^4..]);
}
