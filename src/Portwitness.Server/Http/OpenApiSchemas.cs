using System.Text.Json.Nodes;
using Google.Protobuf.Reflection;

namespace Portwitness.Server.Http;

/// <summary>Schemas of messages, as the canonical JSON of protocol buffers writes them. Each message is described once.</summary>
internal sealed class OpenApiSchemas
{
    /// <summary>All that were asked for, and what they are made of.</summary>
    public JsonObject All { get; } = [];

    /// <summary>A reference to a schema.</summary>
    public static JsonObject Reference(string name) => new() { ["$ref"] = $"#/components/schemas/{name}" };

    /// <summary>Describes a message.</summary>
    /// <returns>Its name.</returns>
    public string NameOf(MessageDescriptor message)
    {
        string name = message.FullName;
        if (!All.ContainsKey(name))
        {
            JsonObject properties = [];
            All[name] = new JsonObject { ["type"] = "object", ["properties"] = properties };

            // What google.protobuf.Any holds stands beside its type.
            if (message.FullName != "google.protobuf.Any")
            {
                foreach (FieldDescriptor field in message.Fields.InDeclarationOrder())
                {
                    properties[field.JsonName] = OfField(field);
                }
            }
        }

        return name;
    }

    /// <summary>Describes a field.</summary>
    public JsonObject OfField(FieldDescriptor field)
    {
        if (field.IsMap)
        {
            return new JsonObject { ["type"] = "object", ["additionalProperties"] = OfValue(field.MessageType.FindFieldByName("value")) };
        }

        return field.IsRepeated ? new JsonObject { ["type"] = "array", ["items"] = OfValue(field) } : OfValue(field);
    }

    private JsonObject OfValue(FieldDescriptor field) => field.FieldType switch
    {
        FieldType.Message => field.HasPresence && !field.IsRepeated
            ? new JsonObject { ["anyOf"] = new JsonArray(Reference(NameOf(field.MessageType)), new JsonObject { ["type"] = "null" }) } : Reference(NameOf(field.MessageType)),
        FieldType.Enum => new JsonObject { ["type"] = "string", ["enum"] = new JsonArray([.. field.EnumType.Values.Select(static value => JsonValue.Create(value.Name))]) },
        FieldType.Bool => new JsonObject { ["type"] = "boolean" },
        FieldType.String => new JsonObject { ["type"] = "string" },
        FieldType.Bytes => new JsonObject { ["type"] = "string", ["contentEncoding"] = "base64" },
        FieldType.Int64 or FieldType.SInt64 or FieldType.SFixed64 or FieldType.UInt64 or FieldType.Fixed64 =>
            new JsonObject { ["type"] = "string", ["pattern"] = "^-?[0-9]+$" },
        FieldType.Double or FieldType.Float => new JsonObject { ["type"] = "number" },
        _ => new JsonObject { ["type"] = "integer" },
    };
}
