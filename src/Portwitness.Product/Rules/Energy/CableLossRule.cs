using Portwitness.Analysis.Rules;
using Portwitness.Product.Loads;

namespace Portwitness.Product.Rules.Energy;

/// <summary>A rule about a cable that was measured at both ends.</summary>
public abstract class CableLossRule : Rule
{
    /// <summary>Looks at a cable, and reports what breaks this rule.</summary>
    public abstract void Check(CableLoss cable, IProductHitSink hits);
}
