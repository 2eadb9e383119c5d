namespace Portwitness.Cli.Tests;

/// <summary>A folder for one test.</summary>
internal sealed class TemporaryFolder : IDisposable
{
    public string Path { get; } = Directory.CreateTempSubdirectory("portwitness-test-").FullName;

    public string Write(string relative, string text)
    {
        string path = PathOf(relative);
        Directory.CreateDirectory(System.IO.Path.GetDirectoryName(path)!);
        File.WriteAllText(path, text);
        return path;
    }

    public string PathOf(string relative) => System.IO.Path.Combine(Path, relative);

    public void Dispose() => Directory.Delete(Path, recursive: true);
}
