using System.Collections.Immutable;
using Portwitness.Analysis;
using Portwitness.Analysis.Evidence;
using Portwitness.Labels;
using Portwitness.Product.Comparison;
using Portwitness.Product.Offers;

namespace Portwitness.Product.Arrangements;

/// <summary>What the captures of a product show of its ports together: what rules about arrangements look at.</summary>
public sealed record ProductArrangements
{
    /// <summary>The label; null when none is given.</summary>
    public required Label? Label { get; init; }

    /// <summary>The label held against what was captured; null without a label.</summary>
    public LabelComparison? Comparison { get; init; }

    /// <summary>The captures.</summary>
    public required IReadOnlyList<CaptureAnalysis> Captures { get; init; }

    /// <summary>Every port under every arrangement that was captured.</summary>
    public required ImmutableArray<ArrangementRow> Rows { get; init; }

    /// <summary>The same by what was in use, attach orders apart.</summary>
    public required OfferGroups Groups { get; init; }

    /// <summary>What ports went through when others came and went.</summary>
    public required ImmutableArray<Transition> Transitions { get; init; }

    /// <summary>How the product shares its power; null for a product of one port.</summary>
    public required SharingPolicy? Sharing { get; init; }

    /// <summary>How many combinations are printed, were captured in at least one attach order, and hold; null without a label.</summary>
    public CombinationCount? Combinations => Label is null || Comparison is null ? null : new CombinationCount(
        Label.Combinations.Length + Label.Ambiguous.Length,
        Label.Combinations.Concat(Label.Ambiguous.Select(static either => either.Readings[0]))
            .Count(printed => Groups.Find(printed.Ports).Any(group => group.IsComplete)),
        Comparison.Claims.Where(claim => claim.Combination is not null).GroupBy(claim => claim.Combination!.At)
            .Count(claims => claims.All(claim => claim.Verdict == Verdict.Holds)));

    /// <summary>Brings together what was captured.</summary>
    /// <param name="label">The label.</param>
    /// <param name="captures">Captures that know of each other.</param>
    /// <param name="offers">What was offered.</param>
    /// <param name="named">Ports as the label names them.</param>
    public static ProductArrangements Of(
        Label? label, IReadOnlyList<CaptureAnalysis> captures, IReadOnlyList<PortOffer> offers, Func<string, string> named)
    {
        ImmutableArray<ArrangementRow> rows = ArrangementRow.Of(offers, captures);
        OfferGroups groups = new(offers);
        string[] ports = PortsOf(label, captures, named);
        return new ProductArrangements
        {
            Label = label,
            Captures = captures,
            Rows = rows,
            Groups = groups,
            Transitions = Arrangements.Transitions.Of(captures, named),
            Sharing = ports.Length < 2 ? null : new SharingJudgement(groups, rows).Judge(ports),
        };
    }

    // Sockets give no USB power.
    private static string[] PortsOf(Label? label, IReadOnlyList<CaptureAnalysis> captures, Func<string, string> named)
    {
        IEnumerable<string> printed = label?.Outputs.Where(output => output.Alternating.IsEmpty).Select(output => output.Port) ?? [];
        IEnumerable<string> seen = captures.SelectMany(capture => capture.Bench.Spans.SelectMany(span => span.InUse).Append(capture.Port));
        return [.. printed.Concat(seen.Where(port => port.Length > 0).Select(named)).DistinctBy(PortNames.Key)];
    }
}

/// <summary>Printed combinations in numbers.</summary>
/// <param name="Printed">Printed on the label.</param>
/// <param name="Captured">Of these, with captures of all their ports in use together.</param>
/// <param name="Hold">Of these, those of which everything holds.</param>
public sealed record CombinationCount(int Printed, int Captured, int Hold);
