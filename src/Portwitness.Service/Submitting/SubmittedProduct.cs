using System.Security.Cryptography;
using System.Text;
using Google.Protobuf;
using Portwitness.Product;
using Portwitness.Service.Calls;
using Portwitness.Service.Validation;

using Wire = Portwitness.Contracts.V1;

namespace Portwitness.Service.Submitting;

/// <summary>A product with its files, as one request tells of it.</summary>
internal sealed class SubmittedProduct
{
    private const int HashCharacters = 64;

    private SubmittedProduct(Wire.SubmitRequest request, IReadOnlyList<string> wantedFiles) => (Request, WantedFiles) = (request, wantedFiles);

    /// <summary>What was sent.</summary>
    public Wire.SubmitRequest Request { get; }

    /// <summary>Files that the options name and the request does not.</summary>
    public IReadOnlyList<string> WantedFiles { get; }

    /// <summary>Hashes of files that have to be uploaded.</summary>
    public IReadOnlyCollection<string> Hashes => [.. Request.Files.Where(static file => file.HasSha256).Select(static file => file.Sha256).Distinct()];

    /// <summary>
    /// What makes it the same: the tool's version, the options, and each file by its name and the hash of its bytes, in the order of names. What
    /// the product file is called, and whether plots are wanted, does not count.
    /// </summary>
    public string Key()
    {
        Wire.SubmitRequest same = new() { Options = Request.Options.Clone() };
        same.Options.Plots = false;
        if (same.Options.Product is { } product)
        {
            product.File = "";
        }

        same.Files.AddRange(Request.Files.Select(HashedOf).OrderBy(static file => file.File, StringComparer.Ordinal));
        using IncrementalHash hash = IncrementalHash.CreateHash(HashAlgorithmName.SHA256);
        hash.AppendData(Encoding.UTF8.GetBytes(Version + "\n"));
        hash.AppendData(same.ToByteArray());
        return Convert.ToHexStringLower(hash.GetHashAndReset());
    }

    /// <summary>Looks a request over.</summary>
    /// <param name="request">It.</param>
    /// <param name="field">Where it stands in the call's message, with a dot; empty for the whole message.</param>
    /// <param name="limits">What is taken.</param>
    /// <exception cref="Grpc.Core.RpcException">Something is wrong with it: InvalidArgument.</exception>
    public static SubmittedProduct Read(Wire.SubmitRequest request, string field, ServiceLimits limits)
    {
        if (request.Options is not { } options)
        {
            throw InvalidRequest.Because(field + "options", "missing; send a product file or name a capture.");
        }

        using ProductCheck check = CheckSetup.Read(options, limits);
        InvalidRequest invalid = new();
        HashSet<string> given = [];
        for (int index = 0; index < Math.Min(request.Files.Count, limits.FilesPerProduct); index++)
        {
            CheckFile(request.Files[index], $"{field}files[{index}]", given, invalid, limits);
        }

        if (request.Files.Count > limits.FilesPerProduct)
        {
            invalid.AddTooMuch(field + "files", $"{request.Files.Count} files; at most {limits.FilesPerProduct} are taken.");
        }

        invalid.ThrowIfAny();
        return new SubmittedProduct(request, [.. FilesOf(check).Distinct().Where(file => !given.Contains(file))]);
    }

    private static string Version { get; } = typeof(SubmittedProduct).Assembly.GetName().Version!.ToString(3);

    private static void CheckFile(Wire.SubmittedFile file, string field, HashSet<string> given, InvalidRequest invalid, ServiceLimits limits)
    {
        invalid.CheckName(field + ".file", file.File, limits);
        if (!given.Add(file.File))
        {
            invalid.Add(field + ".file", "named twice.");
        }

        switch (file.ContentCase)
        {
            case Wire.SubmittedFile.ContentOneofCase.Data when file.Data.Length > limits.PieceBytes:
                invalid.AddTooMuch(field + ".data", $"{file.Data.Length} bytes; at most {limits.PieceBytes} are taken here. Upload it, and name its hash.");
                break;
            case Wire.SubmittedFile.ContentOneofCase.Sha256 when !IsHash(file.Sha256):
                invalid.Add(field + ".sha256", "not 64 lower-case hexadecimal digits.");
                break;
            case Wire.SubmittedFile.ContentOneofCase.Missing:
                invalid.CheckName(field + ".missing.reason", file.Missing.Reason, limits);
                break;
            case Wire.SubmittedFile.ContentOneofCase.None:
                invalid.Add(field, "empty; send data, sha256 or missing.");
                break;
        }
    }

    /// <summary>Whether a text is a SHA-256 as this contract writes it.</summary>
    public static bool IsHash(string text) => text.Length == HashCharacters && text.All(char.IsAsciiHexDigitLower);

    private static IEnumerable<string> FilesOf(ProductCheck check)
    {
        foreach (string label in check.LabelFiles)
        {
            yield return label;
        }

        foreach (ProductCapture capture in check.Captures)
        {
            yield return capture.File;
            if (capture.MeasurementsFile is { } measurements)
            {
                yield return measurements;
            }
        }

        foreach (string log in check.Logs.Select(static log => log.File))
        {
            yield return log;
        }
    }

    private static Wire.SubmittedFile HashedOf(Wire.SubmittedFile file) => file.ContentCase == Wire.SubmittedFile.ContentOneofCase.Data
        ? new Wire.SubmittedFile { File = file.File, Sha256 = Convert.ToHexStringLower(SHA256.HashData(file.Data.Span)) } : file;
}
