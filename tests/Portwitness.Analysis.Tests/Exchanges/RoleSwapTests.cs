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

    private static IEnumerable<Finding> Findings(int oldMs, int newMs, int listMs)
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
        Say(listMs * 1000, "81112C910108", "A100");
        Say(2_000, "A2102CB10410", "8101");
        Say(2_000, "8303", "A102");
        Say(120_000, "8605", "A104");
        return CaptureRun.Text(capture.ToString()).Findings.Where(finding => finding.Severity != Severity.Note
            && finding.Rule is not ("normative-voltage-missing" or "normative-current-too-low" or "current-beyond-pdp"));
    }
}
