using System.Text;
using System.Text.RegularExpressions;
using Portwitness.Captures;
using Portwitness.Captures.Formats;
using Portwitness.Captures.PowerLogs;
using Portwitness.Cli.Files;
using Portwitness.Cli.Shell;
using Portwitness.Labels;

namespace Portwitness.Cli.Starting;

/// <summary>Looks at the files of a folder: by what they hold, and by their names where that says nothing.</summary>
internal static partial class FolderSurvey
{
    /// <summary>Files that are looked at.</summary>
    public const int MaxFiles = 1_000;

    // The header of a capture and the heading of a log stand at the beginning.
    private const int BytesLookedAt = 1 << 16;

    private static readonly string[] Pictures = [".jpg", ".jpeg", ".png", ".webp", ".heic"];

    /// <summary>The files, in the order of their names; folders and hidden files are left out.</summary>
    public static List<FoundFile> Of(string folder) =>
    [
        .. new DirectoryInfo(folder).EnumerateFiles().Where(static file => !file.Name.StartsWith('.') && FileKinds.Of(file.FullName) == FileKind.Regular)
            .OrderBy(static file => file.Name, StringComparer.Ordinal).Take(MaxFiles).Select(Look),
    ];

    private static FoundFile Look(FileInfo file)
    {
        FoundFile found = new(file.Name, FoundKind.Other) { PortByName = PortOf(file.Name) };
        if (Pictures.Contains(file.Extension, StringComparer.OrdinalIgnoreCase))
        {
            return found with { Kind = FoundKind.Photo };
        }

        if (file.Extension is ".yaml" or ".yml" or ".json" or ".html")
        {
            return found;
        }

        byte[] start = Start(file);
        HeaderSink header = new();
        CaptureReader reader = new(header);
        reader.Write(start);
        reader.Complete();
        bool isTable = reader.Format is null or "table" or "samples";
        return isTable && IsLog(start) ? found with { Kind = FoundKind.Log }
            : reader.Format is null ? found with { Kind = IsLabel(start) ? FoundKind.Label : FoundKind.Other }
            : found with
            {
                Kind = reader.Format == "offers" ? FoundKind.Offers : FoundKind.Capture,
                Port = header.Header?.Port, Ports = header.Header?.Ports ?? [], StatesInUse = header.Header is { } h && !(h.InUse.IsEmpty && h.AttachOrder.IsEmpty),
            };
    }

    private static byte[] Start(FileInfo file)
    {
        try
        {
            using Stream stream = RegularFile.Open(file.FullName, file.Name);
            byte[] start = new byte[Math.Min(BytesLookedAt, file.Length)];
            return start[..stream.ReadAtLeast(start, start.Length, throwOnEndOfStream: false)];
        }
        catch (Exception exception) when (exception is IOException or UnauthorizedAccessException or CommandFailure)
        {
            return [];
        }
    }

    private static bool IsLog(byte[] start)
    {
        RowSink rows = new();
        using PowerLogReader reader = new(rows);
        reader.Write(start);
        reader.Complete();
        return rows.Count > 1;
    }

    private static bool IsLabel(byte[] start)
    {
        string text = Encoding.UTF8.GetString(start);
        return LabelLimits.Excess(text) is null && LabelReader.Read(text) is { Outputs.IsEmpty: false };
    }

    private static string? PortOf(string name) => PortWord.Match(name) is { Success: true } match
        ? PortNames.Shorten(match.Groups["port"].Value.Replace('_', '-')).ToUpperInvariant() : null;

    [GeneratedRegex("^(?<port>(?:usb[-_]?)?(?:type[-_]?)?[ac][0-9]?)(?=[-_. ])", RegexOptions.IgnoreCase | RegexOptions.CultureInvariant)]
    private static partial Regex PortWord { get; }

    private sealed class RowSink : IPowerLogSink
    {
        public int Count { get; private set; }

        public void OnRow(in PowerLogRow row) => Count++;

        public void OnFault(CaptureFault fault)
        {
        }
    }

    private sealed class HeaderSink : ICaptureSink
    {
        public CaptureHeader? Header { get; private set; }

        public void OnHeader(CaptureHeader header) => Header ??= header;

        public void OnMessage(in MessageRecord message)
        {
        }

        public void OnSignal(SignalRecord signal)
        {
        }

        public void OnMeasurement(MeasurementRecord measurement)
        {
        }

        public void OnEvent(EventRecord happened)
        {
        }

        public void OnFault(CaptureFault fault)
        {
        }
    }
}
