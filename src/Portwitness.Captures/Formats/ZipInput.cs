using System.Buffers;
using System.IO.Compression;
using Portwitness.Captures.Input;

namespace Portwitness.Captures.Formats;

/// <summary>
/// Reads the one capture of a zip archive, or the samples that it holds in one file or in numbered ones. Its directory stands at its end, so
/// that it is held, up to a limit.
/// </summary>
internal sealed class ZipInput(ICaptureSink sink, FaultLog faults, CaptureReadOptions options) : IInputReader
{
    /// <summary>Longest archive, in bytes.</summary>
    public const int MaxBytes = 64 << 20;

    private const int MaxEntries = 1_000;
    private const int MaxRatio = 250;
    private const int PieceBytes = 1 << 16;

    private readonly ArrayBufferWriter<byte> _bytes = new();
    private DetectingInput? _content;
    private bool _isTooLong;

    /// <summary>The format of what was read; null when nothing was.</summary>
    public string? Format => _content?.Format;

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
            faults.Report(0, 0, FaultCodes.ArchiveTooLong, FaultText.ZipTooLong);
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
            Read([.. archive.Entries.Where(static entry => entry.Name.Length > 0 && !entry.Name.StartsWith('.')).Take(MaxEntries)]);
        }
        catch (Exception exception) when (exception is InvalidDataException or NotSupportedException or IOException)
        {
            faults.Report(0, 0, FaultCodes.ArchiveInvalid, FaultText.ZipInvalid);
        }

        _content?.Complete();
    }

    private void Read(ZipArchiveEntry[] entries)
    {
        ZipArchiveEntry[] chosen = options.Waveform.Samples is not null ? Samples(entries) : [.. entries.Where(HoldsRecords)];
        if (chosen.Length == 0 || (chosen.Length > 1 && options.Waveform.Samples is null))
        {
            string names = string.Join(", ", (chosen.Length == 0 ? entries : chosen).Take(20).Select(static entry => FaultText.Printable(entry.FullName)));
            faults.Report(0, 0, FaultCodes.ArchiveUnsettled, chosen.Length == 0 ? FaultText.ZipWithoutCapture(names) : FaultText.ZipOfSeveral(names));
            return;
        }

        if (entries.Length > 1)
        {
            faults.Report(0, 0, FaultCodes.SignalChosen, FaultText.ZipChosen(chosen[0].FullName, chosen.Length));
        }

        _content = new DetectingInput(sink, faults, options, unpacked: true);
        long left = Math.Max(MaxBytes, (long)MaxRatio * _bytes.WrittenCount);
        foreach (ZipArchiveEntry entry in chosen)
        {
            Copy(entry, _content, ref left);
        }
    }

    private void Copy(ZipArchiveEntry entry, DetectingInput content, ref long left)
    {
        using Stream stream = entry.Open();
        byte[] piece = new byte[PieceBytes];
        for (int length; (length = stream.Read(piece)) > 0;)
        {
            if ((left -= length) < 0)
            {
                faults.Report(0, 0, FaultCodes.ArchiveTooLong, FaultText.ZipTooLong);
                return;
            }

            content.Write(piece.AsSpan(0, length));
        }
    }

    // Who exports samples writes them beside a description, in one file or in parts "name-1", "name-2".
    private static ZipArchiveEntry[] Samples(ZipArchiveEntry[] entries) =>
    [
        .. entries.GroupBy(static entry => entry.FullName.TrimEnd(['0', '1', '2', '3', '4', '5', '6', '7', '8', '9'])).MaxBy(static group => group.Sum(static entry => entry.Length))
            ?.OrderBy(static entry => entry.FullName.Length).ThenBy(static entry => entry.FullName, StringComparer.Ordinal) ?? Enumerable.Empty<ZipArchiveEntry>(),
    ];

    // A description in JSON looks like a capture, and has no record.
    private bool HoldsRecords(ZipArchiveEntry entry)
    {
        RecordCounter counter = new();
        DetectingInput input = new(counter, new FaultLog(counter), options, unpacked: true);
        using Stream stream = entry.Open();
        byte[] start = new byte[PieceBytes];
        input.Write(start.AsSpan(0, stream.ReadAtLeast(start, start.Length, throwOnEndOfStream: false)));
        input.Complete();
        return counter.Any;
    }

    private sealed class RecordCounter : ICaptureSink
    {
        public bool Any { get; private set; }

        public void OnHeader(CaptureHeader header)
        {
        }

        public void OnMessage(in MessageRecord message) => Any = true;

        public void OnSignal(SignalRecord signal) => Any = true;

        public void OnMeasurement(MeasurementRecord measurement) => Any = true;

        public void OnEvent(EventRecord happened)
        {
        }

        public void OnFault(CaptureFault fault)
        {
        }
    }
}
