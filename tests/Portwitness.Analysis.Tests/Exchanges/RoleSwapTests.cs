using System.Text;
using Portwitness.Analysis.Evidence;
using Portwitness.Analysis.Findings;

namespace Portwitness.Analysis.Tests.Exchanges;

/// <summary>
/// PR_Swap: the old source's PS_RDY already says sink (R3.2v1.1, 6.2.1.1.4), and afterwards the test device is the source. So
/// nobody is named.
/// </summary>
public class RoleSwapTests
{
    [Fact]
    public void SwapThatKeepsItsTimes_IsClean() => Findings(600, 250, 25).Should().BeEmpty();

    // Tables 6.68: tPSSourceOff 920 ms, tPSSourceOn 480 ms, tSwapSourceStart 20 ms.
    [Theory]
    [InlineData(1_000, 250, 25)]
    [InlineData(600, 600, 25)]
    [InlineData(600, 250, 5)]
    public void SwapThatDoesNot_IsACautionWithoutAName(int oldMs, int newMs, int listMs)
    {
        Finding finding = Findings(oldMs, newMs, listMs).Should().ContainSingle().Subject;

        (finding.Rule, finding.Severity).Should().Be(("swap-mistimed", Severity.Caution));
        finding.Detail.Should().Contain("which of the ports");
    }

    // After the swap the partner is the source, and a Hard Reset leaves that (6.8.3). Its list, 5 V 1 A and 20 V 5 A, breaks Table 10.2: it is not
    // the product's, also where any one record is missing.
    [Fact]
    public void ListOfThePartner_IsNotTheProducts_WhateverRecordIsMissing()
    {
        string[] lines = Swap(600, 250, 25, "812164900108F4410600", "A21064900110", hardReset: true).Split('\n', StringSplitOptions.RemoveEmptyEntries);
        for (int missing = 2; missing < lines.Length; missing++)
        {
            CaptureRun.Text(string.Join('\n', lines.Where((_, at) => at != missing))).Findings
                .Should().NotContain(static finding => finding.Verdict == Verdict.Fails, "{0} is missing", lines[missing]);
        }
    }

    private static IEnumerable<Finding> Findings(int oldMs, int newMs, int listMs) =>
        CaptureRun.Text(Swap(oldMs, newMs, listMs, "81112C910108", "A2102CB10410")).Findings.Where(finding => finding.Severity != Severity.Note
            && finding.Rule is not ("normative-voltage-missing" or "normative-current-too-low" or "current-beyond-pdp"));

    private static string Swap(int oldMs, int newMs, int listMs, string list, string request, bool hardReset = false)
    {
        StringBuilder capture = new(Encoding.UTF8.GetString(Synthesised.Bytes(
            "source: [5V 3A dual-role-power, 9V 3A]\nsteps: [attach, advertise, contract 2 at 3A]")));
        long time = 2_000_000;
        void Say(long afterUs, params string[] messages)
        {
            time += afterUs;
            foreach (string hex in messages)
            {
                capture.Append(System.Globalization.CultureInfo.InvariantCulture, $"{{\"t\":{time},\"sop\":\"SOP\",\"hex\":\"{hex}\"}}\n");
                time += ((64 + 20 + (10 * ((hex.Length / 2) + 4)) + 5) * 10 / 3) + 151;
            }
        }

        Say(0, "8A02", "A103");
        Say(2_000, "A307", "8106");
        Say(oldMs * 1000, "A608", "8108");
        Say(newMs * 1000, "8605", "A104");
        Say(listMs * 1000, list, "A100");
        Say(2_000, request, "8101");
        Say(2_000, "8303", "A102");
        Say(120_000, "8605", "A104");
        if (hardReset)
        {
            capture.Append(System.Globalization.CultureInfo.InvariantCulture, $"{{\"t\":{time + 50_000},\"signal\":\"hard-reset\"}}\n");
            Say(950_000, list, "A100");
        }

        return capture.ToString();
    }
}
