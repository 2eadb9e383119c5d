using Portwitness.Analysis.Catalogue;
using Portwitness.Analysis.Evidence;
using Portwitness.Analysis.Rules;
using Portwitness.PowerDelivery.Limits;
using Portwitness.Testing.Compliance;
using Xunit.Abstractions;

namespace Portwitness.Analysis.Tests.Compliance;

/// <summary>Whole captures of compliant sources, which tell their edition, their ratings and their present power.</summary>
public class CompliantCaptureTests(ITestOutputHelper output)
{
    // Times and GoodCRCs are not made here: what is judged is what the source says.
    private static readonly HashSet<string> Judged =
    [
        .. CaptureRules.Descriptions.Where(rule => rule.Category is RuleCategory.Messages or RuleCategory.Capabilities or RuleCategory.Requests).Select(rule => rule.Name),
    ];

    [Theory]
    [InlineData(true)]
    [InlineData(false)]
    public void SourceThatTellsEverything_IsNeverAccused(bool guaranteed)
    {
        int cases = 0;
        List<string> wrong = [];
        foreach (CompliantSource source in CompliantSources.AtFullPower().Concat(CompliantSources.Reduced())
            .Where((_, index) => index % 3 == (guaranteed ? 0 : 1)))
        {
            cases++;
            CaptureAnalysis analysis = CaptureRun.Text(CompliantCapture.Of(source, guaranteed));
            HashSet<string> explained = Explained(source);
            wrong.AddRange(analysis.Findings
                .Where(finding => finding.Severity != Severity.Note && Judged.Contains(finding.Rule) && !explained.Contains(finding.Rule))
                .Select(finding => $"{finding.Severity} {finding.Rule}: {finding.Detail} [{source}]"));
            wrong.AddRange(analysis.Faults.Select(fault => $"{fault.Code}: {fault.Detail} [{source}]"));
        }

        output.WriteLine($"{cases} captures");
        string.Join('\n', wrong.Take(20)).Should().BeEmpty($"{wrong.Count} of {cases}");
        cases.Should().BeGreaterThan(5_000);
    }

    // An EPR list over a 3 A cable tells what the source could do over another. A source of R3.0 declares its rating, but has no
    // Source_Info to say that it is reduced.
    private static HashSet<string> Explained(CompliantSource source) =>
        source.IsEpr && source.CableMilliamperes == 3000 ? ["current-above-3a-without-5a-cable"]
        : source.IsReduced && source.Edition == Editions.R30 ? ["normative-voltage-missing", "normative-current-too-low"]
        : [];
}
