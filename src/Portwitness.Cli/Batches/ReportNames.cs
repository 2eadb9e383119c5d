using System.Security.Cryptography;
using System.Text;
using Portwitness.Cli.Files;

namespace Portwitness.Cli.Batches;

/// <summary>Names of products' reports: the folder's name, unless it is too long, taken, or one of the batch's own.</summary>
internal static class ReportNames
{
    /// <summary>Longer names are cut; a file's name has 255 bytes on Linux, and endings and numbers want some.</summary>
    private const int MaxBytes = 200;

    private const int DigestDigits = 16;

    // Whatever the format, so that a later one finds them free.
    private static readonly string[] OfTheBatch = [Path.GetFileNameWithoutExtension(BatchFormats.IndexName), BatchFormats.BatchName];

    /// <summary>
    /// The name of each product's report; folders of the same name are told apart by a number, and what was done before keeps its name.
    /// </summary>
    public static IReadOnlyList<string> Of(IReadOnlyList<BatchProduct> products, string ending, IReadOnlyDictionary<string, BatchEntry> done)
    {
        HashSet<string> taken = new(done.Values.Select(static entry => entry.Report), StringComparer.OrdinalIgnoreCase);
        taken.UnionWith(OfTheBatch.Select(stem => stem + ending));
        List<string> names = [];
        foreach (BatchProduct product in products)
        {
            string full = Path.GetFullPath(product.Path);
            string name = product.Problem is null && done.TryGetValue(full, out BatchEntry? entry) ? entry.Report : "";
            if (!name.EndsWith(ending, StringComparison.Ordinal))
            {
                string stem = Stem(Path.GetFileName(Path.TrimEndingDirectorySeparator(full)));
                name = stem + ending;
                for (int number = 2; !taken.Add(name); number++)
                {
                    name = $"{stem}-{number}{ending}";
                }
            }

            names.Add(name);
        }

        return names;
    }

    /// <summary>Whether a journal may name a report so: a plain name, and none of the batch's own files.</summary>
    public static bool IsOfAProduct(string report) => report == Path.GetFileName(report)
        && !OfTheBatch.Contains(Path.GetFileNameWithoutExtension(report), StringComparer.OrdinalIgnoreCase);

    // The root of a file system has no name.
    private static string Stem(string name) => name.Length == 0 ? "product"
        : Encoding.UTF8.GetByteCount(name) <= MaxBytes ? name
        : $"{FileNames.Cut(name, MaxBytes - DigestDigits - 1)}-{Convert.ToHexStringLower(SHA256.HashData(Encoding.UTF8.GetBytes(name)))[..DigestDigits]}";
}
