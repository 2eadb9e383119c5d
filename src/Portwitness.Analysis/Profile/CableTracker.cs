using Portwitness.Analysis.Evidence;
using Portwitness.Captures;

namespace Portwitness.Analysis.Profile;

/// <summary>What is known of the cable, and from where.</summary>
internal sealed class CableTracker
{
    private string _source = "";

    /// <summary>What is known.</summary>
    public CableEvidence Evidence { get; private set; }

    /// <summary>In words.</summary>
    public string Text => Evidence switch
    {
        CableEvidence.ThreeAmpere => $"3 A, {_source}",
        CableEvidence.FiveAmpere => $"5 A, {_source}",
        CableEvidence.Epr => $"5 A, EPR, {_source}",
        CableEvidence.Captive => $"captive, {_source}",
        _ => "not known",
    };

    /// <summary>The product file says that the cable is fixed to the product.</summary>
    public void StateCaptive() => (Evidence, _source) = (CableEvidence.Captive, "as the product file says");

    /// <summary>The capture's header says what cable was used.</summary>
    public void State(CaptureCable cable)
    {
        CableEvidence stated = cable switch
        {
            { Captive: true } => CableEvidence.Captive,
            { Epr: true } => CableEvidence.Epr,
            { CurrentMilliamperes: >= 5000 } => CableEvidence.FiveAmpere,
            { CurrentMilliamperes: 3000 } => CableEvidence.ThreeAmpere,
            _ => CableEvidence.Unknown,
        };
        if (stated != CableEvidence.Unknown && Evidence != CableEvidence.Captive)
        {
            (Evidence, _source) = (stated, "as the capture's header says");
        }
    }

    /// <summary>The cable's own answer to Discover Identity (R3.2v1.1, Table 6.41) goes before what people state.</summary>
    public void Answered(CableEvidence marker) => (Evidence, _source) = (marker, "as its marker says");
}
