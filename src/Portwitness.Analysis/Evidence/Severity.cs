namespace Portwitness.Analysis.Evidence;

/// <summary>How grave a finding is.</summary>
public enum Severity
{
    /// <summary>Breaks a "shall" of the standard.</summary>
    Violation = 1,

    /// <summary>Label, port or measurement disagree.</summary>
    Mismatch = 2,

    /// <summary>Legal only under an edition or a condition that the evidence does not settle, or a "should".</summary>
    Caution = 3,

    /// <summary>Worth knowing.</summary>
    Note = 4,
}
