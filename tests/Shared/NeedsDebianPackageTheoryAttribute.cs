namespace Portwitness.Tests;

/// <summary>The same as <see cref="NeedsDebianPackageFactAttribute"/>, with cases.</summary>
[AttributeUsage(AttributeTargets.Method)]
internal sealed class NeedsDebianPackageTheoryAttribute : TheoryAttribute
{
    /// <summary>Asks for files.</summary>
    /// <param name="packages">What to install, in words.</param>
    /// <param name="patterns">Paths, as of the attribute without cases.</param>
    public NeedsDebianPackageTheoryAttribute(string packages, params string[] patterns) =>
        Skip = new NeedsDebianPackageFactAttribute(packages, patterns).Skip;
}
