namespace Portwitness.Product;

/// <summary>Paths that a product file may name.</summary>
public static class RelativePath
{
    private const int MaxCharacters = 1024;

    /// <summary>Whether a path is relative and never goes above the folder that it starts in, on any system.</summary>
    public static bool StaysInside(string path) =>
        path.Length is > 0 and <= MaxCharacters
        && path[0] is not ('/' or '\\' or '~')
        && !path.Contains(':', StringComparison.Ordinal)
        && !path.Any(char.IsControl)
        && !path.Split('/', '\\').Contains("..");
}
