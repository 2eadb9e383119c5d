using Portwitness.Cli.Files;

namespace Portwitness.Cli.Commands;

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

    /// <summary>A name for each product's report; folders of the same name are told apart by a number.</summary>
    public static IReadOnlyList<string> ReportNames(IReadOnlyList<string> products)
    {
        HashSet<string> taken = new(StringComparer.OrdinalIgnoreCase);
        List<string> names = [];
        foreach (string product in products)
        {
            string name = Path.GetFileName(Path.TrimEndingDirectorySeparator(Path.GetFullPath(product)));
            string unique = name;
            for (int number = 2; !taken.Add(unique); number++)
            {
                unique = $"{name}-{number}";
            }

            names.Add(unique);
        }

        return names;
    }

    private static bool HoldsProduct(string folder) => File.Exists(Path.Combine(folder, ProductFolder.ProductFileName));
}
