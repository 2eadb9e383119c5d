using System.Text;
using Portwitness.Following.Contracts;

namespace Portwitness.Analysis.Tests.Capture;

/// <summary>A whole entry into EPR mode in chunks keeps every rule (R3.2v1.1, 6.4.10).</summary>
public class ChunkedEprCaptureTests
{
    [Fact]
    public void AnalysisOfTheCapture_FindsNothingWrong()
    {
        CaptureAnalysis analysis = CaptureRun.Text(Encoding.UTF8.GetString(
            Synthesised.Bytes(ChunkedEprScript.Text.Replace("  - attach", "  - attach\n  - discover-cable", StringComparison.Ordinal))));

        analysis.Faults.Should().BeEmpty();
        analysis.Findings.Should().BeEmpty();
        analysis.Contracts.Should().HaveCount(2).And.OnlyContain(contract => contract.Outcome == ContractOutcome.Ready);
    }
}
