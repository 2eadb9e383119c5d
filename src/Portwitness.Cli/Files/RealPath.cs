using Portwitness.Cli.Shell;

namespace Portwitness.Cli.Files;

/// <summary>Follows every link of a path, folders included; .NET itself follows only the last part.</summary>
internal static class RealPath
{
    // As many as Linux follows.
    private const int MaxLinks = 40;

    /// <param name="path">A full path; its end need not exist.</param>
    public static string Of(string path)
    {
        int links = 0;
        string real = Path.GetPathRoot(path)!;
        Stack<string> rest = new(Parts(path).Reverse());
        while (rest.TryPop(out string? part))
        {
            string next = part switch
            {
                "." => real,
                ".." => Path.GetDirectoryName(real) ?? real,
                _ => Path.Combine(real, part),
            };
            string? target = next == real ? null : new FileInfo(next).LinkTarget;
            if (target is null)
            {
                real = next;
                continue;
            }

            if (++links > MaxLinks)
            {
                throw new CommandFailure("links lead in a circle");
            }

            if (Path.IsPathRooted(target))
            {
                real = Path.GetPathRoot(target)!;
            }

            foreach (string targetPart in Parts(target).Reverse())
            {
                rest.Push(targetPart);
            }
        }

        return real;
    }

    private static string[] Parts(string path) => path[Path.GetPathRoot(path)!.Length..]
        .Split([Path.DirectorySeparatorChar, Path.AltDirectorySeparatorChar], StringSplitOptions.RemoveEmptyEntries);
}
