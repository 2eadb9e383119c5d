using System.Text;
using Portwitness.Captures.Archives;
using Portwitness.Captures.Input;
using Portwitness.Captures.Sysfs;

namespace Portwitness.Captures.Formats;

/// <summary>
/// Reads a tar archive: of the kernel's power-delivery directory each line as "path:line", the number of the entry in place of the line's;
/// of anything else the one capture that it holds.
/// </summary>
internal sealed class TarArchive(ICaptureSink sink, FaultLog faults, CaptureReadOptions options, int depth) : IInputReader
{
    /// <summary>What sysfs gives of one attribute at most.</summary>
    private const int MaxAttributeBytes = 4096;

    private readonly TarInput _tar = new(faults);

    /// <summary>The format of what was read; null when nothing was.</summary>
    public string? Format { get; private set; }

    private ArchiveKind Kind => _tar.IsFolder ? ArchiveKind.Folder : ArchiveKind.Tar;

    /// <inheritdoc/>
    public void Write(ReadOnlySpan<byte> piece) => _tar.Write(piece);

    /// <inheritdoc/>
    public void Complete()
    {
        _tar.Complete();
        if (options.Waveform.Samples is null && (_tar.Files.Count == 0 || _tar.Files.Any(static file => IsOfClass(file.Name))))
        {
            Format = "sysfs";
            ReadClass(new SysfsReader(sink, faults));
            return;
        }

        ArchivedCapture capture = new(sink, faults, options, Kind, TarInput.MaxBytes, depth + 1);
        capture.Read([.. _tar.Files.Select(file => new ArchivedFile(Encoding.UTF8.GetString(file.Name), file.Content.Length, () => Open(file)))]);
        Format = capture.Format;
    }

    private static bool IsOfClass(byte[] name)
    {
        byte[] line = [.. name, .. ":x"u8];
        return SysfsLine.TryRead(line, out _) || name.AsSpan().IndexOf("usb_power_delivery"u8) >= 0
            || Encoding.UTF8.GetString(name).Split('/').SkipLast(1).Any(static part => part is ['p', 'd', _, ..] && part.AsSpan(2).IndexOfAnyExceptInRange('0', '9') < 0);
    }

    private MemoryStream Open(TarFile file)
    {
        if (file.IsCut)
        {
            faults.Report(file.Entry, 0, FaultCodes.ArchiveTooLong, FaultText.ArchiveTooLong(Kind));
        }

        return new MemoryStream(file.Content, writable: false);
    }

    private void ReadClass(SysfsReader reader)
    {
        foreach (TarFile file in _tar.Files)
        {
            if (file.IsCut || file.Content.Length > MaxAttributeBytes)
            {
                faults.Report(file.Entry, 0, FaultCodes.ArchiveTooLong, FaultText.ArchiveEntryTooLong(file.Name));
                continue;
            }

            foreach (Range line in file.Content.AsSpan().Split((byte)'\n'))
            {
                if (!file.Content.AsSpan(line).IsEmpty)
                {
                    reader.Read(file.Entry, [.. file.Name, (byte)':', .. file.Content.AsSpan(line)]);
                }
            }
        }

        reader.Complete();
    }
}
