namespace Portwitness.Analysis.PdpRules;

/// <summary>The PD power that a list was judged by, and what breaks the power rules at that power.</summary>
/// <param name="PdpMilliwatts">The PDP in mW; 0 when the list shows none.</param>
/// <param name="Basis">"declared", "printed", or "derived from the list"; empty without a PDP.</param>
/// <param name="ManagedOnly">The rules hold only if other ports or a limit reduce the port's present PDP now.</param>
/// <param name="Breaches">What is broken; null when nothing is.</param>
public readonly record struct PowerFit(
    int PdpMilliwatts, string Basis, bool ManagedOnly, IReadOnlyList<PowerBreach>? Breaches)
{
    /// <summary>"65 W (derived from the list)".</summary>
    public override string ToString() =>
        PdpMilliwatts == 0 ? "unknown" : $"{PowerRules.Watts(PdpMilliwatts)} ({Basis})";
}
