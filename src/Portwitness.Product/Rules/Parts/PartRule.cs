using Portwitness.Analysis.Rules;
using Portwitness.Product.Parts;

namespace Portwitness.Product.Rules.Parts;

/// <summary>A rule about parts on the VBUS side.</summary>
public abstract class PartRule : Rule
{
    /// <summary>Looks at a part and what its node is offered, and reports what breaks this rule.</summary>
    public abstract void Check(PartStress part, IProductHitSink hits);

    private protected static ProductPlace PlaceOf(PartStress part) => new(part.Part.Node, []);
}
