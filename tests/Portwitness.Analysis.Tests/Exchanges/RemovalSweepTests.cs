using System.Text;
using Portwitness.Analysis.Evidence;
using Portwitness.Analysis.Findings;
using Xunit.Abstractions;

namespace Portwitness.Analysis.Tests.Exchanges;

/// <summary>
/// Every single record, one after the other, is taken out of captures of conversations that keep the standard, measured and not:
/// nobody may be accused of what the recorder missed.
/// </summary>
public class RemovalSweepTests(ITestOutputHelper output)
{
    private const int Seeds = 24;

    [Theory]
    [InlineData("R2.0")]
    [InlineData("R3.0")]
    [InlineData("R3.1")]
    [InlineData("R3.2")]
    public void OneRecordMissing_AccusesNobody(string edition)
    {
        int cases = 0;
        List<string> accused = [];
        for (int seed = 0; seed < Seeds; seed++)
        {
            string capture = Encoding.UTF8.GetString(Synthesised.Bytes(CompliantScript.Of(seed, edition)));
            cases += Sweep($"{edition}, seed {seed}", capture, accused);
        }

        output.WriteLine($"{cases} captures, {accused.Count} accused");
        foreach (string one in accused.Take(40))
        {
            output.WriteLine(one);
        }

        accused.Should().BeEmpty();
        cases.Should().BeGreaterThan(1_000);
    }

    [Theory]
    [MemberData(nameof(MeasuredScripts))]
    public void OneRecordMissingBesideMeasurements_AccusesNobody(string name, string script)
    {
        List<string> accused = [];
        int cases = Sweep(name, Encoding.UTF8.GetString(Synthesised.Bytes(script)), accused);

        output.WriteLine($"{cases} captures, {accused.Count} accused");
        accused.Should().BeEmpty();
        cases.Should().BeGreaterThan(10);
    }

    /// <summary>Conversations with VBUS measured as it has to be (R3.2v1.1, Table 7.23).</summary>
    public static TheoryData<string, string> MeasuredScripts()
    {
        TheoryData<string, string> scripts = [];
        foreach ((string name, string steps) in MeasuredConversations.All)
        {
            scripts.Add(name, MeasuredConversations.Head + steps);
        }

        return scripts;
    }

    // Each record is removed but the header and measurements; findings that the whole capture has as well do not count.
    private static int Sweep(string name, string capture, List<string> accused)
    {
        string[] lines = capture.Split('\n', StringSplitOptions.RemoveEmptyEntries);
        HashSet<string> before = [.. Accusing(capture).Select(finding => finding.Rule)];
        before.Should().BeEmpty(name);
        int cases = 0;
        for (int missing = 1; missing < lines.Length; missing++)
        {
            if (lines[missing].Contains("vbus_mv", StringComparison.Ordinal))
            {
                continue;
            }

            string without = string.Join('\n', lines.Where((_, index) => index != missing)) + "\n";
            accused.AddRange(Accusing(without).Select(finding => $"{name} without {lines[missing]}: {finding.Rule} at {finding.TimeUs}: {finding.Detail}"));
            cases++;
        }

        return cases;
    }

    private static IEnumerable<Finding> Accusing(string capture) => CaptureRun.Text(capture).Findings
        .Where(finding => finding.Severity is Severity.Violation or Severity.Mismatch && finding.Verdict == Verdict.Fails);
}
