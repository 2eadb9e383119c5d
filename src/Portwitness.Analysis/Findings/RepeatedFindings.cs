using System.Collections.Immutable;

namespace Portwitness.Analysis.Findings;

/// <summary>
/// Makes one finding of the same offence of one port at several objects, lists, messages or captures. What is printed is judged
/// statement by statement, so that findings about lines of a label stay apart.
/// </summary>
public static class RepeatedFindings
{
    /// <summary>The findings, each in the place of its first; those folded into it are its <see cref="Finding.FurtherPlaces"/>.</summary>
    public static ImmutableArray<Finding> Fold(IEnumerable<Finding> findings)
    {
        List<(Finding First, ImmutableArray<FindingPlace>.Builder? Further)> folded = [];
        Dictionary<object, int> seen = [];
        foreach (Finding finding in findings)
        {
            object? offence = finding.LabelLine is null ? OffenceOf(finding) : null;
            if (offence is not null && seen.TryGetValue(offence, out int at))
            {
                (Finding first, ImmutableArray<FindingPlace>.Builder? further) = folded[at];
                further ??= first.FurtherPlaces.ToBuilder();
                further.Add(FindingPlace.Of(finding));
                further.AddRange(finding.FurtherPlaces);
                folded[at] = (first, further);
                continue;
            }

            if (offence is not null)
            {
                seen.Add(offence, folded.Count);
            }

            folded.Add((finding, null));
        }

        return [.. folded.Select(one => one.Further is null ? one.First : one.First with { FurtherPlaces = one.Further.ToImmutable() })];
    }

    // The verdict and what would settle it belong to the offence: who has to do something else next reads another finding.
    private static object OffenceOf(Finding finding) =>
        (finding.Rule, finding.Severity, finding.Verdict, finding.Clause, finding.Port, finding.NextStep);
}
