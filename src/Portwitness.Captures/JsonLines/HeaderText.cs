using System.Globalization;
using System.Text;
using System.Text.Encodings.Web;
using System.Text.Json;
using Portwitness.PowerDelivery.Framing;

namespace Portwitness.Captures.JsonLines;

/// <summary>Writes a header as JSON, the same wherever it stands.</summary>
internal static class HeaderText
{
    /// <summary>The relaxed encoder only leaves out escapes that HTML would need, such as that of the quote in SOP'.</summary>
    public static readonly JsonWriterOptions Style = new() { Encoder = JavaScriptEncoder.UnsafeRelaxedJsonEscaping };

    /// <summary>Writes the object.</summary>
    public static void Write(Utf8JsonWriter json, CaptureHeader header)
    {
        json.WriteStartObject();
        json.WriteNumber("capture"u8, 1);
        WriteText(json, "port", header.Port);
        WriteTexts(json, "in_use", header.InUse);
        WriteTexts(json, "attach_order", header.AttachOrder);
        if (header.Started is DateTimeOffset started)
        {
            string format = started.Offset == TimeSpan.Zero ? "yyyy-MM-ddTHH:mm:ss.FFFFFFFZ" : "yyyy-MM-ddTHH:mm:ss.FFFFFFFzzz";
            WriteText(json, "started", started.ToString(format, CultureInfo.InvariantCulture));
        }

        WriteText(json, "product", header.Product);
        WriteText(json, "sample", header.Sample);
        WriteCable(json, header.Cable);
        WriteText(json, "edition", header.Edition);
        WriteText(json, "converted_from", header.Origin == CaptureOrigin.OpenFormat ? null : header.OriginName);
        WriteText(json, "time_of", header.TimeOf switch { MessageMoment.Start => "start", MessageMoment.End => "end", _ => null });
        if (header.ResolutionUs is int resolution)
        {
            json.WriteNumber("resolution_us"u8, resolution);
        }

        if (header.CurrentRoundingMilliamperes is int rounding)
        {
            json.WriteNumber("current_rounding_ma"u8, rounding);
        }

        if (header.ListsMayBeCut)
        {
            json.WriteBoolean("lists_may_be_cut"u8, true);
        }

        if (header.ListsUnchecked)
        {
            json.WriteBoolean("lists_unchecked"u8, true);
        }

        WriteTexts(json, "records_sop", [.. header.RecordsSop.Select(sop => sop.ToText())]);
        WriteText(json, "measured_at", Array.Find(MeasuringWords.Points, known => known.Point == header.MeasuredAt).Word);
        WriteAccuracy(json, header.Accuracy);
        WriteMembers(json, header.Extra is null ? [] : Encoding.UTF8.GetBytes(header.Extra));
        json.WriteEndObject();
    }

    /// <summary>Copies members that version 1 does not define, their values as they stood.</summary>
    public static void WriteMembers(Utf8JsonWriter json, ReadOnlySpan<byte> members)
    {
        if (members.IsEmpty)
        {
            return;
        }

        Utf8JsonReader reader = new(members);
        reader.Read();
        while (reader.Read() && reader.TokenType == JsonTokenType.PropertyName)
        {
            json.WritePropertyName(reader.GetString()!);
            reader.Read();
            int start = (int)reader.TokenStartIndex;
            reader.Skip();
            json.WriteRawValue(members[start..(int)reader.BytesConsumed]);
        }
    }

    private static void WriteText(Utf8JsonWriter json, string name, string? value)
    {
        if (value is not null)
        {
            json.WriteString(name, value);
        }
    }

    private static void WriteTexts(Utf8JsonWriter json, string name, IReadOnlyList<string> values)
    {
        if (values.Count > 0)
        {
            json.WriteStartArray(name);
            foreach (string value in values)
            {
                json.WriteStringValue(value);
            }

            json.WriteEndArray();
        }
    }

    private static void WriteCable(Utf8JsonWriter json, CaptureCable? cable)
    {
        if (cable is null)
        {
            return;
        }

        json.WriteStartObject("cable"u8);
        WriteText(json, "kind", cable.Captive switch { true => "captive", false => "detachable", null => null });
        if (cable.CurrentMilliamperes is int milliamperes)
        {
            json.WriteNumber("current_a"u8, milliamperes / 1000);
        }

        if (cable.Epr is bool epr)
        {
            json.WriteBoolean("epr"u8, epr);
        }

        json.WriteEndObject();
    }

    private static void WriteAccuracy(Utf8JsonWriter json, MeasuringAccuracy? accuracy)
    {
        if (accuracy is null)
        {
            return;
        }

        json.WriteStartObject("accuracy"u8);
        WriteNumber(json, "vbus_mv", accuracy.VbusMillivolts);
        WriteNumber(json, "vbus_ppm", accuracy.VbusPpm);
        WriteNumber(json, "ibus_ma", accuracy.IbusMilliamperes);
        WriteNumber(json, "ibus_ppm", accuracy.IbusPpm);
        json.WriteEndObject();
    }

    private static void WriteNumber(Utf8JsonWriter json, string name, int? value)
    {
        if (value is int number)
        {
            json.WriteNumber(name, number);
        }
    }
}
