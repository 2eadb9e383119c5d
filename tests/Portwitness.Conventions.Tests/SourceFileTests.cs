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
}
