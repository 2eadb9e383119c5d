using System.Text;
using Portwitness.Testing;
using Portwitness.Tests;

namespace Portwitness.Synthesis.Tests;

/// <summary>The captures of the demo products are what the scripts beside them write.</summary>
public class DemoScriptTests
{
    private const string ScriptEnd = ".synthesis.yaml";
    private const string CaptureEnd = ".capture.jsonl";

    public static TheoryData<string> Scripts => [.. Files(ScriptEnd)];

    [Theory]
    [MemberData(nameof(Scripts))]
    public void Capture_IsTheOutputOfItsScript(string name)
    {
        string written = Encoding.UTF8.GetString(Synthesised.Bytes(File.ReadAllText(PathOf(name + ScriptEnd))));

        File.ReadAllText(PathOf(name + CaptureEnd)).Should().Be(
            written, "the capture is refreshed with: portwitness synthesize captures/{0} --output captures/{1}",
            name + ScriptEnd, name + CaptureEnd);
    }

    [Fact]
    public void EveryCapture_HasItsScript() => Files(CaptureEnd).Should().BeEquivalentTo(Files(ScriptEnd)).And.HaveCountGreaterThan(11);

    private static string PathOf(string name) => Repository.PathOf("captures", name);

    private static IEnumerable<string> Files(string end) =>
        Directory.EnumerateFiles(Repository.PathOf("captures"), "*" + end, SearchOption.AllDirectories)
            .Select(file => Path.GetRelativePath(Repository.PathOf("captures"), file)[..^end.Length].Replace('\\', '/'))
            .Order(StringComparer.Ordinal);
}
