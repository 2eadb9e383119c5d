using System.Security.Cryptography;
using System.Text;
using Portwitness.Cli.Files;
using Portwitness.Cli.Shell;
using Portwitness.Contracts.V1;
using Portwitness.Reports;
using Portwitness.Reports.Formats;

namespace Portwitness.Cli.Batches;

/// <summary>Writes the files of one product's report, each whole and on disk; their folder is synced with the journal.</summary>
/// <param name="folder">The batch's folder.</param>
/// <param name="formats">A file of each; the first one names them.</param>
internal sealed class ReportFiles(string folder, IReadOnlyList<ReportFormat> formats)
{
    private const int BufferBytes = 16 << 10;

    private static readonly UTF8Encoding Utf8 = new(encoderShouldEmitUTF8Identifier: false);

    /// <summary>Writes all.</summary>
    /// <returns>Their names and digests.</returns>
    /// <exception cref="CommandFailure">One cannot be written, whatever the reason.</exception>
    public Dictionary<string, string> Write(string name, ReportedProduct product)
    {
        Dictionary<string, string> digests = [];
        foreach (ReportFormat format in formats)
        {
            string file = BatchFormats.Beside(name, formats[0], format);
            try
            {
                digests[file] = Write(file, format, product);
            }
            catch (Exception exception) when (exception is not OperationCanceledException)
            {
                throw new CommandFailure($"its report cannot be written as {format.Name}: {WhyOf(exception)}");
            }
        }

        return digests;
    }

    /// <summary>Writes what tells that there is no report, wherever that can be written; an older report does not stay in its place.</summary>
    public void Replace(string name, ProductReport report, ReportedProduct product)
    {
        foreach (ReportFormat format in formats)
        {
            string file = BatchFormats.Beside(name, formats[0], format);
            try
            {
                Write(file, format, product with { Read = () => report });
            }
            catch (Exception exception) when (exception is not OperationCanceledException)
            {
                Remove(Path.Combine(folder, file));
            }
        }
    }

    /// <summary>Whether a file is there as it was written.</summary>
    public static bool IsWhole(string folder, string file, string digest)
    {
        try
        {
            using FileStream stream = RegularFile.Open(Path.Combine(folder, Path.GetFileName(file)), file);
            return Convert.ToHexStringLower(SHA256.HashData(stream)) == digest;
        }
        catch (Exception exception) when (exception is CommandFailure or IOException or UnauthorizedAccessException)
        {
            return false;
        }
    }

    private string Write(string name, ReportFormat format, ReportedProduct product)
    {
        using AtomicFile file = AtomicFile.Create(Path.Combine(folder, name));
        using SHA256 hash = SHA256.Create();
        CryptoStream hashed = new(file.Stream, hash, CryptoStreamMode.Write, leaveOpen: true);
        StreamWriter writer = new(hashed, Utf8, BufferBytes);
        format.Write(writer, new ReportSet([product]) { Indented = true });
        writer.Flush();
        hashed.FlushFinalBlock();
        file.Commit(syncFolder: false);
        return Convert.ToHexStringLower(hash.Hash!);
    }

    /// <summary>What went wrong, for people.</summary>
    public static string WhyOf(Exception exception) => exception is CommandFailure or IOException or UnauthorizedAccessException ? exception.Message
        : $"a fault in Portwitness itself ({exception.GetType().Name}: {exception.Message}) Please report it with the input.";

    private static void Remove(string path)
    {
        try
        {
            File.Delete(path);
        }
        catch (Exception exception) when (exception is IOException or UnauthorizedAccessException)
        {
            // Nothing says that it is of this batch.
        }
    }
}
