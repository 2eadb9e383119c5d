using System.Collections.Immutable;

namespace Portwitness.Product.Handling;

/// <summary>How a pack of lithium cells is handled in each state: common practice, no source, and second-hand where that is said.</summary>
public static class HandlingAdvice
{
    private const string Deference = "Local rules, the carrier and the instructions of the maker come before this advice.";

    private static readonly ImmutableArray<string> Sealed =
    [
        "Before it is opened, discharge it to 30 % or less, with no charging nearby; have plastic tools, and sand or water, at hand.",
        "Record what only the sealed product shows first: opening may end it.",
    ];

    private static readonly ImmutableArray<string> Opened =
    [
        "Cut one lead of the pack at a time and tape it; a short of a pack lets tens to a hundred amperes flow.",
        "Do not charge it unattended. What was opened is not what was tested: ask the carrier before it travels.",
    ];

    private static readonly ImmutableArray<string> Swollen =
    [
        "Do not open, charge, press or pierce it; put it outdoors on stone (second-hand).",
        "Damaged and recalled cells do not fly (from memory). Hand it over as damaged.",
    ];

    private static readonly ImmutableArray<string> ToBeDisposed =
    [
        "Not into household waste or recycling bins: tape its terminals, or bag each pack, and take it to a collection point for batteries (second-hand).",
        "Salt water is no method to make it safe.",
    ];

    /// <summary>What to do in a state; empty where none is stated.</summary>
    public static ImmutableArray<string> Of(ProductState state) => state switch
    {
        ProductState.Sealed => [.. Sealed, Deference],
        ProductState.Opened => [.. Opened, Deference],
        ProductState.Swollen => [.. Swollen, Deference],
        ProductState.ToBeDisposed => [.. ToBeDisposed, Deference],
        _ => [],
    };
}
