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
}

/// <summary>A rule about VBUS under one contract, or before the first.</summary>
public abstract class VbusSegmentRule : VbusRule
{
    /// <summary>Looks at what VBUS did.</summary>
    public abstract VbusHit? Check(VbusSegment segment);
}

/// <summary>A rule about VBUS after a Hard Reset or a detach.</summary>
public abstract class VbusRemovalRule : VbusRule
{
    /// <summary>Looks at what VBUS did.</summary>
    public abstract VbusHit? Check(VbusRemoval removal);
}

/// <summary>A rule about VBUS while nothing is attached.</summary>
public abstract class VbusBeforeAttachRule : VbusRule
{
    /// <summary>Looks at what VBUS did.</summary>
    public abstract VbusHit? Check(VbusBeforeAttach cold);
}

/// <summary>What a VBUS rule found, and when.</summary>
/// <param name="Hit">The case.</param>
/// <param name="TimeUs">Microseconds from the start of the capture.</param>
public readonly record struct VbusHit(Hit Hit, long TimeUs);
