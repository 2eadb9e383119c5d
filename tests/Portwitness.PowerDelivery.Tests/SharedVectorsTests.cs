using System.Text.Json;
using Portwitness.PowerDelivery.Tests.Support;
using Portwitness.Tests;

namespace Portwitness.PowerDelivery.Tests;

public sealed class SharedVectorsTests
{
    private static readonly string Folder = Repository.PathOf("shared", "vectors");

    public static IEnumerable<object[]> Files =>
        Directory.GetFiles(Folder).Select(path => new object[] { Path.GetFileName(path) });

    [Theory]
    [MemberData(nameof(Files))]
    public void EveryFile_IsInTheReadme_WithATestThatExists(string file)
    {
        string row = File.ReadLines(Repository.PathOf("shared", "README.md"))
            .Single(line => line.StartsWith($"| `vectors/{file}` |", StringComparison.Ordinal));
        string test = row.Split('`')[3];
        File.Exists(Repository.PathOf("tests", "Portwitness.PowerDelivery.Tests", test)).Should().BeTrue(test);
    }

    [Theory]
    [MemberData(nameof(Files))]
    public void EveryEntry_NamesASourceOfItsFile(string file)
    {
        JsonElement root = Vectors.Read(file);
        string[] sources = [.. root.GetProperty("sources").EnumerateObject().Select(source => source.Name)];
        IEnumerable<JsonElement> entries = root.EnumerateObject()
            .Where(member => member.Value.ValueKind == JsonValueKind.Array)
            .SelectMany(member => member.Value.EnumerateArray())
            .Where(entry => entry.ValueKind == JsonValueKind.Object);
        entries.Should().NotBeEmpty().And.OnlyContain(entry => sources.Contains(entry.GetProperty("source").GetString()));
    }

    [Fact]
    public void EveryWordFile_IsSweptByTheWireTypeTests() =>
        Directory.GetFiles(Folder).Select(Path.GetFileName)
            .Where(file => Vectors.Read(file!).TryGetProperty("entries", out JsonElement entries)
                && entries[0].TryGetProperty("word", out _))
            .Should().BeEquivalentTo(Vectors.WordFiles);
}
