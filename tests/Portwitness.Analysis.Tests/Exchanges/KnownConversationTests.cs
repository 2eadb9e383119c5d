using System.Collections.Immutable;
using Portwitness.Analysis.Evidence;
using Portwitness.Analysis.Findings;
using Portwitness.Tests;

namespace Portwitness.Analysis.Tests.Exchanges;

/// <summary>Captures with a known answer (Data/following): nobody is accused of what was missed, and what never came is named.</summary>
public class KnownConversationTests
{
    [Theory]
    [InlineData("F1-lost-request")]
    [InlineData("F2-source-side-only")]
    [InlineData("F3-lost-enter-succeeded")]
    [InlineData("F4-lost-epr-exit")]
    [InlineData("F5-lost-psrdy-after-pps")]
    [InlineData("F7-slow-turn-on")]
    [InlineData("F9-sopprime-lost")]
    public void LegalConversation_AccusesNobody(string name) =>
        Run(name).Where(finding => finding.Severity is Severity.Violation or Severity.Mismatch).Should().BeEmpty();

    [Theory]
    [InlineData("M1-pps-silence-vbus-on", "pps-keep-alive-late")]
    [InlineData("M2-epr-silence-vbus-on", "epr-keep-alive-late")]
    [InlineData("M3a-epr-hard-reset-after-3s", "epr-keep-alive-late")]
    [InlineData("M3b-pps-hard-reset-after-25s", "pps-keep-alive-late")]
    [InlineData("M3c-request-never-answered", "answer-missing")]
    [InlineData("M3d-no-caps-after-hard-reset", "first-capabilities-late")]
    [InlineData("M3e-vbus-never-back", "vbus-recovery-time-wrong")]
    [InlineData("M4-first-caps-late-after-hr", "first-capabilities-late")]
    [InlineData("M5-first-caps-late-measured", "first-capabilities-late")]
    [InlineData("M6-softreset-accept-late", "response-late")]
    [InlineData("M24-cold-vbus", "vbus-present-before-attach")]
    [InlineData("M25-sag-30ms", "vbus-droop")]
    [InlineData("M26-turn-on-600ms", "vbus-turn-on-late")]
    [InlineData("M27-hr-vbus-falls-at-once", "vbus-fell-too-early")]
    [InlineData("M28-caps-slow-same-id", "capabilities-mistimed")]
    public void BrokenConversation_IsNamed(string name, string rule) =>
        Run(name).Where(finding => finding.Severity != Severity.Note).Select(finding => finding.Rule).Should().Contain(rule);

    private static ImmutableArray<Finding> Run(string name) => CaptureRun.Text(
        File.ReadAllText(Repository.PathOf("tests", "Portwitness.Analysis.Tests", "Data", "following", $"{name}.jsonl"))).Findings;
}
