using Portwitness.Analysis.Phrases;

namespace Portwitness.Analysis.Rules;

/// <summary>How to capture again what a capture does not show.</summary>
public static class CaptureSteps
{
    /// <summary>For currents that a 3 A cable hides.</summary>
    public static readonly Phrase FiveAmpereCable = "Capture again with a 5 A cable, and state it in the capture's header.";
}
