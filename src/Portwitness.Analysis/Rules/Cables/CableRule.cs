using Portwitness.Analysis.Profile;

namespace Portwitness.Analysis.Rules;

/// <summary>A rule about the cable: what its marker says, and what a source does before it knows.</summary>
public abstract class CableRule : Rule
{
    /// <summary>What to do when the capture does not show the question to the cable.</summary>
    protected const string CaptureTheQuestion =
        "Capture from the attach on with an instrument that records SOP', and say so in the header (\"records_sop\").";

    /// <summary>Looks at a moment and reports what breaks this rule.</summary>
    public abstract void Check(CableCase seen, IHitSink hits);
}
