using Portwitness.Analysis.Evidence;
using Portwitness.Analysis.Phrases;
using Portwitness.Analysis.Rules;
using Portwitness.Labels;
using Portwitness.Product.Arrangements;
using Portwitness.Product.Offers;
using Portwitness.Text;

namespace Portwitness.Product.Rules.Arrangements;

/// <summary>A captured port is not named on the label, so that it is compared with nothing.</summary>
/// <remarks>Names are never taken for each other because they are alike: which port was meant is asked.</remarks>
public sealed class PortNotOnLabel : ArrangementRule
{
    private const int MaxTold = 100;
    private const int MaxNamed = 12;

    /// <inheritdoc/>
    public override RuleDescription Description { get; } = new()
    {
        Name = "port-not-on-label",
        Severity = Severity.Note,
        Title = "A captured port is not named on the label",
        Clause = "printed label",
        Why = "What a port offers is held against what is printed of the port of that name. Under another name it is held against nothing, and the printed port "
            + "counts as not captured.",
        Evidence = "A label that names its ports, and a capture of a port with a name that is none of these.",
        Example = new ProductExample(
            "0x0801912C 0x0002D12C", "C is captured; the label names C1 and C2.", Members: "label: \"USB-C1: 18W Max\\nUSB-C2: 27W Max\""),
        Category = RuleCategory.Arrangements,
    };

    /// <inheritdoc/>
    public override void Check(ProductArrangements product, IProductHitSink hits)
    {
        string[] printed = [.. product.Label?.Outputs.Where(static output => output.Alternating.IsEmpty).Select(static output => output.Port) ?? []];
        if (product.Label is null || printed.Length == 0 || printed is [PortNames.Unnamed])
        {
            return;
        }

        IEnumerable<PortOffer> others = product.Groups.All.SelectMany(static group => group.Offers)
            .Where(offer => offer.Port.Length > 0 && !product.Label.Names(offer.Port)).DistinctBy(static offer => PortNames.Key(offer.Port));
        foreach (PortOffer offer in others.Take(MaxTold))
        {
            string? meant = Nearest(offer.Port, printed);
            Phrase named = Phrase.JoinNames(", ", printed.Take(MaxNamed));
            hits.Report(
                this,
                new Hit(default, $"{offer.File} is of \"{offer.Port}\", which the label does not name; it names {named}. Nothing printed was held against it.")
                {
                    IsNote = true, Expected = named, Observed = $"{offer.Port}",
                    NextStep = Phrase.Of($"Did you mean {meant ?? string.Join(" or ", printed.Take(MaxNamed))}? Then name it as the port of {offer.File}."),
                },
                ProductPlace.Of(offer));
        }
    }

    // "C" may be C1; "Port C1" and "C-1a" end or begin alike.
    private static string? Nearest(string port, string[] printed)
    {
        string key = PortNames.Key(port);
        string[] alike = [.. printed.Where(name => PortNames.Key(name) is var own && (own.Contains(key, StringComparison.Ordinal) || key.Contains(own, StringComparison.Ordinal)))];
        return alike is [var only] ? only : alike.Length > 1 ? string.Join(" or ", alike) : NearestName.Of(key, printed);
    }
}
