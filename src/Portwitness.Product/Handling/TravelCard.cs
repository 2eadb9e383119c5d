using System.Collections.Immutable;
using Portwitness.Analysis.Phrases;
using Portwitness.Product.Energy;

namespace Portwitness.Product.Handling;

/// <summary>What is known, as of a day, of the rules about carrying a pack. It says what rules say, never that a carrier will take it.</summary>
/// <param name="AsOf">The day.</param>
/// <param name="Energy">The energy that decides, and its band.</param>
/// <param name="Rules">Rules in force on that day, each with what is seen of the mark that it asks for.</param>
/// <param name="Remarks">What is not known.</param>
public sealed record TravelCard(DateOnly AsOf, Phrase Energy, ImmutableArray<(TravelRule Rule, string Mark)> Rules, ImmutableArray<string> Remarks)
{
    private const long Free = 100_000_000;
    private const long WithApproval = 160_000_000;

    private static readonly string[] CccWords = ["3C", "CCC"];
    private static readonly string[] CollectionWords = ["separate-collection", "WEEE", "crossed-out bin"];

    /// <summary>The card of a day.</summary>
    /// <param name="asOf">The day.</param>
    /// <param name="marks">Marks that were seen on the product; null when nobody looked.</param>
    /// <param name="cells">What the cells hold; null when nobody says.</param>
    internal static TravelCard Of(DateOnly asOf, IReadOnlyCollection<string>? marks, CellEnergy? cells) => new(
        asOf,
        cells is null ? "no watt-hours are stated, printed or can be reckoned"
            : Phrase.Of($"{EnergyText.Energy(cells.MicrowattHours)} ({cells.Basis}): ") + Band(cells.MicrowattHours),
        [.. TravelRules.All.Where(rule => rule.Since <= asOf).Select(rule => (rule, Seen(rule.Mark, marks)))],
        [
            .. asOf > TravelRules.KnownUntil ? new[] { $"What was made after {TravelRules.KnownUntil:yyyy-MM-dd} is not known here." } : [],
            "All of it is second-hand: the carrier, who may be stricter, and local rules decide.",
        ]);

    private static Phrase Band(long microwattHours) => microwattHours switch
    {
        <= Free => "up to 100 Wh",
        <= WithApproval => "more than 100 Wh, up to 160 Wh",
        _ => "more than 160 Wh",
    };

    private static string Seen(TravelMark mark, IReadOnlyCollection<string>? marks)
    {
        string[] words = mark switch
        {
            TravelMark.Ccc => CccWords,
            TravelMark.SeparateCollection => CollectionWords,
            _ => [],
        };
        return words.Length == 0 ? ""
            : marks is null ? "nobody says which marks it has"
            : marks.Any(seen => words.Contains(seen.Trim(), StringComparer.OrdinalIgnoreCase)) ? "its mark was seen" : "its mark is not among those seen";
    }
}
