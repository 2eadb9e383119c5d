using Portwitness.Analysis.Evidence;
using Portwitness.Analysis.Phrases;

namespace Portwitness.Analysis.PdpRules;

/// <summary>The PD power that a list was judged by, and what breaks the power rules at that power.</summary>
/// <param name="PdpMilliwatts">The PDP in mW; 0 when the list shows none.</param>
/// <param name="Basis">How it is known.</param>
/// <param name="IsReduced">The list holds only if other ports or a limit reduce the port's present PDP now.</param>
/// <param name="Breaches">What is broken; null when nothing is.</param>
public readonly record struct PowerFit(
    int PdpMilliwatts, PdpBasis Basis, bool IsReduced, IReadOnlyList<PowerBreach>? Breaches) : IPhrased
{
    /// <summary>The rules hold only if the port's present PDP is reduced, and it is not known whether it is.</summary>
    public bool ManagedOnly => IsReduced && Breaches is not null;

    /// <summary>The list holds at the whole PDP.</summary>
    public bool HoldsInFull => PdpMilliwatts > 0 && Breaches is null && !IsReduced;

    /// <summary>
    /// The present PDP, in mW, at which the list offers every fixed supply that Tables 10.2 and 10.3 ask for; 0 when there is none.
    /// </summary>
    public int CompleteMilliwatts { get; init; }

    /// <summary>Some figure that a rating can have agrees with the list (R3.2v1.1, 10.1).</summary>
    public bool FitsARating { get; init; } = true;

    /// <summary>A list that keeps the rules at its whole PDP.</summary>
    public static PowerFit InFull(int pdpMilliwatts, PdpBasis basis) => new(pdpMilliwatts, basis, false, null)
    {
        CompleteMilliwatts = pdpMilliwatts,
    };

    /// <summary>"65 W (derived from the list)".</summary>
    public Phrase ToPhrase() => PdpMilliwatts == 0 ? "unknown" : Phrase.Of($"{PowerRules.Watts(PdpMilliwatts)} ({Basis.ToText()})");
}
