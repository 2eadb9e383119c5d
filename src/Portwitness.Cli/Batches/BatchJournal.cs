using System.Text.Json;
using Portwitness.Cli.Files;

namespace Portwitness.Cli.Batches;

/// <summary>
/// The file that says which products of a batch are done, a line each, written after the product's report is in its place: whatever
/// ends the process, a product either has its line and its report, or is done again and its report replaced.
/// </summary>
internal sealed class BatchJournal : IDisposable
{
    public const string FileName = "batch.journal.jsonl";

    private readonly FileStream _stream;

    private BatchJournal(FileStream stream, Dictionary<string, BatchEntry> done) => (_stream, Done) = (stream, done);

    /// <summary>What was done before, each with its report in place.</summary>
    public Dictionary<string, BatchEntry> Done { get; }

    /// <summary>Goes on with the journal of a folder, or begins it anew.</summary>
    public static BatchJournal Open(string folder, bool resume)
    {
        string path = Path.Combine(folder, FileName);
        try
        {
            Directory.CreateDirectory(folder);
            FileStream stream = new(path, resume ? FileMode.OpenOrCreate : FileMode.Create, FileAccess.ReadWrite, FileShare.None);
            AtomicFile.RemoveLeftovers(folder);
            Dictionary<string, BatchEntry> done = ReadFrom(stream, folder);
            stream.Position = 0;
            stream.SetLength(EndOfWholeLines(stream));
            stream.Seek(0, SeekOrigin.End);
            return new BatchJournal(stream, done);
        }
        catch (Exception exception) when (exception is IOException or UnauthorizedAccessException)
        {
            throw new CommandFailure($"{path}: cannot be written; does another batch write to this folder? {exception.Message}");
        }
    }

    /// <summary>What the journal of another batch says, the last line of each product.</summary>
    public static Dictionary<string, BatchEntry> Read(string folder)
    {
        string path = Path.Combine(folder, FileName);
        try
        {
            if (!File.Exists(path))
            {
                throw new CommandFailure($"{folder}: holds no {FileName}; name the --output folder of an earlier batch.");
            }

            using FileStream stream = new(path, FileMode.Open, FileAccess.Read, FileShare.ReadWrite);
            return ReadFrom(stream, folder);
        }
        catch (Exception exception) when (exception is IOException or UnauthorizedAccessException)
        {
            throw new CommandFailure($"{path}: cannot be read: {exception.Message}");
        }
    }

    /// <summary>Notes a product whose report is in its place.</summary>
    public void Add(BatchEntry entry)
    {
        if (Done.TryGetValue(entry.Product, out BatchEntry? known) && ReferenceEquals(known, entry))
        {
            return;
        }

        byte[] line = [.. JsonSerializer.SerializeToUtf8Bytes(entry, BatchEntryJson.Default.BatchEntry), (byte)'\n'];
        _stream.Write(line);
        _stream.Flush();
    }

    public void Dispose() => _stream.Dispose();

    // What could not be read may be readable now; what has lost its report needs another one.
    private static Dictionary<string, BatchEntry> ReadFrom(Stream stream, string folder)
    {
        Dictionary<string, BatchEntry> entries = [];
        using StreamReader reader = new(stream, leaveOpen: true);
        while (reader.ReadLine() is { } line)
        {
            if (Parse(line) is { } entry)
            {
                entries[entry.Product] = entry;
            }
        }

        return entries.Where(entry => entry.Value.Problem is null && (entry.Value.Report.Length == 0
            || File.Exists(Path.Combine(folder, Path.GetFileName(entry.Value.Report))))).ToDictionary();
    }

    // A line that was cut off, or damaged, is of a product that is done again.
    private static BatchEntry? Parse(string line)
    {
        try
        {
            return JsonSerializer.Deserialize(line, BatchEntryJson.Default.BatchEntry);
        }
        catch (JsonException)
        {
            return null;
        }
    }

    private static long EndOfWholeLines(FileStream stream)
    {
        long end = 0;
        Span<byte> buffer = stackalloc byte[4096];
        for (long at = 0; stream.Read(buffer) is > 0 and int length; at += length)
        {
            int last = buffer[..length].LastIndexOf((byte)'\n');
            end = last < 0 ? end : at + last + 1;
        }

        return end;
    }
}
