using System.Text.Json;
using Portwitness.Cli.Files;
using Portwitness.Cli.Shell;

namespace Portwitness.Cli.Batches;

/// <summary>
/// The file that says which products of a batch are done, a line each, written after the product's report is in its place and on disk:
/// whatever ends the process or the machine, a product either has its line and its report, or is done again and its report replaced.
/// </summary>
internal sealed class BatchJournal : IDisposable
{
    public const string FileName = "batch.journal.jsonl";

    private readonly string _folder;
    private readonly FileStream _stream;

    private BatchJournal(string folder, FileStream stream, Dictionary<string, BatchEntry> done) => (_folder, _stream, Done) = (folder, stream, done);

    /// <summary>What was done before, each with its report in place.</summary>
    public Dictionary<string, BatchEntry> Done { get; }

    /// <summary>Goes on with the journal of a folder, or begins it anew.</summary>
    public static BatchJournal Open(string folder, bool resume)
    {
        string path = Path.Combine(folder, FileName);
        try
        {
            Directory.CreateDirectory(folder);
            if (FileKinds.Of(path) is not (FileKind.Regular or FileKind.Missing) and FileKind kind)
            {
                throw new CommandFailure($"{path}: {FileKinds.WhyUnreadable(kind)}.");
            }

            FileStream stream = new(path, resume ? FileMode.OpenOrCreate : FileMode.Create, FileAccess.ReadWrite, FileShare.None);
            AtomicFile.RemoveLeftovers(folder);
            Dictionary<string, BatchEntry> done = ReadFrom(stream, folder);
            stream.Position = 0;
            stream.SetLength(EndOfWholeLines(stream));
            stream.Seek(0, SeekOrigin.End);
            FolderSync.Run(Path.GetDirectoryName(Path.GetFullPath(Path.TrimEndingDirectorySeparator(folder))) ?? "/");
            return new BatchJournal(folder, stream, done);
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
            using FileStream stream = RegularFile.Open(path, $"{path}:");
            return ReadFrom(stream, folder);
        }
        catch (Exception exception) when (exception is FileNotFoundException or DirectoryNotFoundException)
        {
            throw new CommandFailure($"{folder}: holds no {FileName}; name the --output folder of an earlier batch.");
        }
        catch (Exception exception) when (exception is IOException or UnauthorizedAccessException)
        {
            throw new CommandFailure($"{path}: cannot be read: {exception.Message}");
        }
    }

    /// <summary>Notes products whose reports are in their places; they are on disk before the journal says so.</summary>
    /// <exception cref="CommandFailure">It cannot be written; then nothing more can be called done.</exception>
    public void Add(IEnumerable<BatchEntry> entries)
    {
        BatchEntry[] news = [.. entries.Where(entry => !Done.TryGetValue(entry.Product, out BatchEntry? known) || !ReferenceEquals(known, entry))];
        if (news.Length == 0)
        {
            return;
        }

        try
        {
            FolderSync.Run(_folder);
            foreach (BatchEntry entry in news)
            {
                _stream.Write([.. JsonSerializer.SerializeToUtf8Bytes(entry, BatchEntryJson.Default.BatchEntry), (byte)'\n']);
            }

            _stream.Flush(flushToDisk: true);
        }
        catch (IOException exception)
        {
            throw new CommandFailure($"{_stream.Name}: cannot be written: {exception.Message}; make room, and go on with --resume.");
        }
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

        return entries.Where(entry => entry.Value.Problem is null && HasReport(entry.Value, folder)).ToDictionary();
    }

    private static bool HasReport(BatchEntry entry, string folder)
    {
        string? place = entry.Report.Length > 0 ? folder : Path.GetDirectoryName(entry.EarlierReport);
        return ReportNames.IsOfAProduct(entry.Report) && !string.IsNullOrEmpty(place) && entry.ReportDigests.Count > 0
            && entry.ReportDigests.All(file => ReportFiles.IsWhole(place, file.Key, file.Value));
    }

    // A line that was cut off, or damaged, is of a product that is done again.
    private static BatchEntry? Parse(string line)
    {
        try
        {
            return JsonSerializer.Deserialize(line, BatchEntryJson.Default.BatchEntry) is { IsComplete: true } entry ? entry : null;
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
