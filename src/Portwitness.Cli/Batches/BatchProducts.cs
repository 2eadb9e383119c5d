using Portwitness.Cli.Files;

namespace Portwitness.Cli.Batches;

/// <summary>Finds the product folders of a batch.</summary>
internal static class BatchProducts
{
    public static IReadOnlyList<string> Find(IEnumerable<string> folders)
    {
        List<string> products = [];
        foreach (string folder in folders)
        {
            if (!Directory.Exists(folder))
            {
                throw new CommandFailure($"{folder}: there is no such folder.");
            }

            string[] found = HoldsProduct(folder)
                ? [folder]
                : [.. Directory.EnumerateDirectories(folder).Where(HoldsProduct).Order(StringComparer.Ordinal)];
            products.AddRange(found.Length > 0
                ? found
                : throw new CommandFailure($"{folder}: no subfolder holds a {ProductFolder.ProductFileName}."));
        }

        return products;
    }

    /// <summary>Captures: files, and all files of folders, which are not searched further.</summary>
    public static IReadOnlyList<string> FindCaptures(IEnumerable<string> paths)
    {
        List<string> captures = [];
        foreach (string path in paths)
        {
            if (Directory.Exists(path) && !SysfsFolder.Is(path))
            {
                string[] found = [.. Directory.EnumerateFiles(path).Where(static file => !Path.GetFileName(file).StartsWith('.')).Order(StringComparer.Ordinal)];
                captures.AddRange(found.Length > 0 ? found : throw new CommandFailure($"{path}: holds no file."));
            }
            else
            {
                captures.Add(Path.Exists(path) ? path : throw new CommandFailure($"{path}: there is no such file or folder."));
            }
        }

        return captures;
    }

    /// <summary>
    /// The name of each product's report; folders of the same name are told apart by a number, and what was done before keeps its name.
    /// </summary>
    public static IReadOnlyList<string> ReportNames(
        IReadOnlyList<string> products, string ending, IReadOnlyDictionary<string, BatchEntry> done)
    {
        HashSet<string> taken = new(done.Values.Select(static entry => entry.Report), StringComparer.OrdinalIgnoreCase);
        List<string> names = [];
        foreach (string product in products)
        {
            string folder = Path.TrimEndingDirectorySeparator(Path.GetFullPath(product));
            string name = done.TryGetValue(Path.GetFullPath(product), out BatchEntry? entry) ? entry.Report : "";
            if (!name.EndsWith(ending, StringComparison.Ordinal))
            {
                name = Path.GetFileName(folder) + ending;
                for (int number = 2; !taken.Add(name); number++)
                {
                    name = $"{Path.GetFileName(folder)}-{number}{ending}";
                }
            }

            names.Add(name);
        }

        return names;
    }

    private static bool HoldsProduct(string folder) => File.Exists(Path.Combine(folder, ProductFolder.ProductFileName));
}
