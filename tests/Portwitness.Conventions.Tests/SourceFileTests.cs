using Portwitness.Tests;

namespace Portwitness.Conventions.Tests;

/// <summary>Files stay short, so that somebody new finds and reads the right one.</summary>
public class SourceFileTests
{
    private const int HardCap = 400;
    private const int MedianGoal = 120;

    [Fact]
    public void SourceFiles_StayShort()
    {
        List<(string File, int Lines)> files =
        [
            .. Directory.EnumerateFiles(Repository.PathOf("src"), "*.cs", SearchOption.AllDirectories)
                .Where(file => !file.Contains("/obj/", StringComparison.Ordinal) && !file.Contains("/bin/", StringComparison.Ordinal))
                .Select(file => (file, File.ReadLines(file).Count())),
        ];

        files.Where(file => file.Lines > HardCap).Should().BeEmpty();
        files.Select(file => file.Lines).Order().ElementAt(files.Count / 2).Should().BeLessThanOrEqualTo(MedianGoal);
    }

    /// <summary>A name leads to one file; only programs begin in files of one name.</summary>
    [Fact]
    public void SourceFiles_HaveNamesOfTheirOwn()
    {
        IEnumerable<string> repeated = new[] { "src", "tests" }
            .SelectMany(folder => Directory.EnumerateFiles(Repository.PathOf(folder), "*.cs", SearchOption.AllDirectories))
            .Where(file => !file.Contains("/obj/", StringComparison.Ordinal) && !file.Contains("/bin/", StringComparison.Ordinal))
            .GroupBy(file => Path.GetFileName(file), StringComparer.OrdinalIgnoreCase)
            .Where(files => files.Count() > 1 && files.Key != "Program.cs")
            .Select(files => string.Join(' ', files));

        repeated.Should().BeEmpty();
    }
}
