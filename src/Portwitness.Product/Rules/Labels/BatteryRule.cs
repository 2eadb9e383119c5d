using Portwitness.Analysis.Rules;
using Portwitness.Product.Energy;

namespace Portwitness.Product.Rules.Labels;

/// <summary>A rule about printed battery figures, and the cells that somebody found in the pack.</summary>
public abstract class BatteryRule : Rule
{
    /// <summary>Looks at the figures and reports what breaks this rule. The sink knows which lines are doubtful.</summary>
    public abstract void Check(BatteryFigures battery, ILabelHitSink hits);
}
