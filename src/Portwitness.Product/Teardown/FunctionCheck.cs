using System.Collections.Immutable;
using Portwitness.Product.Pack;
using Portwitness.Product.Parts;

namespace Portwitness.Product.Teardown;

/// <summary>How far a function that such a product has as a rule is accounted for.</summary>
public enum FunctionState
{
    /// <summary>As many as are usual were found.</summary>
    Found,

    /// <summary>As many were found, but not all of them read.</summary>
    Inferred,

    /// <summary>Nobody accounted for all of them, and nobody says that they were looked for.</summary>
    NotAccountedFor,

    /// <summary>They were looked for, and are not there.</summary>
    Absent,
}

/// <summary>One line of the checklist of functions (common practice, no source).</summary>
/// <param name="Function">The function, as "function:" of the ledger names it.</param>
/// <param name="Wanted">How many there are as a rule.</param>
/// <param name="Found">How many are listed.</param>
/// <param name="Inferred">How many of these were only inferred.</param>
/// <param name="State">What follows.</param>
/// <param name="WantedFor">What asks for it, in words.</param>
public sealed record FunctionCheck(string Function, int Wanted, int Found, int Inferred, FunctionState State, string WantedFor)
{
    /// <summary>The functions that a ledger can account for.</summary>
    public const string Protection = "protection", Balancing = "balancing", Thermistor = "thermistor", Switch = "switch", Tvs = "tvs";

    /// <summary>The checklist of a product; empty without a ledger.</summary>
    /// <param name="ledger">The ledger.</param>
    /// <param name="isPack">Whether it has cells.</param>
    /// <param name="build">How they are built; null when nothing of it is stated.</param>
    /// <param name="ports">Its ports.</param>
    /// <param name="parts">Its parts, those of the ledger among them.</param>
    internal static ImmutableArray<FunctionCheck> Of(
        ImmutableArray<LedgerEntry> ledger, bool isPack, PackBuild? build, IReadOnlyCollection<string> ports, ImmutableArray<ProductPart> parts)
    {
        if (ledger.IsEmpty)
        {
            return [];
        }

        int series = build?.Series ?? 1;
        int stated = build?.Protection.Length ?? 0;
        List<FunctionCheck> checks = [];
        Add(isPack, Protection, 1, stated, "lithium cells");
        Add(isPack && series > 1, Balancing, 1, 0, $"{series} cells in series");
        Add(isPack, Thermistor, 1, 0, "lithium cells");
        Add(ports.Count > 0, Switch, ports.Count, 0, $"{string.Join(", ", ports)}");
        Add(ports.Count > 0, Tvs, ports.Count, parts.Count(static part => part.Kind == PartKind.Tvs && !part.IsOfLedger), $"{string.Join(", ", ports)}");
        return [.. checks];

        void Add(bool asks, string function, int wanted, int beside, string wantedFor)
        {
            if (asks)
            {
                checks.Add(Check(ledger, function, wanted, beside, wantedFor));
            }
        }
    }

    private static FunctionCheck Check(ImmutableArray<LedgerEntry> ledger, string function, int wanted, int beside, string wantedFor)
    {
        LedgerEntry[] own = [.. ledger.Where(entry => entry.Function.Trim().Equals(function, StringComparison.OrdinalIgnoreCase))];
        int found = beside + own.Where(static entry => !entry.IsSearch).Sum(static entry => entry.Count);
        int inferred = own.Where(static entry => entry is { IsSearch: false, Identified: Identification.Inferred }).Sum(static entry => entry.Count);
        FunctionState state = found - inferred >= wanted ? FunctionState.Found
            : found >= wanted ? FunctionState.Inferred
            : own.Any(static entry => entry.IsSearch) ? FunctionState.Absent : FunctionState.NotAccountedFor;
        return new FunctionCheck(function, wanted, found, inferred, state, wantedFor);
    }
}
