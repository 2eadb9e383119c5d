using Portwitness.PowerDelivery.Units;
using Portwitness.Product.Parts;
using Portwitness.Text;
using Portwitness.Text.Yaml;

namespace Portwitness.Product;

/// <summary>Reads one part of "parts:" that is no controller.</summary>
internal sealed class PartReader(YamlValues values)
{
    private const int PpmOfWhole = 1_000_000;
    private const int MaxThousandths = 1_000_000_000;
    private const int MaxContacts = 100;
    private const int MaxParallel = 100;
    private const int MaxGauge = 40;

    private static readonly string[] Common = ["part", "kind", "node"];
    private static readonly string[] RatedMembers = [.. Common, "volts", "amps", "headroom"];

    private static readonly string[] SwitchMembers = [.. RatedMembers, "milliohms", "watts", "parallel"];

    // What each kind has besides; the words that people use for parts with a rating alone are that kind.
    internal static readonly (string Word, PartKind Kind, string[] Members, string Example)[] Kinds =
    [
        ("mosfet", PartKind.Rated, SwitchMembers, ""),
        ("switch", PartKind.Rated, SwitchMembers, ""),
        ("capacitor", PartKind.Rated, [.. RatedMembers, "ripple", "parallel"], ""),
        ("fuse", PartKind.Rated, RatedMembers, ""),
        ("diode", PartKind.Rated, RatedMembers, ""),
        ("tvs", PartKind.Tvs, [.. Common, "standoff", "clamp"], "{part: D1, kind: tvs, node: C1, standoff: 24V, clamp: 38.9V}"),
        ("sense-resistor", PartKind.SenseResistor, [.. Common, "milliohms", "watts"], "{part: R5, kind: sense-resistor, node: C1, milliohms: 5, watts: 1W}"),
        ("inductor", PartKind.Inductor, [.. Common, "saturates", "microhenries", "kilohertz"],
            "{part: L1, kind: inductor, node: C1, saturates: 9A, microhenries: 4.7, kilohertz: 400}"),
        ("contacts", PartKind.Contacts, [.. Common, "contacts", "amps_per_contact"], "{part: J1, kind: contacts, node: C1, contacts: 4, amps_per_contact: 1.25A}"),
        ("connector", PartKind.Contacts, [.. Common, "contacts", "amps_per_contact"], "{part: J1, kind: connector, node: C1, contacts: 4, amps_per_contact: 1.25A}"),
        ("ribbon", PartKind.Ribbon, [.. Common, "contacts", "amps_per_contact"], "{part: J2, kind: ribbon, node: C1, contacts: 8, amps_per_contact: 0.5A}"),
        ("cable", PartKind.Cable, [.. Common, "amps", "milliohms", "length_m", "awg"], "{part: W1, kind: cable, node: C1, amps: 5A, milliohms: 140}"),
    ];

    /// <summary>The part; null, with a fault, when it cannot be judged.</summary>
    public ProductPart? Read(YamlNode node)
    {
        (PartKind kind, string[] members, string example) = KindOf(node);
        ProductPart part = new("", "", null, null, UsualHeadroom(node), node.Line, node.Column) { Kind = kind };
        foreach ((YamlText key, YamlNode value) in values.Entries(node, "parts"))
        {
            if (members.Contains(key.Text))
            {
                part = With(part, key.Text, value);
            }
            else
            {
                values.Unknown(key, "a part", members);
            }
        }

        if (!string.IsNullOrWhiteSpace(part.Name) && !string.IsNullOrWhiteSpace(part.Node) && IsEnough(part))
        {
            return part;
        }

        values.Fault(
            node, ProductFaultCodes.ValueWrong,
            kind == PartKind.Rated
                ? "a part needs its name, the port whose VBUS it is on, and a rating, as {part: Q3, node: C1, volts: 30V, amps: 6A}"
                : $"a part of this kind needs its name, its node and its figures, as {example}");
        return null;
    }

    private static int UsualHeadroom(YamlNode node) =>
        node is YamlMap map && map.Entries.Any(static entry => entry is { Key.Text: "kind", Value: YamlText { Text: "fuse" } })
            ? ProductPart.FuseHeadroomPpm : ProductPart.UsualHeadroomPpm;

    private (PartKind Kind, string[] Members, string Example) KindOf(YamlNode node)
    {
        YamlNode? stated = node is YamlMap map ? map.Entries.FirstOrDefault(static entry => entry.Key.Text == "kind").Value : null;
        if (stated is not YamlText { Text: var word })
        {
            return (PartKind.Rated, RatedMembers, "");
        }

        if (Array.Find(Kinds, one => one.Word == word) is { Members: not null } found)
        {
            return (found.Kind, found.Members, found.Example);
        }

        string nearest = NearestName.Of(word, Kinds.Select(static one => one.Word).Append("controller")) is { } near ? $" Did you mean \"{near}\"?" : "";
        values.Fault(
            stated, ProductFaultCodes.ValueWrong,
            $"\"{word}\" is no kind of part that is known here.{nearest} Known kinds: {string.Join(", ", Kinds.Select(static one => one.Word))}, controller");
        return (PartKind.Rated, RatedMembers, "");
    }

    private ProductPart With(ProductPart part, string member, YamlNode value) => member switch
    {
        "part" => part with { Name = values.Text(value, member) ?? "" },
        "node" => part with { Node = values.Text(value, member) ?? "" },
        "volts" => part with { Volts = Volts(value) },
        "amps" => part with { Amperes = Amperes(value) },
        "headroom" => part with { HeadroomPpm = Headroom(value, part.HeadroomPpm) },
        "standoff" => part with { Standoff = Volts(value) },
        "clamp" => part with { Clamp = Volts(value) },
        "milliohms" => part with { Microohms = values.Number(value, member, 1, MaxThousandths, 3) },
        "watts" => part with { Watts = Watts(value) },
        "saturates" => part with { Saturation = Amperes(value) },
        "microhenries" => part with { Nanohenries = values.Number(value, member, 1, MaxThousandths, 3) },
        "kilohertz" => part with { Hertz = values.Number(value, member, 1, MaxThousandths, 3) },
        "contacts" => part with { Contacts = values.Number(value, member, 1, MaxContacts, 0) },
        "amps_per_contact" => part with { PerContact = Amperes(value) },
        "parallel" => part with { Parallel = values.Number(value, member, 1, MaxParallel, 0) ?? 1 },
        "ripple" => part with { Ripple = Amperes(value) },
        "length_m" => part with { Millimetres = values.Number(value, member, 1, MaxThousandths, 3) },
        "awg" => part with { Gauge = values.Number(value, member, 0, MaxGauge, 0) },
        _ => part,
    };

    private static bool IsEnough(ProductPart part) => part.Kind switch
    {
        PartKind.Tvs => part.Standoff is not null || part.Clamp is not null,
        PartKind.SenseResistor => part is { Microohms: not null, Watts: not null },
        PartKind.Inductor => part.Saturation is not null,
        PartKind.Contacts or PartKind.Ribbon => part.Contacts is not null,
        PartKind.Cable => part.Microohms is not null || part is { Millimetres: not null, Gauge: not null },
        _ => part.Volts is not null || part.Amperes is not null || part.Ripple is not null || part is { Microohms: not null, Watts: not null },
    };

    private Voltage? Volts(YamlNode node) => AmountWords.Millivolts(values.Text(node, "parts") ?? "") is > 0 and int millivolts
        ? Voltage.FromMillivolts(millivolts) : Wrong<Voltage>(node);

    private Current? Amperes(YamlNode node) => AmountWords.Milliamperes(values.Text(node, "parts") ?? "") is > 0 and int milliamperes
        ? Current.FromMilliamperes(milliamperes) : Wrong<Current>(node);

    private Power? Watts(YamlNode node)
    {
        string text = values.Text(node, "parts") ?? "";
        return (AmountWords.Milliwatts(text) ?? AmountWords.Milliwatts($"{text}W")) is > 0 and int milliwatts ? Power.FromMilliwatts(milliwatts) : Wrong<Power>(node);
    }

    private int Headroom(YamlNode node, int usual)
    {
        if (new EnergyReader(values).Percent(node, "headroom") is { } ppm)
        {
            if (ppm < PpmOfWhole)
            {
                return ppm;
            }

            Wrong<Power>(node);
        }

        return usual;
    }

    private T? Wrong<T>(YamlNode node)
        where T : struct
    {
        values.Fault(node, ProductFaultCodes.ValueWrong, "ratings were expected, as {volts: 30V, amps: 6A, headroom: 20%}");
        return null;
    }
}
