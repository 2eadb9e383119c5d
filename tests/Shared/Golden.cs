using System.Runtime.CompilerServices;

namespace Portwitness.Tests;

/// <summary>Output that is kept word for word, in the Golden folder beside the test.</summary>
internal static class Golden
{
    private const string Update = "UPDATE_GOLDEN";

    /// <summary>Compares with Golden/<paramref name="name"/>; with UPDATE_GOLDEN=1 writes it.</summary>
    public static void Check(string actual, string name, [CallerFilePath] string test = "")
    {
        string project = Repository.PathOf("tests", Path.GetFileName(Path.GetDirectoryName(test)!));
        CheckFile(actual, Path.Combine(project, "Golden", name), project);
    }

    /// <summary>Compares with a file that is kept elsewhere, and names the project whose tests refresh it.</summary>
    public static void CheckFile(string actual, string path, string project)
    {
        if (Environment.GetEnvironmentVariable(Update) == "1")
        {
            Directory.CreateDirectory(Path.GetDirectoryName(path)!);
            File.WriteAllText(path, actual);
        }

        string expected = File.Exists(path) ? File.ReadAllText(path) : "";
        actual.Should().Be(
            expected, "{0} keeps this output; if the new one is right, run {1}=1 dotnet test {2}", path, Update, project);
    }
}
