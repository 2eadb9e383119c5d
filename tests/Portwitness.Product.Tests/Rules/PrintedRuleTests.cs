using Portwitness.Analysis.Evidence;
using Portwitness.Analysis.Findings;
using Portwitness.Labels;

namespace Portwitness.Product.Tests.Rules;

/// <summary>
/// A label on its own. Tolerances and bands are common practice, no source; the identities (W = V × A, Wh = V × Ah) are physics.
/// Labels are ours.
/// </summary>
public class PrintedRuleTests
{
    private const string Mains = "INPUT 100-240V~ 50/60Hz 1.5A\n";

    [Theory]
    // V × A against W: 0.5 W or 1 % are rounding; a coarse last digit is not.
    [InlineData("C: 9V⎓2.22A(20W) 20V⎓3.25A(65W) 5V⎓3A(15W)", "")]
    [InlineData("C: 12V⎓1.67A(20W) 20V⎓5A(100W)", "")]
    [InlineData("C: 9V⎓2A/18.5W", "")]
    [InlineData("C: 9V⎓2A/18.6W", "mismatch power-product-differs@1")]
    [InlineData("C: 20V⎓5A/101.1W", "mismatch power-product-differs@1")]
    [InlineData("C: 5V⎓3A(45W)", "caution power-product-differs@1")]
    [InlineData("C Input: 9V⎓2A/20W\nC Output: 5V⎓3A", "mismatch power-product-differs@1")]
    // Maxima of a port.
    [InlineData("C: 5V⎓3A 20V⎓3.25A (65W Max)", "")]
    [InlineData("C: 5V⎓3A 9V⎓2.22A (20W Max)", "")]
    [InlineData("C: 5V⎓3A 15V⎓3A (30W Max)", "caution port-maximum-below-rating@1")]
    [InlineData("C: 5V⎓3A 20V⎓2.25A (65W Max)", "caution port-maximum-above-ratings@1")]
    [InlineData("C: 5V⎓3A 9V⎓2.22A PPS 3.3-11V⎓3A (33W Max)", "")]
    [InlineData("C: 5V⎓3A what (65W Max)", "")]
    // Totals and combinations of two ports.
    [InlineData("C1: 45W Max\nC2: 20W Max\nTotal: 65W", "")]
    [InlineData("C1: 65W Max\nC2: 20W Max\nC1+C2: 45W+20W\nTotal: 65W", "note shared-budget@4")]
    [InlineData("C1: 65W Max\nTotal: 45W", "caution total-below-single-port@2")]
    [InlineData("C1: 65W Max\nC2: 30W Max\nC1+C2: 45W+30W (Total 65W)", "mismatch combination-exceeds-total@3")]
    [InlineData("C1: 65W Max\nC2: 30W Max\nC1+C2: 45W+30W\nMax Output: 65W", "caution combination-exceeds-total@3")]
    [InlineData("C1: 65W Max\nC2: 30W Max\nC1+C2: 45W+20.4W (Total 65W)", "")]
    [InlineData("C1: 65W Max\nC2: 12W Max\nC2+C1: 5V⎓3A total", "note shared-budget@3")]
    [InlineData("C1: 65W Max\nC2: 20W Max\nC3: 12W Max\nC1+C2+C3: 45W+15W", "note combination-not-printed@3, caution combination-split-mismatch@4")]
    [InlineData("C1: 65W Max\nC2: 20W Max", "note combination-not-printed@2")]
    // What USB PD does not have.
    [InlineData("C: 5V⎓3A 20V⎓3.25A PPS 3.3-21V⎓5A (65W Max)", "note range-corner-exceeds-maximum@1")]
    [InlineData("C: 5V⎓3A 10V⎓2.25A", "note voltage-outside-standard@1")]
    [InlineData("C: 5V⎓3A UFCS 10V⎓2.25A", "")]
    [InlineData("A: 5V⎓4A 10V⎓2A", "")]
    [InlineData("C: 5V⎓3A 9V⎓6A", "note printed-current-above-5a@1")]
    [InlineData("C: 5V⎓4.5A", "note printed-current-above-3a-at-5v@1")]
    // Batteries.
    [InlineData("Battery: 10000mAh 3.85V 38.5Wh\nRated capacity: 6000mAh (5V⎓3A)", "note carriage-band@1")]
    [InlineData("Battery: 10000mAh 3.7V 37.3Wh", "note carriage-band@1")]
    [InlineData("Battery: 10000mAh 3.7V 40Wh", "note carriage-band@1, caution energy-differs@1")]
    [InlineData("Battery: 10000mAh 3.7V\nRated capacity: 10000mAh (5V⎓3A)", "note carriage-band@1, mismatch rated-capacity-exceeds-energy@2")]
    [InlineData("Battery: 10000mAh 37Wh\nRated capacity: 4500mAh (5V⎓3A)", "note carriage-band@1, caution implied-efficiency-implausible@2")]
    [InlineData("Battery: 10000mAh 37Wh\nRated capacity: 7300mAh (5V⎓3A)", "note carriage-band@1, caution implied-efficiency-implausible@2")]
    [InlineData("Battery: 10000mAh 37Wh\nRated capacity: 6000mAh", "note carriage-band@1, caution capacity-basis-missing@2")]
    [InlineData("Battery: 10000mAh", "mismatch energy-not-derivable@1")]
    [InlineData("Battery: 10000mAh\nsomething 9V", "caution energy-not-derivable@1")]
    [InlineData("Rated capacity: 10000mAh 3.7V", "note carriage-band@1")]
    [InlineData("Battery: 27000mAh 3.7V 99.9Wh", "note carriage-band@1")]
    [InlineData("Battery: 100.1Wh", "caution carriage-band@1")]
    [InlineData("Battery: 200Wh", "caution carriage-band@1")]
    // External supplies: 65 W needs 88 % (basic) or 87 % (low voltage), and takes 0.21 W without load.
    [InlineData(Mains + "C: 5V⎓3A 20V⎓3.25A (65W Max)\nAverage active efficiency: 88%", "")]
    [InlineData(Mains + "C: 5V⎓3A 20V⎓3.25A (65W Max)\nAverage active efficiency: 87.5%", "caution efficiency-below-limit@3")]
    [InlineData(Mains + "C: 5V⎓3A 20V⎓3.25A (65W Max)\nAverage active efficiency: 86.9%", "mismatch efficiency-below-limit@3")]
    [InlineData(Mains + "C: 5V⎓3A 20V⎓3.25A (65W Max)\nNo-load power: 0.21W", "")]
    [InlineData(Mains + "C: 5V⎓3A 20V⎓3.25A (65W Max)\nNo-load power: 0.22W", "mismatch no-load-above-limit@3")]
    [InlineData(Mains + "C1: 30W Max\nC2: 20W Max\nC1+C2: 30W+20W\nTotal: 50W\nNo-load power: 0.25W", "caution no-load-above-limit@6")]
    [InlineData("Input: 12V⎓2A\nC: 5V⎓3A (15W Max)\nNo-load power: 1W", "")]
    // At the limits themselves, and just beyond: tolerances of 1 %, bands of 100 and 160 Wh, 65 and 97 % implied efficiency, voltages of
    // one to four lithium cells (common practice, no source), low voltage below 6 V from 0.55 A (10 CFR 430.32(w)).
    [InlineData("Battery: 10000mAh 3.7V 37Wh\nRated capacity: 6000mAh", "note carriage-band@1, caution capacity-basis-missing@2")]
    [InlineData("Battery: 100Wh", "note carriage-band@1")]
    [InlineData("Battery: 160Wh", "caution carriage-band@1")]
    [InlineData("Battery: 160.1Wh", "caution carriage-band@1")]
    [InlineData("Battery: 10000mAh 3.7V\nEnergy: 120Wh", "caution carriage-band@2, caution energy-differs@2")]
    [InlineData("C1: 65W Max\nC2: 20W Max\nC3: 20W Max\nC4: 20W Max", "note combination-not-printed@4")]
    [InlineData("C1: 65W Max\nC2: 20W Max\nTotal: 84.15W", "note combination-not-printed@2, note shared-budget@3")]
    [InlineData("C1: 65W Max\nC2: 20W Max\nTotal: 84.14W", "note combination-not-printed@2, note shared-budget@3")]
    [InlineData(Mains + "C: 5V⎓3A 20V⎓3.25A (65W Max)\nAverage active efficiency: 87%", "caution efficiency-below-limit@3")]
    [InlineData(Mains + "C: 20V⎓3.25A (65W Max)\nAverage active efficiency: 88%", "")]
    [InlineData(Mains + "C: 20V⎓3.25A (65W Max)\nAverage active efficiency: 87.9%", "mismatch efficiency-below-limit@3")]
    [InlineData(Mains + "C: 5V⎓0.54A 20V⎓3.25A (65W Max)\nAverage active efficiency: 87.9%", "mismatch efficiency-below-limit@3")]
    [InlineData(Mains + "C: 5V⎓0.55A 20V⎓3.25A (65W Max)\nAverage active efficiency: 87.9%", "caution efficiency-below-limit@3")]
    [InlineData(Mains + "C: 6V⎓3A 20V⎓3.25A (65W Max)\nAverage active efficiency: 87.9%", "note voltage-outside-standard@2, mismatch efficiency-below-limit@3")]
    [InlineData(Mains + "C: 5.9V⎓3A (17.7W Max)\nAverage active efficiency: 82.5%", "note voltage-outside-standard@2")]
    [InlineData(Mains + "C: 6V⎓3A (18W Max)\nAverage active efficiency: 84%", "note voltage-outside-standard@2, mismatch efficiency-below-limit@3")]
    [InlineData(Mains + "C1: 5V⎓3A (15W Max)\nC2: 5V⎓3A (15W Max)\nTotal: 30W\nAverage active efficiency: 84%", "caution efficiency-below-limit@5")]
    [InlineData("Battery: 10000mAh 3.7V 37.37Wh", "note carriage-band@1")]
    [InlineData("Battery: 10000mAh 3.7V 37.4Wh", "note carriage-band@1, caution energy-differs@1")]
    [InlineData("Battery: 10000mAh 3.7V 37.38Wh", "note carriage-band@1, caution energy-differs@1")]
    [InlineData("Battery: 10000mAh 3.7V 37Wh\nRated capacity: 4810mAh (5V⎓2A)", "note carriage-band@1")]
    [InlineData("Battery: 10000mAh 3.7V 37Wh\nRated capacity: 4809mAh (5V⎓2A)", "note carriage-band@1, caution implied-efficiency-implausible@2")]
    [InlineData("Battery: 10000mAh 3.7V 37Wh\nRated capacity: 7178mAh (5V⎓2A)", "note carriage-band@1")]
    [InlineData("Battery: 10000mAh 3.7V 37Wh\nRated capacity: 7190mAh (5V⎓2A)", "note carriage-band@1, caution implied-efficiency-implausible@2")]
    [InlineData("Battery: 10000mAh 3.7V 37Wh\nRated capacity: 7450mAh (5V⎓2A)", "note carriage-band@1, caution implied-efficiency-implausible@2")]
    [InlineData("Battery: 10000mAh 3.7V 37Wh\nRated capacity: 7480mAh (5V⎓2A)", "note carriage-band@1, mismatch rated-capacity-exceeds-energy@2")]
    [InlineData("C: 5V⎓3A PPS 3.3-11V⎓3A PPS 3.3-21V⎓3A (65W Max)", "caution port-maximum-above-ratings@1")]
    [InlineData("C Input: 5-20V⎓3A/60W\nC Output: 5V⎓3A", "")]
    [InlineData("C1: 65W Max\nC2: 30W Max\nA: 12W Max\nC2+A: 5V⎓3A total\nTotal: 65W", "note combination-not-printed@3, note shared-budget@4, note shared-budget@5")]
    [InlineData("C1: 65W Max\nTotal: 64.35W", "")]
    [InlineData("C1: 65W Max\nTotal: 64.34W", "caution total-below-single-port@2")]
    [InlineData("Rated capacity: 10000mAh 3.7V\nEnergy: 37Wh", "note carriage-band@2")]
    [InlineData("Rated capacity: 10000mAh 3V", "note carriage-band@1")]
    [InlineData("Rated capacity: 10000mAh 4V", "note carriage-band@1")]
    [InlineData("Rated capacity: 10000mAh 4.1V", "mismatch energy-not-derivable@1")]
    [InlineData("Rated capacity: 10000mAh 2.9V", "mismatch energy-not-derivable@1")]
    [InlineData("Rated capacity: 5000mAh 7V", "note carriage-band@1")]
    [InlineData("Rated capacity: 5000mAh 7.8V", "note carriage-band@1")]
    [InlineData("Rated capacity: 5000mAh 7.9V", "mismatch energy-not-derivable@1")]
    [InlineData("Rated capacity: 5000mAh 10.5V", "note carriage-band@1")]
    [InlineData("Rated capacity: 5000mAh 11.6V", "note carriage-band@1")]
    [InlineData("Rated capacity: 5000mAh 12V", "mismatch energy-not-derivable@1")]
    [InlineData("Rated capacity: 5000mAh 14V", "note carriage-band@1")]
    [InlineData("Rated capacity: 5000mAh 14.9V", "note carriage-band@1")]
    [InlineData("Rated capacity: 5000mAh 15V", "mismatch energy-not-derivable@1")]
    [InlineData("Battery: 10000mAh\nRated capacity: 6000mAh (5V⎓2A)", "mismatch energy-not-derivable@1")]
    [InlineData("C1: 9V⎓3A\nC2: 65W Max\nTotal: 27W", "note combination-not-printed@2, note shared-budget@3, caution total-below-single-port@3")]
    [InlineData("C1: 5V⎓3A 9V⎓3A 12V⎓2.25A (20W Max)", "caution port-maximum-below-rating@1")]
    public void LabelAlone_ShowsWhatIsWrong(string label, string expected)
    {
        IEnumerable<string> found = GoldenFindings.Check(PrintedCheck.Of(LabelReader.Read(label), out _)).OrderBy(finding => finding.LabelLine).ThenBy(finding => finding.Rule, StringComparer.Ordinal)
            .Select(finding => $"{finding.Severity.ToString().ToLowerInvariant()} {finding.Rule}@{finding.LabelLine}");

        string.Join(", ", found).Should().Be(expected);
    }

    [Fact]
    public void GuessedCharacters_AccuseNobody()
    {
        Finding finding = GoldenFindings.Check(PrintedCheck.Of(LabelReader.Read("C: 9V⎓3A/2OW"), out _)).Single();

        finding.Verdict.Should().Be(Verdict.CannotTell);
        finding.Severity.Should().Be(Severity.Caution);
        finding.NextStep.Should().Contain("line 1").And.Contain("label_corrections:");
    }

    [Fact]
    public void CarriageBand_NeverSaysAllowed() => PrintedCheck.Of(LabelReader.Read("Battery: 37Wh"), out _).Single().Detail
        .Should().Contain("Band by label").And.Contain("stricter").And.NotContain("allowed");

    [Fact]
    public void HostileNumbers_DoNotOverflow()
    {
        string label = string.Join('\n', Enumerable.Range(1, 16).Select(port => $"C{port}: 1000V⎓100A (10000W Max)"))
            + "\n" + string.Join('+', Enumerable.Range(1, 16).Select(port => $"C{port}")) + ": "
            + string.Join('+', Enumerable.Repeat("10000W", 16)) + "\nTotal: 10000W\nBattery: 10000000mAh 1000V 100000Wh";

        PrintedCheck.Of(LabelReader.Read(label), out _).Should().Contain(finding => finding.Rule == "combination-exceeds-total");
    }

    /// <summary>
    /// One rule's flood is counted and hides no other rule; with thousands of differently named ports a search through all of
    /// them for each finding would take minutes.
    /// </summary>
    [Fact]
    public void ManyFindings_AreCountedBeyondTheLimit()
    {
        string[] cables = ["Cable", "USB-C cable", "Built-in cable", "Kabel", "Festes Kabel", "Câble", "Câble fixe", "Cable fijo", "USB", "OUT", "Port", "PD"];
        string label = string.Concat(
            Enumerable.Range(0, 2000).Select(line => $"{cables[line % cables.Length]} {line / 12 % 99 + 1}: 9V⎓2A/99W\n"))
            + "C1: 5V⎓3A 15V⎓3A (30W Max)\n";

        Finding[] findings = [.. PrintedCheck.Of(LabelReader.Read(label), out long unlisted)];

        findings.Where(finding => finding.Rule == "power-product-differs").Should().HaveCount(50);
        unlisted.Should().BeGreaterThanOrEqualTo(1950);
        findings.Should().Contain(finding => finding.Rule == "port-maximum-below-rating" && finding.LabelLine == 2001);
        findings.Should().HaveCountLessThan(500);
    }
}
