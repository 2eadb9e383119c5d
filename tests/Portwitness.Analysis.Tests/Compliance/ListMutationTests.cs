using Portwitness.Analysis.Catalogue;
using Portwitness.Analysis.Evidence;
using Portwitness.Testing.Compliance;
using Xunit.Abstractions;

namespace Portwitness.Analysis.Tests.Compliance;

/// <summary>What breaks one clause is found, and nothing else is made of it.</summary>
public class ListMutationTests(ITestOutputHelper output)
{
    public static TheoryData<int> Indices() => [.. Enumerable.Range(0, ListMutation.All.Count)];

    [Theory]
    [MemberData(nameof(Indices))]
    public void BrokenClause_IsAccusedAlone(int index)
    {
        ListMutation mutation = ListMutation.All[index];
        int cases = 0;
        List<string> wrong = [];
        foreach (CompliantSource source in CompliantSources.AtFullPower().Where(source => source.Edition == mutation.Edition))
        {
            if (mutation.OfEpr && (!source.IsEpr || source.CableMilliamperes != 5000))
            {
                continue;
            }

            List<uint> words = [.. mutation.OfEpr ? source.Epr : source.Spr];
            if (mutation.Change(source, words) is not { } broken)
            {
                continue;
            }

            cases++;
            ComplianceCase known = ComplianceCase.Of(source).First();
            known = known with { Evidence = mutation.Forget(known.Evidence) };
            string[] found =
            [
                .. known.Check(mutation.Kind, broken, mutation.OfEpr ? true : null)
                    .Where(finding => finding.Severity == Severity.Violation).Select(finding => finding.Rule).Distinct(),
            ];
            if (!found.Contains(mutation.Rule) || found.Except(mutation.Related).Any(rule => rule != mutation.Rule))
            {
                wrong.Add($"{source}: found {string.Join(", ", found)} in {string.Join(' ', broken.Select(word => $"0x{word:X8}"))}");
            }
        }

        output.WriteLine($"{mutation}: {cases} lists");
        string.Join('\n', wrong.Take(10)).Should().BeEmpty($"{wrong.Count} of {cases} lists, {mutation}");
        cases.Should().BeGreaterThanOrEqualTo(20);
    }

    // The one rule that can only caution is left out.
    [Fact]
    public void EveryCapabilityRule_HasAMutation()
    {
        RuleSet.OfCaptures.Capabilities.Select(rule => rule.Description)
            .Where(rule => rule.Severity == Severity.Violation).Select(rule => rule.Name)
            .Should().BeEquivalentTo(ListMutation.All.Select(mutation => mutation.Rule).Distinct());
    }
}
