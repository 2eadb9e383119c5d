using System.Text;
using Portwitness.Analysis.Evidence;
using Portwitness.Analysis.Findings;

namespace Portwitness.Analysis.Tests.Measuring;

/// <summary>
/// What a source says of its output beside what was measured: 3 % and 150 mA (R3.2v1.1, Table 6.62), steps of 20 mV and 50 mA, the
/// instrument's 10 mV and 10 mA, and what a cable may lose. Measured are 9 V and 1 A; the words are computed from the table.
/// </summary>
public class StatusRuleTests
{
    private const string Rule = "status-differs-from-measurement";

    [Theory]
    [InlineData(9_000, 1_000, 0)]
    [InlineData(9_300, 1_000, 0)] // 9.300 V less 299 mV is 9.001 V, and 9.010 V may have been
    [InlineData(9_320, 1_000, 1)]
    [InlineData(8_720, 1_000, 0)]
    [InlineData(8_700, 1_000, 1)]
    [InlineData(9_000, 1_200, 0)]
    [InlineData(9_000, 1_250, 1)]
    [InlineData(9_000, 800, 0)]
    [InlineData(9_000, 750, 1)]
    [InlineData(10_000, 2_000, 2)]
    public void ValuesBesideTheirTolerance_AreTold(int millivolts, int milliamperes, int found) =>
        Found(PpsStatus(millivolts, milliamperes)).Should().Be(found);

    // 750 mV may be lost in a cable (from memory); what reads more than was told is no loss.
    [Theory]
    [InlineData(10_080, 0)]
    [InlineData(10_100, 1)]
    [InlineData(8_700, 1)]
    public void BehindACable_ALossIsNoDifference(int millivolts, int found) =>
        Found(PpsStatus(millivolts, 1_000), point: "sink").Should().Be(found);

    [Fact]
    public void ValuesThatAreNotSupported_SayNothing() => Found("FFFFFF00").Should().Be(0);

    [Theory]
    [InlineData("measure 9V 1A every 10ms for 30ms", 1)]
    [InlineData("measure 9V 1A every 10ms for 20ms", 0)] // two samples
    public void FewSamples_SayNothing(string measured, int found) => Found(PpsStatus(10_000, 1_000), measured).Should().Be(found);

    [Theory]
    [InlineData("pause 350ms", 1)]
    [InlineData("pause 700ms", 0)]
    public void WhatWasMeasuredLongBefore_SaysNothing(string pause, int found) =>
        Found(PpsStatus(10_000, 1_000), "measure 9V 1A every 10ms for 100ms", pause).Should().Be(found);

    // Granted are 3 A: limiting, the source gives 2.85 A at least (Table 7.23), 50 mA less as a step is, 10 mA as measured.
    [Theory]
    [InlineData("2.8A", 0)]
    [InlineData("2.78A", 1)]
    [InlineData("1A", 1)]
    public void CurrentLimitWithoutTheCurrent_IsTold(string load, int found) =>
        Found("FFFFFF08", $"measure 9V {load} every 10ms for 600ms").Should().Be(found);

    [Fact]
    public void ConstantVoltageWithoutTheCurrent_IsAsItShouldBe() => Found("FFFFFF00").Should().Be(0);

    // Table 6.55: bit 4 of byte 3.
    [Theory]
    [InlineData("00000010000000", 1)]
    [InlineData("00000000000000", 0)]
    public void StatusTellsTheModeToo(string block, int found) => Found(block, message: "Status").Should().Be(found);

    // What the sink says of itself is none of the source's matter.
    [Fact]
    public void StatusOfTheSink_IsNotJudged() => Found("00000010000000", message: "Status", sender: "sink").Should().Be(0);

    private static string PpsStatus(int millivolts, int milliamperes) =>
        $"{(millivolts / 20) & 0xFF:X2}{millivolts / 20 >> 8:X2}{milliamperes / 50:X2}00";

    private static int Found(
        string block, string measured = "measure 9V 1A every 10ms for 600ms", string pause = "pause 1ms", string point = "source",
        string message = "PPS_Status", string sender = "source")
    {
        string other = sender == "source" ? "sink" : "source";
        string script =
            $"""
            measured_at: {point}
            accuracy: {"{"}vbus_mv: 10, ibus_ma: 10{"}"}
            source: [5V 3A, PPS 3.3-11V 3A]
            steps:
              - attach
              - advertise
              - contract 2 at 9V 3A
              - pause 300ms
              - {measured}
              - {pause}
              - send {other} {(message == "Status" ? "Get_Status" : "Get_PPS_Status")}
              - send {sender} {message} {block}
            """;
        Finding[] findings = [.. CaptureRun.Told(Encoding.UTF8.GetString(Synthesised.Bytes(script))).Findings.Where(finding => finding.Rule == Rule)];
        findings.Where(finding => finding.Severity != Severity.Caution).Should().BeEmpty();
        return findings.Sum(finding => 1 + finding.FurtherPlaces.Length);
    }
}
