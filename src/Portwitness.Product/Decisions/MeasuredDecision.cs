using System.Collections.Immutable;
using Portwitness.Analysis.Phrases;

namespace Portwitness.Product.Decisions;

/// <summary>Something that was measured, against its limits.</summary>
/// <param name="Port">The port; empty for the product.</param>
/// <param name="InUse">Ports in use; empty where that does not matter.</param>
/// <param name="About">What was measured.</param>
/// <param name="Unit">The unit of the numbers.</param>
/// <param name="Value">What was read.</param>
/// <param name="Least">No less than this is allowed; null for no such limit.</param>
/// <param name="Most">No more than this is allowed; null for no such limit.</param>
/// <param name="Expanded">The expanded uncertainty of the reading, k = 2.</param>
/// <param name="Bound">By how much the reading may be off at most, all limits of the meters added up.</param>
public sealed record MeasuredDecision(
    string Port, ImmutableArray<string> InUse, Phrase About, QuantityUnit Unit, long Value, long? Least, long? Most, long Expanded, long Bound)
{
    /// <summary>Whether the accuracy of the meter is stated.</summary>
    public required bool IsStated { get; init; }

    /// <summary>The file that shows it; empty for what was typed.</summary>
    public string File { get; init; } = "";

    /// <summary>Line of the label that has the limit; null for a limit of the standard.</summary>
    public int? LabelLine { get; init; }

    /// <summary>The guard band: no reading is off by more than its limits, however wide two standard uncertainties of a rectangle are.</summary>
    public long Guard => Math.Min(Expanded, Bound);

    /// <summary>Where the reading is.</summary>
    public DecisionWord Word
    {
        get
        {
            long outside = Math.Max(Least is { } least ? least - Value : long.MinValue, Most is { } most ? Value - most : long.MinValue);
            return outside > Guard ? DecisionWord.Fail
                : outside > 0 ? DecisionWord.ConditionalFail
                : outside > -Guard ? DecisionWord.ConditionalPass
                : DecisionWord.Pass;
        }
    }
}
