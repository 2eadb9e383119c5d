using System.Collections.Immutable;

namespace Portwitness.Product.Handling;

/// <summary>A mark that a travel or collection rule asks for.</summary>
public enum TravelMark
{
    /// <summary>None.</summary>
    None,

    /// <summary>The Chinese 3C mark.</summary>
    Ccc,

    /// <summary>The crossed-out bin.</summary>
    SeparateCollection,
}

/// <summary>A rule about carrying, selling or collecting packs.</summary>
/// <param name="Since">Since when it holds.</param>
/// <param name="Where">Where.</param>
/// <param name="Text">What it says, restated.</param>
/// <param name="Mark">The mark that it asks for.</param>
public sealed record TravelRule(DateOnly Since, string Where, string Text, TravelMark Mark = TravelMark.None);

/// <summary>Rules by date; all of them second-hand, restated from pages of regulators, carriers and the press.</summary>
public static class TravelRules
{
    /// <summary>The day up to which rules are known here.</summary>
    public static DateOnly KnownUntil { get; } = new(2026, 11, 30);

    /// <summary>All rules, the oldest first.</summary>
    public static ImmutableArray<TravelRule> All { get; } =
    [
        new(
            new(2014, 8, 7), "China",
            "own use, in the cabin only; up to 100 Wh free, up to 160 Wh two with approval; not used in flight; without watt-hours that can be read or reckoned refused"),
        new(new(2025, 3, 1), "Korea", "five up to 100 Wh, two up to 160 Wh with approval; not in overhead lockers, not charged on board, terminals covered"),
        new(new(2025, 4, 7), "carriers of Hong Kong", "no use, no charging, not in overhead lockers"),
        new(
            new(2025, 6, 28), "China, domestic flights (how far it goes is disputed)", "refused without a clear 3C mark, and when its model is recalled", TravelMark.Ccc),
        new(new(2025, 7, 8), "Japan", "within sight, not in overhead lockers"),
        new(new(2025, 8, 18), "European Union", "batteries carry the symbol of separate collection", TravelMark.SeparateCollection),
        new(new(2026, 1, 1), "air cargo", "lithium-ion packed with equipment at a reduced state of charge, 30 % above 2.7 Wh"),
        new(
            new(2026, 3, 27), "international flights",
            "two power banks a person, carried on, each protected; not recharged on board, and they should charge nothing"),
        new(
            new(2026, 4, 1), "China, sale",
            "makers follow the old or the new standard of power banks until 1 April 2027; units with an old 3C mark may still be carried"),
        new(new(2026, 4, 15), "Japan", "two up to 160 Wh, no use and no charging in flight; planned, the final text was not seen"),
        new(new(2027, 2, 18), "European Union", "portable batteries can be removed by the user, and carry a QR code"),
        new(new(2027, 4, 1), "China, sale", "only the new standard of power banks for all that is made and sold"),
    ];
}
