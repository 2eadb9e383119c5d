using Portwitness.Analysis.Evidence;
using Portwitness.PowerDelivery.Headers;
using Portwitness.PowerDelivery.Limits;
using Portwitness.PowerDelivery.PowerData;
using Portwitness.PowerDelivery.Units;
using Portwitness.Testing.Compliance;

namespace Portwitness.Analysis.Tests.Compliance;

/// <summary>A change that breaks exactly one clause in the list of a compliant source.</summary>
/// <param name="Rule">The rule that must accuse the list.</param>
/// <param name="Change">Changes the words; null where the source offers nothing to break.</param>
public sealed record ListMutation(string Rule, Func<CompliantSource, List<uint>, List<uint>?> Change)
{
    /// <summary>Rules that the same change breaks as well.</summary>
    public IReadOnlyCollection<string> Related { get; init; } = [];

    /// <summary>Whether the EPR list of EPR mode is changed.</summary>
    public bool OfEpr { get; init; }

    /// <summary>The edition of the sources that are changed.</summary>
    public Editions Edition { get; init; } = Editions.R32;

    /// <summary>What is not known of the source.</summary>
    public Func<SourceEvidence, SourceEvidence> Forget { get; init; } = evidence => evidence;

    public MessageKind Kind => OfEpr ? MessageKind.EPRSourceCapabilities : MessageKind.SourceCapabilities;

    /// <summary>The mutations of all capability rules that can accuse.</summary>
    public static IReadOnlyList<ListMutation> All { get; } =
    [
        new("first-object-not-vsafe5v", (_, words) => words.Count > 1 ? Swap(words, 0, 1) : null)
        {
            Related = ["objects-out-of-order", "flags-beyond-first-object"],
        },
        new("objects-out-of-order", (source, words) => source.Maximum > 27_000 ? Swap(words, 1, 2) : null),
        new("voltage-offered-twice", (source, words) => source.Maximum > 15_000 && words.Count < 7 ? Insert(words, 1, words[1] - 1) : null),
        new("too-many-objects", (source, words) => source.PpsMinimum > 0 ? [.. words, .. Enumerable.Repeat(words[^1], 8 - words.Count)] : null),
        new("reserved-bits-set", (_, words) => Replace(words, 0, words[0] | 1u << 22)),
        new("flags-beyond-first-object", (source, words) => source.Maximum > 15_000 ? Replace(words, 1, words[1] | 1u << 29) : null),
        new("current-above-5a", (source, words) => source.Maximum >= 25_000 && source.CableMilliamperes == 5000
            ? Replace(words, 0, Fixed(5000, 5010, words[0])) : null),
        new("current-above-3a-without-5a-cable", (source, words) => source.CableMilliamperes == 5000
            && words.Exists(word => Current(word) > 3000) ? words : null)
        {
            Forget = evidence => evidence with { Cable = CableEvidence.ThreeAmpere },
        },
        new("voltage-beyond-range", (source, words) => source is { Maximum: < 27_000, PpsMinimum: 0, Extra: Extra.None }
            ? [.. words, Fixed(20050, source.Maximum * 100 / 20050 * 10, 0)] : null)
        {
            Edition = Editions.R31,
        },
        new("normative-voltage-missing", (source, words) => source.Maximum > 27_000 ? Without(words, At9V(words)) : null),
        new("normative-current-too-low", (source, words) => source.Maximum > 27_000 && !source.High
            ? Replace(words, At9V(words), Fixed(9000, 2990, 0)) : null),
        new("current-beyond-pdp", (source, words) => source is { Maximum: < 40_000 and > 15_000, Extra: Extra.None }
            ? Replace(words, 1, Fixed(9000, (source.Maximum * 100 / 9000 * 10) + 20, 0)) : null)
        {
            Related = ["current-above-3a-without-5a-cable"],
        },
        new("optional-voltage-above-9v", (source, words) => source is { IsEpr: false, Extra: Extra.None, Maximum: > 27_000 } && words.Count < 7
            ? Insert(words, 2, Fixed(9050, 1000, 0)) : null),
        new("pps-range-not-standard", (source, words) => Pps(source, words) is { } at && words[at] is var pps
            ? Replace(words, at, pps + (1u << 8)) : null),
        new("empty-object", (_, words) => words.Count < 7 ? [.. words, 0] : null),
        new("unknown-object-kind", (_, words) => words.Count < 7 ? [.. words, 0xF0000000] : null) { Edition = Editions.R31 },
        new("battery-power-beyond-pdp", (source, words) => source is { Maximum: <= 27_000, PpsMinimum: 0, Extra: Extra.None }
            ? [.. words, BatterySourceSupply.Create(V(3300), V(5500), Power.FromMilliwatts((source.Maximum / 250 * 250) + 250)).Raw] : null),
        new("variable-range-too-wide", (source, words) => source is { Maximum: <= 27_000, PpsMinimum: 0, Extra: Extra.None }
            ? [.. words, VariableSourceSupply.Create(V(4350), V(5450), A(source.Maximum * 100 / 5500 / 2 * 10)).Raw] : null),
        new("range-limits-swapped", (source, words) => source is { Maximum: <= 27_000, PpsMinimum: 0, Extra: Extra.None }
            ? [.. words, BatterySourceSupply.Create(V(5500), V(5450), Power.FromMilliwatts(500)).Raw] : null),
        new("pps-limits-swapped", (source, words) => Pps(source, words) is { } at
            ? Replace(words, at, PpsSourceSupply.Create(V(11000), V(5000), A(1000)).Raw) : null)
        {
            Related = ["pps-normative-range-missing", "objects-out-of-order"],
        },
        new("pps-normative-range-missing", (source, words) => Pps(source, words) is { } at && source.Maximum > 27_000
            ? words.FindAll(word => PowerObjectKinds.Of(word) == PowerObjectKind.Pps).Count > 1
                ? Without(words, at)
                : Replace(words, at, PpsSourceSupply.Create(V(5000), V(11000), A(3000)).Raw)
            : null),
        new("pps-current-too-low", (source, words) => Pps(source, words) is { } at && source.Maximum > 15_000 && !source.IsEpr
            ? Replace(words, at, words[at] - 1) : null),
        new("pps-current-beyond-pdp", (source, words) => Pps(source, words) is { } at && source is { Maximum: > 15_000 and < 100_000 }
            && (source.CableMilliamperes == 5000 || source.Maximum <= 60_000) ? Replace(words, at, words[at] + 1) : null)
        {
            Related = ["current-above-3a-without-5a-cable"],
        },
        new("avs-object-repeated", (_, words) => Avs(words) is { } at && words.Count < 7 ? Insert(words, at, words[at]) : null),
        new("object-newer-than-edition", (source, words) => source is { Maximum: > 27_000, PpsMinimum: 0, Extra: Extra.None }
            ? [.. words, SprAvsSourceSupply.Create(A(Current(words[2])), A(words.Count > 3 ? Current(words[3]) : 0)).Raw] : null)
        {
            Edition = Editions.R30,
        },
        new("spr-avs-missing", (source, words) => Avs(words) is { } at && source.Maximum > 27_000 ? Without(words, at) : null),
        new("spr-avs-currents-differ", (_, words) => Avs(words) is { } at ? Replace(words, at, words[at] - (1u << 10)) : null),
        new("pdp-not-a-standard-figure", (source, words) => source is { Maximum: > 15_000 and < 27_000, Extra: Extra.None, High: false, PpsMinimum: 0 }
            && Between(source.Maximum) is { } current ? Replace(words, 1, Fixed(9000, current, 0)) : null)
        {
            Forget = evidence => evidence with { Pdp = null, PdpBasis = PdpBasis.None },
        },
        new("optional-voltage-from-epr-source", (source, words) => source.IsEpr && words.Count < 7 ? Insert(words, 1, Fixed(8000, 3000, 0)) : null),
        new("epr-object-in-spr-position", (source, words) => words[6] == 0 ? Replace(words, Array.IndexOf([.. words], 0u), Fixed(28000, 3000, 0)) : null)
        {
            OfEpr = true,
            Related = ["objects-out-of-order", "voltage-offered-twice"],
        },
        new("epr-padding-not-zero", (_, words) => words[6] == 0 ? Replace(words, 6, 300) : null) { OfEpr = true },
        new("epr-voltage-beyond-pdp", (source, words) => source.Maximum <= 180_000
            ? Insert(words, words.Count - 1, Fixed(source.Maximum <= 140_000 ? 36000 : 48000, 2000, 0)) : null)
        {
            OfEpr = true,
        },
        new("epr-normative-object-missing", (_, words) => Without(words, 7)) { OfEpr = true },
        new("epr-normative-object-missing", (_, words) => Without(words, words.Count - 1)) { OfEpr = true },
        new("epr-avs-range-wrong", (_, words) => Replace(words, words.Count - 1, words[^1] - (1u << 17))) { OfEpr = true },
        new("epr-avs-range-wrong", (_, words) => Replace(words, words.Count - 1, words[^1] + (1u << 8))) { OfEpr = true },
        new("current-beyond-pdp", (_, words) => Replace(words, words.Count - 1, words[^1] + 1)) { OfEpr = true, Related = ["power-above-240w"] },
        new("power-above-240w", (_, words) => Replace(words, words.Count - 1, words[^1] | 0xFF))
        {
            OfEpr = true,
            Related = ["current-beyond-pdp"],
        },
        new("avs-object-repeated", (_, words) => Insert(words, words.Count - 1, words[^1])) { OfEpr = true },
        new("normative-current-too-low", (_, words) => Replace(words, words.Count - 1, words[^1] - 1)) { OfEpr = true },
        new("normative-current-too-low", (_, words) => Replace(words, 3, Fixed(20000, 4990, 0)))
        {
            OfEpr = true,
            Related = ["spr-avs-currents-differ"],
        },
    ];

    public override string ToString() => $"{Rule}{(OfEpr ? ", EPR list" : "")}";

    private static int At9V(List<uint> words) => words.FindIndex(word =>
        PowerObjectKinds.Of(word) == PowerObjectKind.Fixed && new FixedSourceSupply(word).Voltage.Millivolts == 9000);

    // A current that agrees with neither the rating nor the next one.
    private static int? Between(int rating)
    {
        int highest = (int)(((rating * 100L) + 8999) / 9000) * 10;
        int lowest = (int)((rating + 1000) * 100L / 9000) * 10;
        return highest + 10 < lowest ? highest + 10 : null;
    }

    private static int? Pps(CompliantSource source, List<uint> words) =>
        source.PpsMinimum > 0 && PowerObjectKinds.Of(words[^1]) == PowerObjectKind.Pps ? words.Count - 1 : null;

    private static int? Avs(List<uint> words)
    {
        int at = words.FindIndex(word => PowerObjectKinds.Of(word) == PowerObjectKind.SprAvs);
        return at < 0 ? null : at;
    }

    private static int Current(uint word) => PowerObjectKinds.Of(word) == PowerObjectKind.Fixed
        ? new FixedSourceSupply(word).MaximumCurrent.Milliamperes
        : 0;

    private static uint Fixed(int millivolts, int milliamperes, uint flags) =>
        FixedSourceSupply.Create(V(millivolts), A(milliamperes)).Raw | (flags & 0x3F800000);

    private static List<uint> Swap(List<uint> words, int left, int right) =>
        Replace(Replace(words, left, words[right]), right, words[left]);

    private static List<uint> Replace(List<uint> words, int at, uint word) => [.. words[..at], word, .. words[(at + 1)..]];

    private static List<uint> Insert(List<uint> words, int at, uint word) => [.. words[..at], word, .. words[at..]];

    private static List<uint> Without(List<uint> words, int at) => [.. words[..at], .. words[(at + 1)..]];

    private static Voltage V(int millivolts) => Voltage.FromMillivolts(millivolts);

    private static Current A(int milliamperes) => Portwitness.PowerDelivery.Units.Current.FromMilliamperes(milliamperes);
}
