using System.Text.Json;
using Google.Protobuf;
using Portwitness.Cli.Shell;
using Portwitness.Contracts.V1;
using Portwitness.Reports.Json;

namespace Portwitness.Cli.Files;

/// <summary>A product's report that was written in JSON before.</summary>
internal static class EarlierReport
{
    private const long MaxBytes = 256 << 20;

    /// <summary>Reads a report; null for a file that is something else, such as a capture.</summary>
    /// <exception cref="CommandFailure">It is a report that cannot be read.</exception>
    public static ProductReport? TryRead(string path)
    {
        return FileKinds.Of(path) == FileKind.Regular && !CheckSubject.IsProduct(path) && IsReport(path) ? Read(path) : null;
    }

    /// <summary>Reads a file that is a report.</summary>
    /// <exception cref="CommandFailure">It cannot be read as one.</exception>
    public static ProductReport Read(string path)
    {
        try
        {
            using StreamReader reader = new(RegularFile.Open(path, "it"));
            return JsonReport.Read(reader);
        }
        catch (Exception exception) when (exception is InvalidProtocolBufferException or CommandFailure or IOException or UnauthorizedAccessException)
        {
            throw new CommandFailure($"{path}: cannot be read as a report: {exception.Message}");
        }
    }

    // One JSON object with the members that every report has; a capture is a line each, and has neither.
    private static bool IsReport(string path)
    {
        try
        {
            using FileStream stream = File.OpenRead(path);
            if (stream.Length > MaxBytes || stream.ReadByte() != '{')
            {
                return false;
            }

            stream.Position = 0;
            using JsonDocument document = JsonDocument.Parse(stream);
            return document.RootElement.TryGetProperty("verdict", out _) && document.RootElement.TryGetProperty("findings", out _);
        }
        catch (Exception exception) when (exception is JsonException or IOException or UnauthorizedAccessException)
        {
            return false;
        }
    }
}
