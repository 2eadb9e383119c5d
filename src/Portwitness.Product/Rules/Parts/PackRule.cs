using Portwitness.Analysis.Rules;
using Portwitness.Product.Pack;

namespace Portwitness.Product.Rules.Parts;

/// <summary>A rule about the build of a power pack: its cells by size, mass and current.</summary>
public abstract class PackRule : Rule
{
    /// <summary>Looks at what is stated of the pack and reports what breaks this rule.</summary>
    public abstract void Check(PackFigures pack, IProductHitSink hits);

    // The pack has no port.
    private protected static ProductPlace Place { get; } = new("", []);
}
