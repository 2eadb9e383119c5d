using Portwitness.Analysis.Rules;
using Portwitness.Product.Arrangements;

namespace Portwitness.Product.Rules.Arrangements;

/// <summary>A rule about several ports of a product together.</summary>
public abstract class ArrangementRule : Rule
{
    /// <summary>Looks at what the captures show together, and reports what breaks this rule.</summary>
    public abstract void Check(ProductArrangements product, IProductHitSink hits);
}
