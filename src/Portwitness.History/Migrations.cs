using System.Text;

namespace Portwitness.History;

/// <summary>The scripts that make a database what this version needs, in order; a script never changes once it was published.</summary>
internal static class Migrations
{
    /// <summary>The scripts of a kind of database: number and text.</summary>
    /// <param name="kind">"Sqlite" or "Postgres".</param>
    public static IReadOnlyList<(int Version, string Script)> Of(string kind) =>
    [
        .. typeof(Migrations).Assembly.GetManifestResourceNames().Where(name => name.StartsWith(kind + ".", StringComparison.Ordinal)).Order(StringComparer.Ordinal)
            .Select(static (name, index) => (index + 1, Read(name))),
    ];

    private static string Read(string name)
    {
        using Stream stream = typeof(Migrations).Assembly.GetManifestResourceStream(name)!;
        using StreamReader reader = new(stream, Encoding.UTF8);
        return reader.ReadToEnd();
    }
}
