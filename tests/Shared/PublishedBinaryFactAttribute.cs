namespace Portwitness.Tests;

/// <summary>
/// A test of the published program, whose path is in PORTWITNESS_AOT. Without it the test is skipped, but where CI is
/// true it runs and fails.
/// </summary>
[AttributeUsage(AttributeTargets.Method)]
internal sealed class PublishedBinaryFactAttribute : FactAttribute
{
    public const string Variable = "PORTWITNESS_AOT";

    public const string Missing =
        $"{Variable} does not name the published program. Install Debian's packages clang and zlib1g-dev and run tests/run.";

    public PublishedBinaryFactAttribute()
    {
        if (!File.Exists(Program) && Environment.GetEnvironmentVariable("CI") != "true")
        {
            Skip = Missing;
        }
    }

    /// <summary>The program's path; empty when it is not named.</summary>
    public static string Program => Environment.GetEnvironmentVariable(Variable) ?? "";
}
