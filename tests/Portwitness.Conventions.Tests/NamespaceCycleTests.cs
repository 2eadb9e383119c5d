namespace Portwitness.Conventions.Tests;

/// <summary>Inside a project, namespaces use each other one way only.</summary>
public class NamespaceCycleTests
{
    // Namespaces that are still part of a cycle. The list may only shrink.
    private static readonly Dictionary<string, string> Left = new()
    {
        ["Portwitness.Captures"] =
            "Captures Captures.Archives Captures.Input Captures.JsonLines Captures.KernelLog Captures.Measurements Captures.Offers "
            + "Captures.Pcapng Captures.Quoted Captures.Sysfs Captures.Tables Captures.Waveforms Captures.Words",
        ["Portwitness.PowerDelivery"] =
            "PowerDelivery.ExtendedBlocks PowerDelivery.Headers PowerDelivery.Layout PowerDelivery.Messages PowerDelivery.PowerData "
            + "PowerDelivery.Requests PowerDelivery.VendorDefined",
    };

    public static TheoryData<string> Assemblies =>
        [.. Directory.GetFiles(AppContext.BaseDirectory, "*ortwitness*.dll").Select(file => Path.GetFileNameWithoutExtension(file))
            .Where(name => !name.EndsWith(".Tests", StringComparison.Ordinal))];

    [Theory]
    [MemberData(nameof(Assemblies))]
    public void Namespaces_UseEachOtherOneWay(string assembly)
    {
        NamespaceGraph graph = NamespaceGraph.Read(Path.Combine(AppContext.BaseDirectory, $"{assembly}.dll"));

        string[][] cycles = [.. graph.Cycles()];

        IEnumerable<string> names = cycles.SelectMany(cycle => cycle).Select(name => name["Portwitness.".Length..]).Order(StringComparer.Ordinal);
        string.Join(' ', names).Should().Be(
            Left.GetValueOrDefault(assembly, ""), "these are the uses: {0}", string.Join('\n', cycles.SelectMany(graph.UsesWithin)));
    }
}
