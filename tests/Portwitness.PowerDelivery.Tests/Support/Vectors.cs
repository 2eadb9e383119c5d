using System.Globalization;
using System.Text.Json;
using Portwitness.PowerDelivery.Headers;
using Portwitness.Tests;

namespace Portwitness.PowerDelivery.Tests.Support;

/// <summary>Check values from shared/vectors; each file tells where its values come from.</summary>
internal static class Vectors
{
    public static readonly string[] WordFiles =
    [
        "power-objects.json", "requests.json", "headers.json", "vendor-defined.json", "small-objects.json",
    ];

    public static JsonElement Read(string file)
    {
        using JsonDocument document = JsonDocument.Parse(File.ReadAllText(Repository.PathOf("shared", "vectors", file)));
        return document.RootElement.Clone();
    }

    public static IEnumerable<WordVector> Words() =>
        WordFiles.SelectMany(file => Read(file).GetProperty("entries").EnumerateArray()).Select(entry => new WordVector(
            entry.GetProperty("name").GetString()!,
            entry.GetProperty("type").GetString()!,
            ParseHex(entry.GetProperty("word").GetString()!),
            entry.GetProperty("fields").EnumerateObject().ToDictionary(field => field.Name, field => ValueOf(field.Value))));

    public static uint ParseHex(string text) =>
        uint.Parse(text.AsSpan(2), NumberStyles.HexNumber, CultureInfo.InvariantCulture);

    public static byte[] ParseBytes(string text) => Convert.FromHexString(text.Replace(" ", ""));

    private static long ValueOf(JsonElement value) => value.ValueKind switch
    {
        JsonValueKind.True => 1,
        JsonValueKind.False => 0,
        JsonValueKind.String => CodeOf(value.GetString()!),
        _ => value.GetInt64(),
    };

    // A message's name stands for its class and code, as in message-types.json.
    private static long CodeOf(string name)
    {
        JsonElement entry = Read("message-types.json").GetProperty("entries").EnumerateArray()
            .Single(candidate => candidate.GetProperty("name").GetString() == name);
        MessageClass messageClass = Enum.Parse<MessageClass>(entry.GetProperty("class").GetString()!);
        return WireTypes.KindNumber(messageClass, entry.GetProperty("code").GetInt32());
    }
}

/// <summary>One word with its fields; what is not listed is 0.</summary>
internal sealed record WordVector(string Name, string Type, uint Word, Dictionary<string, long> Fields);
