using Portwitness.Analysis.Phrases;
using Portwitness.Analysis.Profile;

namespace Portwitness.Analysis.Rules;

/// <summary>What to do when a finding cannot be told, in one place so that it reads the same everywhere.</summary>
public static class CaptureSteps
{
    /// <summary>For currents that a 3 A cable hides.</summary>
    public static readonly Phrase FiveAmpereCable = "Capture again with a 5 A cable, and state it in the capture's header.";

    /// <summary>For offers that were recognised on a photo.</summary>
    public static readonly Phrase ComparePhoto =
        "Compare the offers with the photo that they were read off; then write \"checked: true\" beside \"photo:\", or type them (--offers, \"list:\").";

    /// <summary>For what either port may have sent: messages are missing among which a power role swap has room.</summary>
    public static readonly Phrase WholeSwap = "Capture it again from the attach on, with an instrument that records every message: power roles may have been swapped.";

    private static readonly Phrase FiveAmpereCableAtDisplay = "Read the offers once more with a 5 A cable.";

    private static readonly Phrase WholeTyped =
        "Is that all that the display showed? Then say so: \"complete: true\" beside the list, or \"all offers:\" in front of it.";

    private static readonly Phrase WholeQuoted = "Find the whole list: what was quoted may be cut.";

    /// <summary>The same for a list that may have been typed or quoted.</summary>
    public static Phrase FiveAmpereCableFor(bool isReadOff) => isReadOff ? FiveAmpereCableAtDisplay : FiveAmpereCable;

    /// <summary>For a list that may have been typed or quoted in part.</summary>
    public static Phrase WholeList(Advertisement list) => list.Evidence == ListEvidence.Typed ? WholeTyped : WholeQuoted;
}
