using System.Globalization;
using System.Text.Json;
using Google.Protobuf.Reflection;

namespace Portwitness.Server.Json;

/// <summary>Holds JSON against a message of the contract: names, kinds and numbers, each with the path to what is wrong.</summary>
internal static class JsonShape
{
    // Of what is refused, enough is said back to find it.
    private const int MaxCharacters = 80;

    /// <summary>What is wrong first; null when nothing is.</summary>
    public static string? FindProblem(JsonElement value, MessageDescriptor message)
    {
        try
        {
            return OfMessage(value, message, "");
        }
        catch (InvalidOperationException)
        {
            return "a text has bytes that are no UTF-8, or half of a pair of surrogates.";
        }
    }

    /// <summary>The field of a name as JSON has it, or as the proto file does.</summary>
    public static FieldDescriptor? Find(MessageDescriptor message, string name) =>
        message.Fields.InFieldNumberOrder().FirstOrDefault(field => field.JsonName == name || field.Name == name);

    /// <summary>What is wrong with the text of one value, as it stands in an address; null when nothing is.</summary>
    public static string? OfText(string text, FieldDescriptor field) => field.FieldType switch
    {
        FieldType.String => null,
        FieldType.Bool => text is "true" or "false" ? null : "expected true or false",
        FieldType.Enum => OfName(text, field.EnumType),
        _ => OfNumber(text, field),
    };

    private static string? OfMessage(JsonElement value, MessageDescriptor message, string path)
    {
        if (value.ValueKind != JsonValueKind.Object)
        {
            return At(path, $"expected an object, found {Kind(value)}");
        }

        HashSet<FieldDescriptor> seen = [];
        HashSet<OneofDescriptor> chosen = [];
        foreach (JsonProperty property in value.EnumerateObject())
        {
            string place = path.Length == 0 ? Short(property.Name) : $"{path}.{Short(property.Name)}";
            if (Find(message, property.Name) is not { } field)
            {
                return At(place, $"there is no such field; expected {string.Join(", ", message.Fields.InFieldNumberOrder().Select(static one => one.JsonName))}");
            }

            if (!seen.Add(field))
            {
                return At(place, "given twice");
            }

            if (property.Value.ValueKind != JsonValueKind.Null && field.RealContainingOneof is { } oneof && !chosen.Add(oneof))
            {
                return At(place, $"only one of {string.Join(", ", oneof.Fields.Select(static one => one.JsonName))} may be given");
            }

            if (property.Value.ValueKind != JsonValueKind.Null && OfField(property.Value, field, place) is { } problem)
            {
                return problem;
            }
        }

        return null;
    }

    private static string? OfField(JsonElement value, FieldDescriptor field, string path)
    {
        if (!field.IsRepeated)
        {
            return OfSingle(value, field, path);
        }

        if (value.ValueKind != JsonValueKind.Array)
        {
            return At(path, $"expected an array, found {Kind(value)}");
        }

        return value.EnumerateArray().Index().Select(item => OfSingle(item.Item, field, string.Create(CultureInfo.InvariantCulture, $"{path}[{item.Index}]")))
            .FirstOrDefault(static problem => problem is not null);
    }

    private static string? OfSingle(JsonElement value, FieldDescriptor field, string path) => field.FieldType switch
    {
        FieldType.Message => OfMessage(value, field.MessageType, path),
        FieldType.Bool when value.ValueKind is not (JsonValueKind.True or JsonValueKind.False) => At(path, $"expected true or false, found {Kind(value)}"),
        FieldType.Bool => null,
        FieldType.String or FieldType.Bytes or FieldType.Enum when value.ValueKind != JsonValueKind.String => At(path, $"expected a string, found {Kind(value)}"),
        FieldType.String => value.GetString() is null ? At(path, "expected a string") : null,
        FieldType.Bytes => value.TryGetBytesFromBase64(out _) ? null : At(path, "expected bytes as base64"),
        FieldType.Enum => At(path, OfName(value.GetString()!, field.EnumType)),
        _ when value.ValueKind is JsonValueKind.Number or JsonValueKind.String =>
            At(path, OfNumber(value.ValueKind == JsonValueKind.Number ? value.GetRawText() : value.GetString()!, field)),
        _ => At(path, $"expected a number, found {Kind(value)}"),
    };

    private static string? OfName(string text, EnumDescriptor type) => type.FindValueByName(text) is not null ? null
        : $"'{Short(text)}' is none of {string.Join(", ", type.Values.Select(static one => one.Name))}";

    private static string? OfNumber(string text, FieldDescriptor field)
    {
        const NumberStyles Digits = NumberStyles.AllowLeadingSign;
        CultureInfo plain = CultureInfo.InvariantCulture;
        bool good = field.FieldType switch
        {
            FieldType.Int32 or FieldType.SInt32 or FieldType.SFixed32 => int.TryParse(text, Digits, plain, out _),
            FieldType.UInt32 or FieldType.Fixed32 => uint.TryParse(text, Digits, plain, out _),
            FieldType.Int64 or FieldType.SInt64 or FieldType.SFixed64 => long.TryParse(text, Digits, plain, out _),
            FieldType.UInt64 or FieldType.Fixed64 => ulong.TryParse(text, Digits, plain, out _),
            _ => double.TryParse(text, plain, out _),
        };
        return good ? null : $"'{Short(text)}' is no {field.FieldType.ToString().ToLowerInvariant()}";
    }

    private static string? At(string path, string? problem) => problem is null ? null : path.Length == 0 ? $"{problem}." : $"{path}: {problem}.";

    /// <summary>The beginning of a text that is refused.</summary>
    public static string Short(string text) => text.Length <= MaxCharacters ? text : text[..MaxCharacters] + "…";

    private static string Kind(JsonElement value) => value.ValueKind switch
    {
        JsonValueKind.Object => "an object",
        JsonValueKind.Array => "an array",
        JsonValueKind.String => "a string",
        JsonValueKind.Number => "a number",
        JsonValueKind.Null => "null",
        _ => "true or false",
    };
}
