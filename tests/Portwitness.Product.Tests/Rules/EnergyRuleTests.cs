using System.Globalization;
using System.Text;
using Portwitness.Analysis.Evidence;

namespace Portwitness.Product.Tests.Rules;

/// <summary>Rules about measured energy and parts, on both sides of their limits. 1 Ah is 1 A for 3600 s, 1 Wh 1 W for 3600 s.</summary>
public class EnergyRuleTests
{
    private const string Pack = "label: |\n  Battery: 10000mAh 3.7V 37Wh\n  Rated capacity: 6000mAh (5V⎓2A)\n  USB-C: 5V⎓3A\n";
    private const string Exact = "accuracy: {volts: 0.1%, amps: 0.2%}, measured_at: source, cut_off: 4.5V, longest_step: 1h";

    // 6000 mAh ± 0.2 % are 5988 to 6012 mAh, and the step of a second to the cut-off may hold 0.6 mAh more.
    [Theory]
    [InlineData(5986, Exact, "mismatch")]
    [InlineData(5988, Exact, "caution")]
    [InlineData(5999, Exact, "caution")]
    [InlineData(6000, Exact, "")] // by simple acceptance
    [InlineData(6013, Exact, "")]
    [InlineData(6000, "measured_at: source, cut_off: 4.5V, longest_step: 1h", "caution")] // of a meter of which nothing is stated
    [InlineData(5986, "measured_at: source, cut_off: 4.5V, longest_step: 1h", "caution")]
    [InlineData(5000, "begun: partly, " + Exact, "")]
    public void Capacity_IsHeldAgainstTheRatedOne(int milliampereHours, string members, string severity)
    {
        SeverityOf("measured-capacity-below-rated", Run(Pack, $"at: 5V 2A, {members}", Discharge(milliampereHours))).Should().Be(severity);
    }

    // What is rated at 5 V 2 A says nothing of another voltage, and a larger current may give less.
    [Theory]
    [InlineData("9V 2A", "")]
    [InlineData("5V 3A", "caution")]
    [InlineData("5V 1A", "mismatch")]
    [InlineData("5V", "caution")]
    public void Capacity_IsComparedOnItsOwnBasis(string at, string severity)
    {
        string log = Discharge(5000).Replace(",5,", at.StartsWith('9') ? ",9," : ",5,", StringComparison.Ordinal);

        SeverityOf("measured-capacity-below-rated", Run(Pack, $"at: {at}, {Exact}", log)).Should().Be(severity);
    }

    [Fact]
    public void Capacity_OfAnUnfinishedDischarge_CannotBeTold()
    {
        SeverityOf("measured-capacity-below-rated", Run(Pack, $"at: 5V 2A, {Exact}", "time (s),volts,amps\n0,5,2\n3600,5,2\n")).Should().Be("caution");
    }

    // 65 % of 37 Wh are 24.05 Wh, 97 % are 35.89 Wh; 5 V times mAh, with 0.3 % of uncertainty.
    [Theory]
    [InlineData(4790, Verdict.Fails)]
    [InlineData(4805, Verdict.CannotTell)]
    [InlineData(4830, null)]
    [InlineData(7170, null)]
    [InlineData(7185, Verdict.CannotTell)]
    [InlineData(7210, Verdict.Fails)]
    public void Efficiency_IsHeldAgainstTheUsual(int milliampereHours, Verdict? verdict)
    {
        ProductAnalysis analysis = Run(Pack, $"at: 5V 2A, {Exact}", Discharge(milliampereHours));

        analysis.Findings.FirstOrDefault(finding => finding.Rule == "measured-efficiency-implausible")?.Verdict.Should().Be(verdict);
        analysis.Findings.Any(finding => finding.Rule == "measured-efficiency-implausible").Should().Be(verdict is not null);
    }

    [Fact]
    public void StatedCells_GoBeforePrintedOnes()
    {
        ProductAnalysis analysis = Run(
            Pack + "battery: {cells: {series: 1, parallel: 2, capacity_mah: 3000, nominal_v: 3.85}}\n", $"at: 5V 2A, {Exact}", Discharge(6100));

        analysis.Energy.Cells!.MicrowattHours.Should().Be(23_100_000, "two cells of 3000 mAh at 3.85 V");
        analysis.Findings.Should().Contain(finding => finding.Rule == "measured-efficiency-implausible" && finding.Verdict == Verdict.Fails);
    }

    // R3.2v1.1 Table 7.23: 9 V ± 5 % is 8.55 V to 9.45 V; R3.2v1.1 7.1.8 for 5 V: 4.75 V to 5.5 V. 0.1 % of 8.55 V are 8.6 mV.
    [Theory]
    [InlineData("9V 2A", "8.5", "source", "mismatch")]
    [InlineData("9V 2A", "8.545", "source", "caution")]
    [InlineData("9V 2A", "8.55", "source", "")]
    [InlineData("9V 2A", "9.45", "source", "")]
    [InlineData("9V 2A", "9.47", "sink", "mismatch")]
    [InlineData("9V 2A", "8.5", "sink", "caution")]
    [InlineData("9V 2A", "7.7", "sink", "mismatch")]
    [InlineData("9V 3A", "8.5", "source", "caution")]
    [InlineData("5V 2A", "5.49", "source", "")]
    [InlineData("5V 2A", "4.7", "source", "mismatch")]
    public void Voltage_StaysWithinTheStandardsLimits(string at, string volts, string point, string severity)
    {
        string load = at.Split(' ')[1][..1];
        string nominal = at.Split('V')[0];
        string log = $"time (s),volts,amps\n0,{nominal},{load}\n10,{volts},{load}\n100,{volts},{load}\n110,{nominal},{load}\n";

        SeverityOf(
            "output-voltage-outside-tolerance",
            Run("label: \"USB-C: 5V⎓3A 9V⎓2A\"\n", $"at: {at}, accuracy: {{volts: 0.1%, amps: 0.2%}}, measured_at: {point}, longest_step: 1h", log)).Should().Be(severity);
    }

    [Theory]
    [InlineData("5V 2A", 2, 600, "mismatch")]
    [InlineData("5V 4A", 4, 600, "caution")]
    [InlineData("5V 2A", 2, 7000, "")]
    public void Collapse_IsOneWhileThePackIsNotEmpty(string at, int amperes, int seconds, string severity)
    {
        string log = string.Create(
            CultureInfo.InvariantCulture,
            $"time (s),volts,amps\n0,5,{amperes}\n{seconds / 2},5,{amperes}\n{seconds},5,{amperes}\n{seconds + 1},0,0\n{seconds + 11},5,{amperes}\n{(seconds + 7211) / 2},5,{amperes}\n7200,5,{amperes}\n7201,0,0\n7211,0,0\n");

        SeverityOf("output-collapsed", Run(Pack, $"at: {at}, {Exact}", log)).Should().Be(severity);
    }

    // captures/ENERGY.md: it goes off and comes back. A mains charger that is unplugged under load goes off for good.
    [Theory]
    [InlineData("3601,0,0\n3602,0,0\n", "")]
    [InlineData("3601,0,0\n7200,0,0\n", "")]
    [InlineData("3601,0,0\n3602,5,2\n7200,5,2\n", "mismatch")]
    [InlineData("3601,0,0\n3602,5,0\n7200,5,0\n", "mismatch")]
    [InlineData("3601,0,0\n3602,5,2\n7200,5,2\n7201,0,0\n7202,0,0\n", "mismatch")]
    public void MainsChargerThatStaysOff_MayHaveBeenUnplugged(string rows, string severity) => SeverityOf(
        "output-collapsed",
        Run("label: |\n  USB-C: 5V⎓3A\n", $"at: 5V 2A, {Exact}", "time (s),volts,amps\n0,5,2\n3600,5,2\n" + rows)).Should().Be(severity);

    [Theory]
    [InlineData("0,5,2\n1,5,2\n2,5,2\n7,5,2\n8,5,2\n9,5,2\n", "")]
    [InlineData("0,5,2\n1,5,2\n2,5,2\n7.1,5,2\n8,5,2\n9,5,2\n", "caution")]
    [InlineData("0,5,2\n1,5,2\n2,5,2\n1.5,5,2\n2.5,5,2\n3.5,5,2\n", "caution")]
    public void Gap_IsAStepOfMoreThanFiveUsualOnes(string rows, string severity)
    {
        SeverityOf("log-has-gaps", Run(Pack, "at: 5V 2A", "time (s),volts,amps\n" + rows)).Should().Be(severity);
    }

    // (EU) 2019/1782 Annex II: 65 W of one voltage 88 %, of several at once 86 %; no load 0.21 W and 0.3 W.
    [Theory]
    [InlineData("85.5", "mismatch")]
    [InlineData("85.9", "caution")]
    [InlineData("87.9", "caution")]
    [InlineData("88.4", "")]
    public void AverageEfficiency_IsHeldAgainstTheFormulae(string percent, string severity)
    {
        decimal efficiency = decimal.Parse(percent, CultureInfo.InvariantCulture) / 100;
        string points = string.Join(", ", new[] { 25, 50, 75, 100 }.Select(load => string.Create(
            CultureInfo.InvariantCulture, $"{{load: {load}%, input_w: {1000 * load / 100}, output_w: {1000 * efficiency * load / 100:0.###}}}")));

        SeverityOf("adapter-efficiency-below-limit", Run($"adapter:\n  - {{at: 20V 3.25A, accuracy: 0.1%, points: [{points}]}}\n", null, null)).Should().Be(severity);
    }

    [Theory]
    [InlineData("0.2", "")]
    [InlineData("0.21", "")] // by simple acceptance
    [InlineData("0.211", "caution")]
    [InlineData("0.3", "caution")]
    [InlineData("0.31", "mismatch")]
    public void NoLoad_IsHeldAgainstTheTables(string watts, string severity) => SeverityOf(
        "adapter-no-load-above-limit", Run($"adapter:\n  - {{at: 20V 3.25A, no_load_w: {watts}, accuracy: 1%}}\n", null, null)).Should().Be(severity);

    [Fact]
    public void MissingPoint_OpensTheAverage() => SeverityOf(
        "adapter-efficiency-below-limit",
        Run("adapter:\n  - {at: 20V 3.25A, points: [{load: 50%, input_w: 37, output_w: 32.5}]}\n", null, null)).Should().Be("caution");

    // The list goes to 9 V 2 A: vSrcNew 9.45 V and vSrcValid 0.5 V more are 9.95 V (R3.2v1.1, Table 7.23). 9 V of 11.25 V leave 20 %.
    [Theory]
    [InlineData("volts: 9.94V", "part-rating-exceeded")]
    [InlineData("volts: 9.95V", "part-headroom-small")]
    [InlineData("volts: 11.24V", "part-headroom-small")]
    [InlineData("volts: 11.25V", "")]
    [InlineData("volts: 11.24V, headroom: 19%", "")]
    // 9 V of 11.24 V leave 19.93 %, of 10.31 V 12.71 %.
    [InlineData("volts: 11.24V, headroom: 19.9%", "")]
    [InlineData("volts: 11.24V, headroom: 19.94%", "part-headroom-small")]
    [InlineData("volts: 10.31V, headroom: 12.7%", "")]
    [InlineData("volts: 10.31V, headroom: 12.8%", "part-headroom-small")]
    [InlineData("amps: 2.9A", "part-rating-exceeded")]
    [InlineData("amps: 3A, headroom: 0%", "")]
    public void Parts_AreHeldAgainstTheHighestOffer(string ratings, string rule)
    {
        ProductAnalysis analysis = Run($"parts: [{{part: Q3, node: USB-C, {ratings}}}]\n", null, null);

        string.Join(",", analysis.Findings.Where(finding => finding.Rule.StartsWith("part-", StringComparison.Ordinal)).Select(finding => finding.Rule)).Should().Be(rule);
    }

    [Fact]
    public void PartOfAPortThatWasNotCaptured_CannotBeTold() => SeverityOf(
        "part-rating-exceeded", Run("parts: [{part: Q3, node: C2, volts: 30V}]\n", null, null)).Should().Be("caution");

    private static string Discharge(int milliampereHours)
    {
        StringBuilder rows = new("time (s),volts,amps\n");
        decimal seconds = milliampereHours * 3.6m / 2;
        for (decimal at = 0; at < seconds; at += 1800)
        {
            rows.Append(CultureInfo.InvariantCulture, $"{at},5,2\n");
        }

        return rows.Append(CultureInfo.InvariantCulture, $"{seconds},5,2\n{seconds + 1},4.4,2\n{seconds + 11},4.4,2\n").ToString();
    }

    private static string SeverityOf(string rule, ProductAnalysis analysis) =>
        string.Join(",", analysis.Findings.Where(finding => finding.Rule == rule).Select(finding => finding.Severity.ToString().ToLowerInvariant()));

    private static ProductAnalysis Run(string members, string? log, string? rows)
    {
        string logs = log is null ? "" : $"discharges:\n  - {{port: C, file: log.csv, {log}}}\n";
        using ProductCheck check = ProductCheck.ForProduct(
            "product.yaml", $"{members}{logs}captures:\n  - {{file: c.words, port: C, in_use: [C]}}\n", null);
        check.Open("c.words").Write("0x0801912C 0x0002D0C8"u8.ToArray());
        check.Close();
        if (rows is not null)
        {
            check.OpenLog().Write(Encoding.UTF8.GetBytes(rows));
            check.CloseLog();
        }

        return check.Complete();
    }
}
