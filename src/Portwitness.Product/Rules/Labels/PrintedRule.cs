using Portwitness.Analysis.Rules;
using Portwitness.Labels;

namespace Portwitness.Product.Rules.Labels;

/// <summary>A rule about a label on its own.</summary>
public abstract class PrintedRule : Rule
{
    /// <summary>Looks at a label and reports what breaks this rule. The sink knows which lines are doubtful.</summary>
    public abstract void Check(Label label, ILabelHitSink hits);
}
