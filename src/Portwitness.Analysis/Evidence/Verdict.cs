namespace Portwitness.Analysis.Evidence;

/// <summary>What the evidence says of a claim or of a rule.</summary>
public enum Verdict
{
    /// <summary>It is so.</summary>
    Holds = 1,

    /// <summary>It is not so.</summary>
    Fails = 2,

    /// <summary>The evidence does not settle it.</summary>
    CannotTell = 3,
}
