namespace Portwitness.Tests;

/// <summary>Paths of the source tree, found from where the tests run.</summary>
internal static class Repository
{
    public static string Root { get; } = Find();

    public static string PathOf(params string[] parts) => Path.Combine([Root, .. parts]);

    private static string Find()
    {
        for (DirectoryInfo? at = new(AppContext.BaseDirectory); at is not null; at = at.Parent)
        {
            if (File.Exists(Path.Combine(at.FullName, "Protocols.sln")))
            {
                return at.FullName;
            }
        }

        throw new InvalidOperationException("Protocols.sln was not found above the test folder.");
    }
}
