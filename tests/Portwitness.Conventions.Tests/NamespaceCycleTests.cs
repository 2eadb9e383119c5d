namespace Portwitness.Conventions.Tests;

/// <summary>Inside a project, namespaces use each other one way only.</summary>
public class NamespaceCycleTests
{
    // Namespaces that are still part of a cycle. The list may only shrink.
    private static readonly Dictionary<string, string> Left = new()
    {
        ["portwitness"] = "Cli Cli.Batches Cli.Calls Cli.Commands Cli.Connection Cli.Files",
        ["Portwitness.Analysis"] =
            "Analysis Analysis.Bench Analysis.Catalogue Analysis.Conversation Analysis.Exchanges Analysis.Findings Analysis.Measuring "
            + "Analysis.PdpRules Analysis.Profile Analysis.Rules Analysis.Rules.Cables Analysis.Rules.Capabilities Analysis.Rules.Line "
            + "Analysis.Rules.Messages Analysis.Rules.Requests Analysis.Rules.Sequence Analysis.Rules.Timing Analysis.Rules.Vbus",
        ["Portwitness.Captures"] =
            "Captures Captures.Archives Captures.Input Captures.JsonLines Captures.KernelLog Captures.Measurements Captures.Offers "
            + "Captures.Pcapng Captures.Sysfs Captures.Tables Captures.Waveforms Captures.Words",
        ["Portwitness.History"] = "History History.Postgres History.Sqlite",
        ["Portwitness.PowerDelivery"] =
            "PowerDelivery.ExtendedBlocks PowerDelivery.Headers PowerDelivery.Layout PowerDelivery.Messages PowerDelivery.PowerData "
            + "PowerDelivery.Requests PowerDelivery.VendorDefined",
        ["Portwitness.Reports"] =
            "Reports Reports.Csv Reports.Html Reports.Json Reports.Junit Reports.Markdown Reports.Sarif Reports.Text",
        ["Portwitness.Service"] =
            "Service Service.Calls Service.Doors Service.Hosting Service.Submitting Service.Telemetry Service.Translation Service.Working",
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
