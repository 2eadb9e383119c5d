using System.Collections.Immutable;
using Portwitness.Labels;
using Portwitness.Product.Offers;
using Portwitness.Product.Pack;

namespace Portwitness.Product.Parts;

/// <summary>A part and the most that its node sees.</summary>
/// <param name="Part">The part.</param>
/// <param name="IsOnNode">Whether its node is one that can be judged, as far as label, captures and cells say.</param>
/// <param name="Level">The most that the node sees.</param>
/// <param name="Beside">The other parts on the node.</param>
/// <param name="Pack">How the pack is built; null when nothing is stated of it.</param>
public sealed record PartStress(ProductPart Part, bool IsOnNode, NodeLevel Level, ImmutableArray<ProductPart> Beside, PackBuild? Pack)
{
    /// <summary>Each part with what its node sees over all arrangements.</summary>
    internal static ImmutableArray<PartStress> Of(ImmutableArray<ProductPart> parts, IReadOnlyList<PortOffer> offers, Label? label, PackBuild? build)
    {
        BoardNodes nodes = new(offers, label, build);
        ILookup<string, ProductPart> byNode = parts.ToLookup(static part => PortNames.Key(part.Node));
        return
        [
            .. parts.Select(part =>
            {
                (NodeLevel level, bool isKnown) = nodes.Find(part.Node);
                return new PartStress(part, isKnown, level, [.. byNode[PortNames.Key(part.Node)].Where(other => !ReferenceEquals(other, part))], build);
            }),
        ];
    }
}
