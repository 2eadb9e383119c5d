namespace Portwitness.Conventions.Tests;

/// <summary>Inside a project, namespaces use each other one way only.</summary>
public class NamespaceCycleTests
{
    public static TheoryData<string> Assemblies =>
        [.. Directory.GetFiles(AppContext.BaseDirectory, "*ortwitness*.dll").Select(file => Path.GetFileNameWithoutExtension(file))
            .Where(name => !name.EndsWith(".Tests", StringComparison.Ordinal))];

    [Theory]
    [MemberData(nameof(Assemblies))]
    public void Namespaces_UseEachOtherOneWay(string assembly)
    {
        NamespaceGraph graph = NamespaceGraph.Read(Path.Combine(AppContext.BaseDirectory, $"{assembly}.dll"));

        string[][] cycles = [.. graph.Cycles()];

        cycles.Should().BeEmpty("these are the uses: {0}", string.Join('\n', cycles.SelectMany(graph.UsesWithin)));
    }
}
