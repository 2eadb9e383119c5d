using Portwitness.Analysis.Measuring;

namespace Portwitness.Analysis.Rules;

/// <summary>A rule about what was measured on VBUS. It sees summaries, finds at most one thing in each, and never interpolates.</summary>
public abstract class VbusRule : Rule
{
    /// <summary>Clauses of the limits that most of these rules hold VBUS against.</summary>
    protected const string Limits = "R3.2v1.1 7.1.8, Tables 7.23 and 7.25";

    /// <summary>What most of these rules need.</summary>
    protected const string Measured =
        "VBUS measured every few milliseconds with \"measured_at\" and \"accuracy\" in the header; for voltages that are too low, at "
        + "the source and with the current. What lies within the accuracy cannot be told. Limits of R2.0 are from memory.";

    /// <summary>Looks at what VBUS did under one contract, or before the first.</summary>
    public virtual VbusHit? Check(VbusSegment segment) => null;

    /// <summary>Looks at what VBUS did after a Hard Reset or a detach.</summary>
    public virtual VbusHit? Check(VbusRemoval removal) => null;

    /// <summary>Looks at VBUS while nothing was attached.</summary>
    public virtual VbusHit? Check(VbusBeforeAttach cold) => null;
}

/// <summary>What a VBUS rule found, and when.</summary>
/// <param name="Hit">The case.</param>
/// <param name="TimeUs">Microseconds from the start of the capture.</param>
public readonly record struct VbusHit(Hit Hit, long TimeUs);
