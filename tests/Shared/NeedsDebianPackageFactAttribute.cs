namespace Portwitness.Tests;

/// <summary>
/// A test that needs files of Debian packages. Without them the test is skipped and names the packages, but where CI is
/// true it runs and fails.
/// </summary>
[AttributeUsage(AttributeTargets.Method)]
internal sealed class NeedsDebianPackageFactAttribute : FactAttribute
{
    /// <summary>Asks for files.</summary>
    /// <param name="packages">What to install, in words.</param>
    /// <param name="patterns">Paths; the last folder may hold a "*", the rest of the path follows it.</param>
    public NeedsDebianPackageFactAttribute(string packages, params string[] patterns)
    {
        if (patterns.Any(pattern => Find(pattern) is null) && Environment.GetEnvironmentVariable("CI") != "true")
        {
            Skip = $"Install Debian's packages {packages}, or run tests/run.";
        }
    }

    /// <summary>The newest path that a pattern names, "/usr/src/linux-headers-*-common/include" for example; or null.</summary>
    public static string? Find(string pattern)
    {
        int star = pattern.IndexOf('*', StringComparison.Ordinal);
        if (star < 0)
        {
            return Path.Exists(pattern) ? pattern : null;
        }

        string folder = Path.GetDirectoryName(pattern[..star])!;
        int end = pattern.IndexOf('/', star);
        string name = pattern[(folder.Length + 1)..(end < 0 ? pattern.Length : end)];
        string rest = end < 0 ? "" : pattern[(end + 1)..];
        return !Directory.Exists(folder) ? null : Directory.GetDirectories(folder, name)
            .OrderByDescending(Directory.GetLastWriteTimeUtc)
            .Select(candidate => Path.Combine(candidate, rest)).FirstOrDefault(Path.Exists);
    }
}
