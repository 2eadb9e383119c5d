using Portwitness.Cli.Shell;

namespace Portwitness.Cli.Files;

/// <summary>Has the names in a folder reach the disk; .NET syncs files only. Elsewhere than on Linux nothing is done.</summary>
internal static class FolderSync
{
    /// <exception cref="IOException">The disk failed.</exception>
    public static void Run(string folder)
    {
        if (LinuxCalls.AreThere)
        {
            LinuxCalls.SyncFolder(folder);
        }
    }
}
