using System.Collections.Immutable;

namespace Portwitness.Negotiation;

/// <summary>
/// Generic devices that come with the tool. Their values are invented from the standard's classes of power; they describe
/// no product.
/// </summary>
public static class ShippedSinks
{
    private const string Resource = "Portwitness.Negotiation.ShippedSinks.yaml";

    /// <summary>All of them, from the least power to the most.</summary>
    public static ImmutableArray<SinkDescription> All { get; } = Read();

    /// <summary>One of them; null when there is none of that name.</summary>
    public static SinkDescription? Find(string name) =>
        All.FirstOrDefault(sink => string.Equals(sink.Name, name, StringComparison.OrdinalIgnoreCase));

    private static ImmutableArray<SinkDescription> Read()
    {
        using Stream stream = typeof(ShippedSinks).Assembly.GetManifestResourceStream(Resource)
            ?? throw new InvalidOperationException($"{Resource} is not built in.");
        using StreamReader reader = new(stream);
        SinkList list = SinkDescriptionReader.OfYaml(reader.ReadToEnd());
        return list.Faults.IsEmpty ? list.Sinks
            : throw new InvalidOperationException($"{Resource}: line {list.Faults[0].Line}: {list.Faults[0].Detail}");
    }
}
