using System.Globalization;
using Portwitness.Analysis.Evidence;
using Portwitness.Analysis.Findings;
using Portwitness.PowerDelivery.Limits;
using Portwitness.Testing.Compliance;
using Xunit.Abstractions;

namespace Portwitness.Analysis.Tests.Compliance;

/// <summary>
/// Where the capture's header states edition, cable and a single port, a broken list is accused and not left to the reader: of all
/// lists that are wrong in one point, none is told "cannot tell" but for what is named here, with its reason.
/// </summary>
public class SharpnessTests(ITestOutputHelper output)
{
    private const string NotRead = "the facts confirm the clause for R3.2v1.1 only";
    private const string Fraction = "without a declared rating, heat may reduce the present PDP to a fraction of a watt of which EPR AVS "
        + "states the whole (Table 10.13)";

    // By rule, edition, and whether it is an EPR list.
    private static readonly Dictionary<(string Rule, Editions Edition, bool Epr), string> Reasons = new()
    {
        [("unknown-object-kind", Editions.R32, false)] = "text newer than R3.2v1.1 was not read",
        [("too-many-objects", Editions.R32, true)] = "R3.2v1.1 contradicts itself on lists of twelve and thirteen",
        [("too-many-objects", Editions.R31, true)] = "R3.2v1.1 contradicts itself on lists of twelve and thirteen",
        [("current-beyond-pdp", Editions.R32, true)] = Fraction,
        [("epr-voltage-beyond-pdp", Editions.R32, true)] = Fraction,
        [("pps-normative-range-missing", Editions.R30, false)] = NotRead,
        [("pps-normative-range-missing", Editions.R31, false)] = NotRead,
        [("pps-current-too-low", Editions.R30, false)] = NotRead,
        [("pps-current-too-low", Editions.R31, false)] = NotRead,
        [("pps-current-beyond-pdp", Editions.R30, false)] = NotRead,
        [("pps-current-beyond-pdp", Editions.R31, false)] = NotRead,
        [("pps-current-too-low", Editions.R31, true)] = NotRead,
        [("avs-object-repeated", Editions.R31, true)] = NotRead,
        [("current-beyond-pdp", Editions.R31, true)] = NotRead,
        [("normative-current-too-low", Editions.R31, true)] = NotRead,
        [("epr-avs-range-wrong", Editions.R31, true)] = NotRead,
        [("epr-normative-object-missing", Editions.R31, true)] = NotRead,
        [("epr-voltage-beyond-pdp", Editions.R31, true)] = NotRead,
        [("power-above-240w", Editions.R31, true)] = NotRead,
    };

    [Theory]
    [InlineData(Editions.R30)]
    [InlineData(Editions.R31)]
    [InlineData(Editions.R32)]
    public void SingleFault_IsNeverLeftOpen(Editions edition)
    {
        int lists = 0;
        int accused = 0;
        SortedDictionary<string, (int Count, string Example)> open = new(StringComparer.Ordinal);
        foreach (CompliantSource source in CompliantSources.AtFullPower().Where(source => source.Edition == edition))
        {
            ComplianceCase known = ComplianceCase.Of(source).Single(known => known.Knows == "no rating");
            foreach (ListMutation mutation in ListMutation.All)
            {
                if (mutation.OfEpr && (!source.IsEpr || source.CableMilliamperes != 5000))
                {
                    continue;
                }

                List<uint> words = [.. mutation.OfEpr ? source.Epr : source.Spr];
                if (!Applies(mutation, source, words, out List<uint> broken))
                {
                    continue;
                }

                lists++;
                ComplianceCase told = known with { Evidence = mutation.Forget(known.Evidence) };
                IReadOnlyList<Finding> findings = told.Check(mutation.Kind, broken, mutation.OfEpr ? true : null);
                accused += findings.Any(finding => finding.Severity == Severity.Violation) ? 1 : 0;
                foreach (Finding finding in findings.Where(finding => finding.Verdict == Verdict.CannotTell
                    && !Reasons.ContainsKey((finding.Rule, edition, mutation.OfEpr))))
                {
                    (int count, string example) = open.GetValueOrDefault(finding.Rule);
                    open[finding.Rule] = (count + 1, example ?? $"{mutation} {source}: {finding.Detail} "
                        + string.Join(' ', broken.Select(word => word.ToString("X8", CultureInfo.InvariantCulture))));
                }
            }
        }

        output.WriteLine($"{edition}: {accused} of {lists} lists accused, {open.Values.Sum(rule => rule.Count)} left open");
        string.Join('\n', open.Select(rule => $"{rule.Key}: {rule.Value.Count}, {rule.Value.Example}")).Should().BeEmpty();
        lists.Should().BeGreaterThan(2_000);
    }

    // A mutation reads what the sources of its own edition have; others may lack it.
    private static bool Applies(ListMutation mutation, CompliantSource source, List<uint> words, out List<uint> broken)
    {
        broken = [];
        if (mutation.Edition != source.Edition && mutation.Rule is "object-newer-than-edition" or "pdp-not-a-standard-figure")
        {
            return false;
        }

        broken = mutation.Change(source, words) ?? [];
        return broken.Count > 0;
    }
}
