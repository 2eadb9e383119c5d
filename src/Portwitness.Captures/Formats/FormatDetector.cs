using Portwitness.Captures.Archives;
using Portwitness.Captures.KernelLog;
using Portwitness.Captures.Offers;
using Portwitness.Captures.Quoted;
using Portwitness.Captures.Sysfs;
using Portwitness.Captures.Tables;
using Portwitness.Captures.Waveforms;
using Portwitness.Captures.Words;

namespace Portwitness.Captures.Formats;

/// <summary>What the first bytes of an input look like.</summary>
internal enum DetectedFormat
{
    Unknown,
    Utf16,
    Gzip,
    Tar,
    Zip,
    Capture,
    KernelLog,
    Sysfs,
    Words,
    Offers,
    Quoted,
    Vcd,
    VoltageTable,
    Table,
}

/// <summary>Tells the formats apart by content; names of files say nothing.</summary>
internal static class FormatDetector
{
    /// <param name="start">The first bytes after blanks, at least one.</param>
    /// <param name="waveform">What is known of a recording of the line.</param>
    public static DetectedFormat Detect(ReadOnlySpan<byte> start, WaveformOptions waveform)
    {
        if (IsCaptureFromItsFirstLine(start))
        {
            return DetectedFormat.Capture;
        }

        if (GzipInput.IsLikely(start) || TarInput.IsLikely(start))
        {
            return GzipInput.IsLikely(start) ? DetectedFormat.Gzip : DetectedFormat.Tar;
        }

        if (ZipInput.IsLikely(start))
        {
            return DetectedFormat.Zip;
        }

        if (IsUtf16(start))
        {
            return DetectedFormat.Utf16;
        }

        if (start[0] == '{' && !IsArray(start))
        {
            return DetectedFormat.Capture;
        }

        if (VcdReader.IsLikely(start))
        {
            return DetectedFormat.Vcd;
        }

        if (VoltageTable.IsLikely(start, waveform))
        {
            return DetectedFormat.VoltageTable;
        }

        DetectedFormat found = DetectedFormat.Unknown;
        bool first = true;
        bool beginsWithWord = false;
        bool ofKernel = false;
        bool ofObjects = true;
        foreach (Range range in start.Split((byte)'\n'))
        {
            ReadOnlySpan<byte> line = start[range].Trim(" \t\r"u8);
            if (KernelLogLine.IsLikely(line))
            {
                ofKernel = true;
                ofObjects &= KernelLogLine.IsOfObject(line);
                continue;
            }

            if (!ofKernel && SysfsLine.IsLikely(line))
            {
                return DetectedFormat.Sysfs;
            }

            if (first && !ofKernel && !line.IsEmpty && !TableReader.IsComment(line))
            {
                first = false;
                beginsWithWord = WordsReader.IsLikely(line);
                if (TableHeading.IsLikely(line))
                {
                    return DetectedFormat.Table;
                }

                if (OffersReader.IsLikely(line))
                {
                    return DetectedFormat.Offers;
                }
            }

            if (found == DetectedFormat.Unknown && line is [(byte)'{', _, ..] && !IsArray(line))
            {
                found = DetectedFormat.Capture;
            }
            else if (found == DetectedFormat.Unknown && WordsReader.IsLikely(line))
            {
                found = DetectedFormat.Words;
            }
        }

        // Objects of a kernel's log without anything else of it were copied out of one. A list of words begins with one.
        bool mayBeQuoted = ofKernel ? ofObjects : found == DetectedFormat.Unknown || (found == DetectedFormat.Words && !beginsWithWord);
        return mayBeQuoted && QuotedReader.IsLikely(start) ? DetectedFormat.Quoted
            : ofKernel ? DetectedFormat.KernelLog
            : found;
    }

    /// <summary>
    /// Whether the first line is there and settles it, so that a capture that is still being recorded is read from its first line on. Other
    /// formats are told by more than that.
    /// </summary>
    public static bool IsCaptureFromItsFirstLine(ReadOnlySpan<byte> start) =>
        start is [(byte)'{', ..] && !IsArray(start) && start.IndexOf((byte)'\n') is > 0 and var end && !start[..end].Contains((byte)0);

    // "{ 0x0801912C, ": an array of a program's text.
    private static bool IsArray(ReadOnlySpan<byte> start) =>
        start is [(byte)'{', .. var rest] && rest.TrimStart(" \t\r\n"u8) is [(byte)'0', (byte)'x' or (byte)'X', ..];

    private static bool IsUtf16(ReadOnlySpan<byte> start) =>
        start.StartsWith("\uFEFF"u8) is false && (start.StartsWith((ReadOnlySpan<byte>)[0xFF, 0xFE]) ||
            start.StartsWith((ReadOnlySpan<byte>)[0xFE, 0xFF]) ||
            (start.Length >= 4 && (start[0] == 0) != (start[1] == 0) && start[0] == 0 == (start[2] == 0) &&
                start[1] == 0 == (start[3] == 0)));
}
