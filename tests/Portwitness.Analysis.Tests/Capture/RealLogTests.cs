using Portwitness.Analysis.Evidence;
using Portwitness.Analysis.Profile;
using Portwitness.Following.Contracts;
using Portwitness.PowerDelivery.Limits;

namespace Portwitness.Analysis.Tests.Capture;

/// <summary>Three logs from public kernel mailing lists, as they are.</summary>
public class RealLogTests
{
    [Fact]
    public void Log02_ShowsOneContractOf9V()
    {
        CaptureAnalysis analysis = CaptureRun.RealLog("kernel-log-02.log");

        analysis.Format.Should().Be("kernel-log");
        analysis.Editions.Should().Be(Editions.R20);
        Advertisement list = analysis.Advertisements.Should().ContainSingle().Subject;
        list.ListText().Should().Be("fixed 5 V 3 A, fixed 9 V 2 A");
        list.Pdp!.Value.ToString().Should().Be("18 W");
        ContractAttempt contract = analysis.Contracts.Should().ContainSingle().Subject;
        (contract.Outcome, contract.ObjectPosition, contract.Voltage?.Millivolts, contract.Current?.Milliamperes)
            .Should().Be((ContractOutcome.Ready, 2, 9000, 2000));
        analysis.Findings.Should().BeEmpty();
    }

    // The first request is answered by Reject, a hard reset follows, and the same request is then granted.
    [Fact]
    public void Log08_ShowsARejectedRequestAndThenAContract()
    {
        CaptureAnalysis analysis = CaptureRun.RealLog("kernel-log-08.log");

        analysis.Advertisements[0].ListText()
            .Should().Be("fixed 5 V 3 A, fixed 9 V 3 A, fixed 12 V 2.5 A, fixed 15 V 2 A, fixed 20 V 1.5 A");
        analysis.Contracts.Select(c => (c.Outcome, c.ObjectPosition, c.CapabilityMismatch)).Should().Equal(
            (ContractOutcome.Rejected, 4, true), (ContractOutcome.Ready, 4, true));
        analysis.Contracts[1].Voltage!.Value.Millivolts.Should().Be(15000);

        // R2.0: 12 V and 20 V are optional, and every current is 30 W / V. The reset is worth knowing.
        analysis.Findings.Should().ContainSingle().Which.Should().Match<Findings.Finding>(
            finding => finding.Rule == "hard-reset-seen" && finding.Severity == Severity.Note);
    }

    [Fact]
    public void Log05_ShowsTwoAttachesWithTheSameList()
    {
        CaptureAnalysis analysis = CaptureRun.RealLog("kernel-log-05.log");

        analysis.Advertisements.Should().HaveCount(2);
        analysis.Advertisements.Select(list => list.ListText()).Distinct().Should().ContainSingle()
            .Which.Should().Be("fixed 5 V 3 A, fixed 9 V 3 A, fixed 15 V 3 A, fixed 20 V 3.25 A");
        analysis.Contracts.Should().HaveCount(2).And.OnlyContain(c => c.Outcome == ContractOutcome.Ready);
        analysis.Editions.Should().Be(Editions.R3x);

        // The log does not show the cable, so 3.25 A cannot be told; nothing else is open.
        analysis.Findings.Should().ContainSingle().Which.Rule.Should().Be("current-above-3a-without-5a-cable");
    }
}
