using Portwitness.Analysis.Rules;
using Portwitness.Product.Decisions;

namespace Portwitness.Product.Rules.Energy;

/// <summary>A rule about something measured that has limits.</summary>
public abstract class MeasuredDecisionRule : Rule
{
    /// <summary>Looks at what was measured, and reports what breaks this rule.</summary>
    /// <param name="measured">What was measured.</param>
    /// <param name="decision">How readings near their limits are decided.</param>
    /// <param name="hits">Where it is reported.</param>
    public abstract void Check(MeasuredDecision measured, DecisionRule decision, IProductHitSink hits);
}
