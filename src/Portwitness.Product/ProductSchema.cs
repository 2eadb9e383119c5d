using System.Text;
using System.Text.Encodings.Web;
using System.Text.Json;
using System.Text.Json.Nodes;

using Portwitness.Product.Soaks;

namespace Portwitness.Product;

/// <summary>
/// The JSON Schema of a product file, for editors. It is made of the members that the readers take, so that a name is in both or in
/// neither; what a text means in detail only the readers know.
/// </summary>
public static class ProductSchema
{
    private const string Address = "https://json-schema.org/draft/2020-12/schema";

    /// <summary>The schema, indented.</summary>
    public static string Text
    {
        get
        {
            using MemoryStream bytes = new();
            using (Utf8JsonWriter json = new(bytes, new JsonWriterOptions { Indented = true, Encoder = JavaScriptEncoder.UnsafeRelaxedJsonEscaping }))
            {
                Product().WriteTo(json);
            }

            return Encoding.UTF8.GetString(bytes.ToArray()) + "\n";
        }
    }

    private static JsonObject Product()
    {
        JsonObject product = Map(
            ProductFileReader.Members,
            ("product", Scalar("the product's name")), ("sample", Scalar("which sample of it")), ("firmware", Scalar("the version of its firmware")),
            ("label", Printed()),
            ("labels", List(Map(
                LabelsReader.Members, ("name", Scalar()), ("label", Printed()), ("file", Scalar()), ("label_corrections", Corrections())))),
            ("label_corrections", Corrections()),
            ("ratings", Ratings()),
            ("ports", Named(Map(
                ProductFileReader.PortMembers, ("cable", Words("captive", "detachable")), ("also", Any("other names of this port", Scalar(), List(Scalar())))))),
            ("signalling", Named(Any("what a port answers to besides USB PD", Scalar(), List(Scalar())))),
            ("captures", List(Any("a file, or a file with what is known of it", Scalar(), Capture()))),
            ("offers", List(Map(
                TypedOffersReader.Members, ("port", Scalar()), ("in_use", List(Scalar())), ("list", Any("offers as they were read", Scalar(), List(Scalar()))),
                ("read_on", Scalar()), ("from", Scalar()), ("under_contract", Truth()), ("complete", Truth()), ("photo", Scalar()), ("checked", Truth())))),
            ("loads", List(Map(
                ProductLoadReader.Members, ("port", Scalar()), ("at", Scalar("5V 3A")),
                ("in_use", List(Any("a port, or {C: in} and {A: out}", Scalar(), Named(Words("in", "out"))))), ("input_left", Truth()), ("read_on", Scalar()), ("measured", Scalar("4.92V 3.00A")),
                ("for", Scalar("10min")), ("accuracy", Accuracy()), ("measured_at", Point()), ("file", Scalar()), ("current", Sign()), ("longest_step", Scalar("10s")),
                ("columns", Columns())))),
            ("discharges", List(Map(
                ProductLogReader.Members, ("file", Scalar()), ("port", Scalar()), ("at", Scalar("5V 2A")), ("kind", Words("discharge", "charge")),
                ("begun", Words("full", "partly")), ("current", Sign()), ("cut_off", Scalar("4.5V")), ("longest_step", Scalar("10s")), ("accuracy", Accuracy()),
                ("measured_at", Point()), ("columns", Columns()), ("read_on", Scalar())))),
            ("soaks", List(Map(
                SoaksReader.Members, ("port", Scalar()), ("at", Scalar("20V 3.25A")), ("file", Scalar()), ("temperatures", List(Scalar("a heading; ambient or room is the room"))),
                ("in_use", List(Scalar())), ("with", Scalar("the capture that ran beside it")), ("offset", Scalar("1.25s")), ("read_on", Scalar()), ("current", Sign()),
                ("longest_step", Scalar("10s")), ("accuracy", Accuracy()), ("measured_at", Point()), ("columns", Columns())))),
            ("touch", Map(SoaksReader.TouchMembers, ("row", Words([.. TouchRow.Rows])), ("material", Words([.. TouchRow.Materials])))),
            ("battery", Battery()),
            ("adapter", List(Map(
                EnergyReader.AdapterMembers, ("at", Scalar("20V 3.25A")), ("no_load_w", Scalar()), ("accuracy", Scalar("0.2%")),
                ("points", List(Map(EnergyReader.PointMembers, ("load", Scalar("25%")), ("input_w", Scalar()), ("output_w", Scalar()))))))),
            ("parts", List(Map(PartsReader.Members, [("part", Scalar()), .. PartRatings()]))),
            ("converters", List(Map(ConvertersReader.Members, ("id", Scalar()), ("ports", List(Scalar())), ("traced", Truth())))),
            ("teardown", List(Map(
                TeardownReader.Members,
                [
                    ("ref", Scalar()), ("function", Scalar("what it does; the checklist knows protection, balancing, thermistor, switch and tvs")), ("marking", Scalar()),
                    ("maker", Scalar()), ("package", Scalar()), ("count", Scalar()), ("photo", Scalar()), ("identified", Words(TeardownReader.Identifications)),
                    ("board", Scalar()), ("side", Scalar()), ("searched", Truth()), ("source", Scalar()), .. PartRatings(),
                ]))),
            ("claims", List(Map(
                ClaimsReader.Members, ("text", Scalar()), ("source", Scalar()), ("kind", Words(ClaimsReader.Kinds)), ("time", Scalar("90min")), ("share", Scalar("50%")),
                ("input", Scalar("30W")), ("output", Scalar("10W")), ("fills", Scalar()), ("device", Scalar("one of battery: fills:")), ("device_wh", Scalar()), ("mass_g", Scalar()),
                ("size_mm", List(Scalar())), ("watts", Scalar("65W")), ("port", Scalar())))),
            ("opened", Scalar("the day, as 2026-12-01")), ("state", Words(HandlingReader.States)),
            ("travel", Map(HandlingReader.TravelMembers, ("as_of", Scalar("a day, as 2026-12-01")), ("marks", List(Scalar())))));
        product.Insert(0, "$schema", Address);
        product.Insert(1, "title", "A product that portwitness checks");
        return product;
    }

    private static (string, JsonObject)[] PartRatings() =>
    [
        ("kind", Words(PartsReader.Kinds)), ("node", Scalar("a port, pack or bridge")), ("volts", Scalar("30V")),
        ("amps", Scalar("6A")), ("headroom", Scalar("20%")), ("standoff", Scalar("24V")), ("clamp", Scalar("38.9V")), ("milliohms", Scalar()), ("watts", Scalar()),
        ("saturates", Scalar("9A")), ("microhenries", Scalar()), ("kilohertz", Scalar()), ("contacts", Scalar()), ("amps_per_contact", Scalar("1.25A")),
        ("parallel", Scalar()), ("ripple", Scalar("2A")),
        ("length_m", Scalar()), ("awg", Scalar()), ("protocols", Any("", Scalar(), List(Scalar()))), ("ports", Any("", Scalar(), List(Scalar()))),
    ];

    private static JsonObject Capture() => Map(
        ProductCaptureReader.Members, ("file", Scalar()), ("port", Scalar()), ("in_use", List(Scalar())), ("columns", Columns()),
        ("measurements", Map(
            ProductCaptureReader.MeasurementMembers, ("file", Scalar()), ("offset", Scalar("1.25s")), ("columns", Columns()), ("measured_at", Point()), ("accuracy", Accuracy()))),
        ("with", Scalar("the file on whose clock it is")), ("offset", Scalar("250ms")), ("signal", Scalar()), ("samples", Scalar("u8@25MS/s")), ("levels", Scalar("0.4,0.7")),
        ("units", Scalar("us,mV")), ("quoted", Words("words", "bytes")), ("read_on", Scalar("the day, as 2026-03-02")));

    private static JsonObject Printed() => Any(
        "the printed label: its text, @FILE, {file: FILE} or {photo: FILE}", Scalar(), Map(LabelMember.Members, ("file", Scalar()), ("photo", Scalar()), ("checked", Truth())));

    private static JsonObject Corrections() =>
        List(Map(LabelCorrectionReader.Members, ("line", Scalar()), ("printed", Scalar()), ("read_as", Scalar()), ("no_rating", Truth())));

    private static JsonObject Battery() => Map(
        BatteryReader.Members,
        ("cells", Map(
            BatteryReader.CellMembers, ("series", Scalar()), ("parallel", Scalar()), ("capacity_mah", Scalar()), ("nominal_v", Scalar()), ("full_v", Scalar()), ("empty_v", Scalar()),
            ("energy_wh", Scalar()), ("max_charge_a", Scalar()), ("max_discharge_a", Scalar()), ("size_mm", List(Scalar())), ("mass_g", Scalar()), ("code", Scalar("18650")),
            ("protection", List(Scalar())))),
        ("mass_g", Scalar("of the whole product")), ("size_mm", List(Scalar())),
        ("plausible", Map(BatteryReader.PlausibleMembers, ("wh_per_litre", List(Scalar())), ("wh_per_kg", List(Scalar())))),
        ("fills", List(Map(BatteryReader.FillMembers, ("device", Scalar()), ("energy_wh", Scalar())))));

    private static JsonObject Ratings() => Map(
        RatingsReader.Members,
        ("inputs", Named(Any("", Scalar(), List(Scalar())))),
        ("outputs", Named(Map(RatingsReader.OutputMembers, ("modes", Any("", Scalar(), List(Scalar()))), ("ranges", Any("", Scalar(), List(Scalar()))), ("maximum", Scalar())))),
        ("combinations", Named(Named(Scalar()))), ("total", Scalar("65W")),
        ("battery", Map(RatingsReader.BatteryMembers, ("capacity", Scalar()), ("voltage", Scalar()), ("energy", Scalar()), ("cells", Scalar()), ("rated", Scalar()))));

    private static JsonObject Accuracy() =>
        Any("how far a meter may be off", Scalar(), Map(YamlValues.AccuracyMembers, ("volts", Scalar("0.05%+5mV")), ("amps", Scalar("0.1%+5mA"))));

    private static JsonObject Columns() => Any("which columns hold what", Scalar(), new JsonObject { ["type"] = "object" });

    private static JsonObject Point() => Words("source", "sink", "tester");

    private static JsonObject Sign() => Words("out-positive", "out-negative");

    // A member of a reader that is not described here, and the reverse, is a fault of this file.
    private static JsonObject Map(string[] members, params (string Name, JsonObject Schema)[] described)
    {
        if (!members.ToHashSet().SetEquals(described.Select(static one => one.Name)))
        {
            throw new InvalidOperationException($"The schema describes {string.Join(", ", described.Select(static one => one.Name))}; there are {string.Join(", ", members)}.");
        }

        JsonObject properties = [];
        foreach ((string name, JsonObject schema) in described)
        {
            properties.Add(name, schema);
        }

        return new JsonObject { ["type"] = "object", ["properties"] = properties, ["additionalProperties"] = false };
    }

    private static JsonObject Named(JsonObject value) => new() { ["type"] = "object", ["additionalProperties"] = value };

    private static JsonObject List(JsonObject item) => new() { ["type"] = "array", ["items"] = item };

    // Editors take what looks like a number, a date or a truth for one.
    private static JsonObject Scalar(string description = "") => Described(new JsonObject { ["type"] = new JsonArray("string", "number", "boolean") }, description);

    private static JsonObject Truth() => new() { ["enum"] = new JsonArray(true, false, "true", "false") };

    private static JsonObject Words(params string[] words) => new() { ["enum"] = new JsonArray([.. words.Select(static word => JsonValue.Create(word))]) };

    private static JsonObject Any(string description, params JsonObject[] schemas) => Described(new JsonObject { ["anyOf"] = new JsonArray([.. schemas]) }, description);

    private static JsonObject Described(JsonObject schema, string description)
    {
        if (description.Length > 0)
        {
            schema.Insert(0, "description", description);
        }

        return schema;
    }
}
