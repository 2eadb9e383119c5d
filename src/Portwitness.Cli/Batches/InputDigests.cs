using System.Security.Cryptography;
using System.Text;
using Portwitness.Cli.Files;
using Portwitness.Cli.Shell;
using Portwitness.Contracts.V1;

namespace Portwitness.Cli.Batches;

/// <summary>Digests of the files that a check asks for, so that another run can tell whether they are the same.</summary>
internal sealed class InputDigests
{
    private const string Missing = "missing";
    private const string NotReadToItsEnd = "part";

    private readonly SortedDictionary<string, string> _digests = new(StringComparer.Ordinal);

    public InputDigests(CheckSubject subject) => _digests[Given(subject.Options).Name] = DigestOf(Given(subject.Options).Text);

    public IReadOnlyDictionary<string, string> Digests => _digests;

    /// <summary>Opens as the subject does, and takes the digest while the file is read.</summary>
    public Func<string, Stream> Around(Func<string, Stream> open) => file =>
    {
        _digests[file] = Missing;
        Stream stream = open(file);
        _digests[file] = NotReadToItsEnd;
        return new DigestStream(stream, digest => _digests[file] = digest);
    };

    /// <summary>Whether all files are as they were.</summary>
    public static async Task<bool> AreSameAsync(BatchEntry entry, CheckSubject subject, CancellationToken cancellation)
    {
        foreach ((string file, string digest) in entry.Inputs)
        {
            string now = file == Given(subject.Options).Name ? DigestOf(Given(subject.Options).Text)
                : await DigestOfAsync(file, subject.Open, cancellation);
            if (now != digest)
            {
                return false;
            }
        }

        return entry.Inputs.Count > 0;
    }

    // What is sent without being asked for: the product file, or the label of a capture.
    private static (string Name, string Text) Given(CheckOptions options) => options.Product is { } product
        ? (product.File, product.Text) : ("--label", options.Capture.Label);

    private static string DigestOf(string text) => Convert.ToHexStringLower(SHA256.HashData(Encoding.UTF8.GetBytes(text)));

    private static async Task<string> DigestOfAsync(string file, Func<string, Stream> open, CancellationToken cancellation)
    {
        try
        {
            await using Stream stream = open(file);
            return Convert.ToHexStringLower(await SHA256.HashDataAsync(stream, cancellation));
        }
        catch (CommandFailure)
        {
            return Missing;
        }
    }
}
