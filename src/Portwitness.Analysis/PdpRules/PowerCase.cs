using Portwitness.Analysis.Evidence;

namespace Portwitness.Analysis.PdpRules;

/// <summary>Under what the power rules are held against a list.</summary>
/// <param name="Cable">What is known of the cable.</param>
/// <param name="MaximumPdp">Port Maximum PDP in mW.</param>
/// <param name="PresentPdp">Port Present PDP in mW; the same unless the port is constrained.</param>
/// <param name="IsEpr">Whether the list has EPR objects.</param>
/// <param name="InEprMode">Whether it was sent in EPR mode, over a cable that carries 5 A.</param>
internal readonly record struct PowerCase(
    CableEvidence Cable, int MaximumPdp, int PresentPdp, bool IsEpr = false, bool InEprMode = false);
