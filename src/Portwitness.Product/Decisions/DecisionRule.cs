using Portwitness.Analysis.Evidence;

namespace Portwitness.Product.Decisions;

/// <summary>How a reading near its limit is decided. Whoever states a result states this, too (JCGM 106; second-hand).</summary>
public enum DecisionRule
{
    /// <summary>
    /// A reading inside its limits holds, where the accuracy of its meter is stated; one outside fails only where it is outside by more than its
    /// uncertainty. Of a meter of which nothing is stated, what is taken guards.
    /// </summary>
    Simple,

    /// <summary>A reading holds only where it is inside by as much as its uncertainty, too.</summary>
    Guarded,
}

/// <summary>Where a reading is, by its limit and its uncertainty (the four words of guarded acceptance; second-hand).</summary>
public enum DecisionWord
{
    /// <summary>Inside by at least the uncertainty.</summary>
    Pass,

    /// <summary>Inside by less.</summary>
    ConditionalPass,

    /// <summary>Outside by no more than the uncertainty.</summary>
    ConditionalFail,

    /// <summary>Outside by more.</summary>
    Fail,
}

/// <summary>What words mean for a verdict.</summary>
public static class DecisionWords
{
    /// <summary>Whether a reading counts that is inside by less than its uncertainty.</summary>
    /// <param name="rule">The rule.</param>
    /// <param name="isStated">Whether the accuracy of the meter is stated.</param>
    public static bool TakesConditionalPass(this DecisionRule rule, bool isStated) => rule == DecisionRule.Simple && isStated;

    /// <summary>The verdict of a word: nobody is accused within the uncertainty, whatever the rule.</summary>
    public static Verdict By(this DecisionWord word, DecisionRule rule, bool isStated) => word switch
    {
        DecisionWord.Pass => Verdict.Holds,
        DecisionWord.ConditionalPass when rule.TakesConditionalPass(isStated) => Verdict.Holds,
        DecisionWord.Fail => Verdict.Fails,
        _ => Verdict.CannotTell,
    };
}
