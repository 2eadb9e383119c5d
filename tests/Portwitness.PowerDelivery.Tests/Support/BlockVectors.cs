using System.Text.Json;
using Portwitness.PowerDelivery.Explanations;
using Portwitness.PowerDelivery.Framing;
using Portwitness.PowerDelivery.Headers;
using Portwitness.PowerDelivery.Layout;

namespace Portwitness.PowerDelivery.Tests.Support;

/// <summary>One data block of shared/vectors/blocks.json, with its fields by name; what is not listed is 0.</summary>
internal sealed record BlockVector(
    string Name, BlockLayout Layout, string Message, SopKind Sop, byte[] Bytes, byte[] Rest, Dictionary<string, long> Fields)
{
    public static IReadOnlyList<BlockVector> All { get; } =
        [.. Vectors.Read("blocks.json").GetProperty("entries").EnumerateArray().Select(Read)];

    public static IEnumerable<object[]> Names => All.Select(vector => new object[] { vector.Name });

    public static BlockVector Of(string name) => All.Single(vector => vector.Name == name);

    public MessageKind Kind => Enumerable.Range(0, 32).Select(code => new MessageKind(MessageClass.Extended, code))
        .Single(kind => kind.Name == Message);

    private static BlockVector Read(JsonElement entry)
    {
        SopKinds.TryParse(entry.GetProperty("sop").GetString(), out SopKind sop).Should().BeTrue();
        return new BlockVector(
            entry.GetProperty("name").GetString()!,
            BlockLayouts.All.Single(layout => layout.Name == entry.GetProperty("layout").GetString()),
            entry.GetProperty("message").GetString()!,
            sop,
            Vectors.ParseBytes(entry.GetProperty("bytes").GetString()!),
            entry.TryGetProperty("rest", out JsonElement rest) ? Vectors.ParseBytes(rest.GetString()!) : [],
            entry.GetProperty("fields").EnumerateObject().ToDictionary(field => field.Name, field => field.Value.GetInt64()));
    }
}
