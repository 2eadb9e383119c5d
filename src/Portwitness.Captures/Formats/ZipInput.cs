using System.Buffers;
using System.IO.Compression;
using Portwitness.Captures.Input;

namespace Portwitness.Captures.Formats;

/// <summary>
/// Reads the one capture of a zip archive, or the samples that it holds in one file or in numbered ones. Its directory stands at its end, so
/// that it is held, up to a limit.
/// </summary>
internal sealed class ZipInput(ICaptureSink sink, FaultLog faults, CaptureReadOptions options, int depth) : IInputReader
{
    /// <summary>Longest archive, in bytes.</summary>
    public const int MaxBytes = 64 << 20;

    private const int MaxRatio = 250;

    private readonly ArrayBufferWriter<byte> _bytes = new();
    private ArchivedCapture? _capture;
    private bool _isTooLong;

    /// <summary>The format of what was read; null when nothing was.</summary>
    public string? Format => _capture?.Format;

    /// <summary>Whether an input begins as a zip archive does.</summary>
    public static bool IsLikely(ReadOnlySpan<byte> start) => start.StartsWith("PK\u0003\u0004"u8) || start.StartsWith("PK\u0005\u0006"u8);

    /// <inheritdoc/>
    public void Write(ReadOnlySpan<byte> piece)
    {
        if (_bytes.WrittenCount + piece.Length <= MaxBytes)
        {
            _bytes.Write(piece);
        }
        else if (!_isTooLong)
        {
            _isTooLong = true;
            faults.Report(0, 0, FaultCodes.ArchiveTooLong, FaultText.ArchiveTooLong(ArchiveKind.Zip));
        }
    }

    /// <inheritdoc/>
    public void Complete()
    {
        if (_isTooLong)
        {
            return;
        }

        try
        {
            using ZipArchive archive = new(new MemoryStream(_bytes.WrittenSpan.ToArray()), ZipArchiveMode.Read);
            _capture = new ArchivedCapture(sink, faults, options, ArchiveKind.Zip, Math.Max(MaxBytes, (long)MaxRatio * _bytes.WrittenCount), depth + 1);
            _capture.Read(archive.Entries.Select(static entry => new ArchivedFile(entry.FullName, entry.Length, entry.Open)));
        }
        catch (Exception exception) when (exception is InvalidDataException or NotSupportedException or IOException)
        {
            faults.Report(0, 0, FaultCodes.ArchiveInvalid, FaultText.ZipInvalid);
        }
    }
}
