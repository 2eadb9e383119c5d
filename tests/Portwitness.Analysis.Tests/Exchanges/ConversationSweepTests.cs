using System.Text;
using Portwitness.Analysis.Catalogue;
using Portwitness.Analysis.Evidence;
using Portwitness.Analysis.Findings;
using Portwitness.Analysis.Rules;
using Xunit.Abstractions;

namespace Portwitness.Analysis.Tests.Exchanges;

/// <summary>Nobody is accused who kept to the standard, however much the capture misses.</summary>
public class ConversationSweepTests(ITestOutputHelper output)
{
    private const int Seeds = 150;
    private const int Rounds = 4;

    // Retries after noise, and resets, are worth a note even where they are as they should be.
    private static readonly string[] Notes = ["hard-reset-seen", "crc-wrong"];
    private static readonly string[] Editions = ["R2.0", "R3.0", "R3.1", "R3.2"];

    private static readonly HashSet<string> Ours =
        [.. CaptureRules.Descriptions.Where(rule => rule.Category is RuleCategory.Sequence or RuleCategory.Timing).Select(rule => rule.Name)];

    [Fact]
    public void CompliantConversations_HaveNeitherViolationsNorCautions()
    {
        int cases = 0;
        List<string> accused = [];
        foreach ((string name, string script) in Scripts())
        {
            string capture = Encoding.UTF8.GetString(Synthesised.Bytes(script));
            string[] lines = capture.Split('\n', StringSplitOptions.RemoveEmptyEntries);
            (lines.Length - Degraded.Ways["without GoodCRC"](lines, new Random(1)).Count()).Should().BeGreaterThan(lines.Length / 4);
            accused.AddRange(Findings(capture)
                .Where(finding => finding.Severity != Severity.Note || !Notes.Contains(finding.Rule))
                .Select(finding => $"{name}: {Describe(finding)}"));
            cases++;
        }

        output.WriteLine($"{cases} compliant conversations");
        accused.Should().BeEmpty();
        cases.Should().Be(Seeds * Editions.Length);
    }

    [Fact]
    public void DegradedCaptures_HaveNoViolations()
    {
        int cases = 0;
        List<string> accused = [];
        foreach ((string name, string script) in Scripts())
        {
            string[] lines = Encoding.UTF8.GetString(Synthesised.Bytes(script)).Split('\n', StringSplitOptions.RemoveEmptyEntries);
            foreach ((string way, Func<string[], Random, IEnumerable<string>> degrade) in Degraded.Ways)
            {
                for (int round = 0; round < Rounds; round++)
                {
                    string capture = string.Join('\n', degrade(lines, new Random((cases * 7) + round)));
                    accused.AddRange(Findings(capture).Where(finding => finding.Severity == Severity.Violation)
                        .Select(finding => $"{name}, {way}, {round}: {Describe(finding)}"));
                    cases++;
                }
            }
        }

        output.WriteLine($"{cases} degraded captures");
        accused.ForEach(output.WriteLine);
        accused.Should().BeEmpty();
        cases.Should().BeGreaterThan(47_000);
    }

    private static string Describe(Finding finding) =>
        $"{finding.Rule} {finding.Severity} at {finding.TimeUs} us, message {finding.MessageIndex}: {finding.Detail}";

    private static IEnumerable<(string Name, string Script)> Scripts() =>
        from edition in Editions
        from seed in Enumerable.Range(1, Seeds)
        select ($"{edition} {seed}", CompliantScript.Of(seed, edition));

    private static Finding[] Findings(string capture) =>
        [.. CaptureRun.Text(capture).Findings.Where(finding => Ours.Contains(finding.Rule))];
}
