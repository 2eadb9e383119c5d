using System.Collections.Immutable;
using System.Text.Json;
using Portwitness.PowerDelivery.Framing;

namespace Portwitness.Captures.JsonLines;

// What the header states of the instrument.
internal sealed partial class HeaderLine
{
    private static readonly string[] AccuracyMembers = ["vbus_mv", "vbus_ppm", "ibus_ma", "ibus_ppm"];

    private MessageMoment TimeOf(ref Utf8JsonReader json, int member)
    {
        if (json.TokenType == JsonTokenType.String)
        {
            if (json.ValueTextEquals("start"u8))
            {
                return MessageMoment.Start;
            }

            if (json.ValueTextEquals("end"u8))
            {
                return MessageMoment.End;
            }
        }

        Invalid(ref json, member, "\"start\" (first bit of the preamble) or \"end\" (end of the EOP)");
        return MessageMoment.Unknown;
    }

    private int? WholeNumber(ref Utf8JsonReader json, int member, int max, string unit)
    {
        if (json.TokenType == JsonTokenType.Number && json.TryGetInt32(out int number) && number >= 1 && number <= max)
        {
            return number;
        }

        Invalid(ref json, member, $"a whole number of {unit} from 1 to {max}");
        return null;
    }

    private bool Flag(ref Utf8JsonReader json, int member)
    {
        if (json.TokenType is not (JsonTokenType.True or JsonTokenType.False))
        {
            Invalid(ref json, member, "true or false");
        }

        return json.TokenType == JsonTokenType.True;
    }

    private ImmutableArray<SopKind> SopKindList(ref Utf8JsonReader json, int member)
    {
        const string expected = "a list such as [\"SOP\",\"SOP'\"]";
        if (json.TokenType != JsonTokenType.StartArray)
        {
            Invalid(ref json, member, expected);
            return [];
        }

        ImmutableArray<SopKind>.Builder kinds = ImmutableArray.CreateBuilder<SopKind>();
        bool usable = true;
        while (json.Read() && json.TokenType != JsonTokenType.EndArray)
        {
            if (json.TokenType == JsonTokenType.String && SopKinds.TryParse(json.GetString()!, out SopKind kind))
            {
                kinds.Add(kind);
                continue;
            }

            Invalid(ref json, member, expected);
            usable = false;
            json.Skip();
        }

        return usable ? kinds.DrainToImmutable() : [];
    }

    private MeasuringPoint MeasuredAt(ref Utf8JsonReader json, int member)
    {
        if (json.TokenType == JsonTokenType.String)
        {
            foreach ((string word, MeasuringPoint point) in MeasuringWords.Points)
            {
                if (json.ValueTextEquals(word))
                {
                    return point;
                }
            }
        }

        Invalid(ref json, member, "\"source\" (the port's connector), \"sink\" (behind the cable) or \"tester\" (between them)");
        return MeasuringPoint.Unknown;
    }

    // An accuracy of which one part cannot be read would look better than it is.
    private MeasuringAccuracy? Accuracy(ref Utf8JsonReader json, int member)
    {
        const string expected = "an object, for example {\"vbus_mv\":10,\"vbus_ppm\":500,\"ibus_ma\":5,\"ibus_ppm\":1000}";
        if (json.TokenType != JsonTokenType.StartObject)
        {
            Invalid(ref json, member, expected);
            return null;
        }

        Span<int> values = [-1, -1, -1, -1];
        bool usable = true;
        while (json.Read() && json.TokenType == JsonTokenType.PropertyName)
        {
            string name = json.GetString()!;
            int index = Array.IndexOf(AccuracyMembers, name);
            if (index < 0)
            {
                Unknown(json.ValueSpan, (int)json.TokenStartIndex + 1, "a header's \"accuracy\"", AccuracyMembers);
            }

            json.Read();
            if (index >= 0 && json.TokenType != JsonTokenType.Null)
            {
                bool read = json.TokenType == JsonTokenType.Number && json.TryGetInt32(out values[index])
                    && values[index] is >= 0 and <= MeasuringAccuracy.Maximum;
                if (!read)
                {
                    Invalid(ref json, member, $"\"{name}\" from 0 to {MeasuringAccuracy.Maximum}");
                    usable = false;
                }
            }

            json.Skip();
        }

        return usable
            ? new MeasuringAccuracy(Stated(values[0]), Stated(values[1]), Stated(values[2]), Stated(values[3]))
            : null;

        static int? Stated(int value) => value < 0 ? null : value;
    }
}
