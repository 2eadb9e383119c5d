using Portwitness.Analysis.Phrases;

namespace Portwitness.Product.Pack;

/// <summary>What a figure of a pack counts in.</summary>
public enum FigureUnit
{
    /// <summary>Wh/l.</summary>
    WattHoursPerLitre,

    /// <summary>Wh/kg.</summary>
    WattHoursPerKilogram,

    /// <summary>mA.</summary>
    Milliamperes,

    /// <summary>min.</summary>
    Minutes,

    /// <summary>Tenths of a full charge of a device.</summary>
    TenthsOfFills,
}

/// <summary>A reckoned value.</summary>
/// <param name="Least">The value, or its least one.</param>
/// <param name="Most">The most; null when there is one value.</param>
/// <param name="Unit">What both count in.</param>
public readonly record struct FigureValue(long Least, long? Most, FigureUnit Unit);

/// <summary>One figure of a pack.</summary>
/// <param name="About">What it is of.</param>
/// <param name="Value">The value.</param>
/// <param name="Basis">What it was reckoned from.</param>
public sealed record PackFigure(Phrase About, FigureValue Value, Phrase Basis);
