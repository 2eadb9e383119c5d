using System.Globalization;
using Portwitness.Analysis.Evidence;
using Portwitness.Analysis.Findings;
using Portwitness.Product.Energy;

namespace Portwitness.Product.Tests.Energy;

/// <summary>
/// The three ways to print the capacity of cells in series, and labels that none of them explains. E = n m u c is physics: n cells in series,
/// m in parallel, of u volts and c mAh. That packs are printed in these ways, and the tolerances, are common practice, no source.
/// </summary>
public class CapacityBasisTests
{
    // Series, parallel, mAh, volts of one cell; then what a label prints of them, with the rule's way of printing.
    [Theory]
    [InlineData(3, 1, 4500, 3.6, "4500mAh 10.8V 48.6Wh", false)]
    [InlineData(3, 1, 4500, 3.6, "13500mAh 10.8V 48.6Wh", true)]
    [InlineData(3, 1, 4500, 3.6, "13500mAh 3.6V 48.6Wh", true)]
    [InlineData(3, 1, 4500, 3.6, "13500mAh 3.6V", true)]
    [InlineData(3, 1, 4500, 3.6, "13500mAh 10.8V", true)]
    [InlineData(3, 1, 4500, 3.6, "9720mAh 5V 48.6Wh", true)]
    [InlineData(3, 1, 4500, 3.6, "8500mAh 48.6Wh", true)]
    [InlineData(4, 1, 5000, 3.6, "5000mAh 14.4V 72Wh", false)]
    [InlineData(4, 1, 5000, 3.6, "20000mAh 3.6V 72Wh", true)]
    [InlineData(4, 1, 5000, 3.6, "19459mAh 3.7V 72Wh", true)]
    [InlineData(4, 1, 5000, 3.6, "14400mAh 72Wh", true)]
    [InlineData(2, 2, 4800, 3.7, "9600mAh 7.4V 71Wh", false)]
    [InlineData(2, 2, 4800, 3.7, "19200mAh 7.4V 71Wh", true)]
    [InlineData(2, 2, 4800, 3.7, "19200mAh 71.04Wh", true)]
    [InlineData(6, 1, 4500, 3.6, "27000mAh 21.6V 97.2Wh", true)]
    [InlineData(1, 2, 5000, 3.7, "10000mAh 3.7V 37Wh", false)]
    [InlineData(1, 2, 5000, 3.7, "10000mAh", false)]
    [InlineData(1, 1, 10000, 3.85, "10000mAh 3.85V 38.5Wh", false)]
    public void HonestLabel_IsExplainedAndAccusedOfNothing(int series, int parallel, int capacity, double volts, string label, bool explained)
    {
        ProductAnalysis analysis = OfCells(series, parallel, capacity, volts, $"Battery: {label}");

        analysis.Findings.Where(static finding => finding.Severity < Severity.Note).Should().BeEmpty();
        analysis.Findings.Any(static finding => finding.Rule == "capacity-basis-explained").Should().Be(explained);
        analysis.Findings.Single(static finding => finding.Rule == "carriage-band").Observed.Should().Be(
            string.Create(CultureInfo.InvariantCulture, $"{series * parallel * capacity * volts / 1000:0.###} Wh"), "the cells decide how it may travel");
    }

    [Theory]
    [InlineData(3, 1, 2000, 3.6, "13500mAh 3.7V 49.95Wh", "mismatch")]
    [InlineData(1, 2, 3000, 3.7, "10000mAh 3.7V 37Wh", "mismatch")]
    [InlineData(1, 2, 3000, 3.7, "10000mAh", "mismatch")]
    [InlineData(1, 2, 3000, 3.7, "37Wh", "mismatch")]
    [InlineData(3, 1, 4500, 3.6, "20000mAh 10.8V 48.6Wh", "mismatch")]
    [InlineData(3, 1, 4500, 3.6, "13500mAh 7.4V 48.6Wh", "mismatch")]
    [InlineData(1, 1, 10000, 3.7, "5000mAh 3.7V 18.5Wh", "mismatch")]
    // Typical to least capacity, or nominal volts, may explain up to a tenth.
    [InlineData(1, 1, 10000, 3.7, "10300mAh 3.7V 38.1Wh", "")]
    [InlineData(1, 1, 10000, 3.7, "10500mAh 3.7V 38.9Wh", "caution")]
    [InlineData(1, 1, 10000, 3.7, "11000mAh 3.7V 40.7Wh", "caution")]
    [InlineData(1, 1, 10000, 3.7, "11010mAh 3.7V 40.74Wh", "mismatch")]
    public void LabelThatNoWayExplains_DiffersFromTheCells(int series, int parallel, int capacity, double volts, string label, string severity)
    {
        ProductAnalysis analysis = OfCells(series, parallel, capacity, volts, $"Battery: {label}");

        Severities(analysis, "cells-differ-from-label").Should().Be(severity);
        analysis.Verdict.Should().Be(severity == "mismatch" ? Verdict.Fails : Verdict.CannotTell);
        analysis.Findings.Should().NotContain(static finding => finding.Rule == "energy-differs", "the cells settle it");
    }

    // 40 Wh out of 21.6 Wh: energy is conserved.
    [Fact]
    public void RatedOutputOfMoreThanTheCellsHold_FailsWithoutALog()
    {
        ProductAnalysis analysis = OfCells(3, 1, 2000, 3.6, "Battery: 13500mAh 3.7V 49.95Wh\nRated capacity: 8000mAh (5V⎓2A)");

        analysis.Verdict.Should().Be(Verdict.Fails);
        analysis.Summary().Should().Contain("mismatch rated-capacity-exceeds-energy@2").And.Contain("mismatch cells-differ-from-label@1");
    }

    [Fact]
    public void StatedCells_LetTheEnergyBeComputed() =>
        OfCells(1, 2, 5000, 3.7, "Battery: 10000mAh").Findings.Should().NotContain(static finding => finding.Rule == "energy-not-derivable");

    [Theory]
    [InlineData("13500mAh 10.8V 48.6Wh", "note capacity-basis-explained, note carriage-band 48.6 Wh")]
    [InlineData("13500mAh 10.8V 48.6Wh\nRated capacity: 8000mAh (5V⎓2A)", "note capacity-basis-explained, note carriage-band 48.6 Wh")]
    [InlineData("14400mAh 72Wh", "note capacity-basis-explained, note carriage-band 72 Wh")]
    [InlineData("20000mAh 3.6V 72Wh", "note carriage-band 72 Wh")]
    [InlineData("20000mAh 72Wh", "note carriage-band 72 Wh")]
    [InlineData("19200mAh 7.4V 71Wh", "note capacity-basis-explained, note carriage-band 71 Wh")]
    // 5 V would explain it, but 3.7 V stands beside it.
    [InlineData("10000mAh 3.7V 50Wh", "caution energy-differs?, note carriage-band 50 Wh or 37 Wh")]
    // The pack's own 145.8 Wh, or three cells' 48.6 Wh.
    [InlineData("13500mAh 10.8V", "caution carriage-band? 145.8 Wh or 48.6 Wh")]
    [InlineData("13500mAh 10.8V\nRated capacity: 8000mAh (5V⎓2A)", "caution carriage-band? 145.8 Wh or 48.6 Wh")]
    // What no way explains is still told.
    [InlineData("13500mAh 10.8V 60Wh", "caution carriage-band 145.8 Wh, caution energy-differs")]
    [InlineData("13500mAh 10.8V 48.6Wh\nRated capacity: 10000mAh (5V⎓2A)", "mismatch rated-capacity-exceeds-energy, note capacity-basis-explained, note carriage-band 48.6 Wh")]
    [InlineData("13500mAh 10.8V\nRated capacity: 30000mAh (5V⎓2A)", "mismatch rated-capacity-exceeds-energy, caution carriage-band? 145.8 Wh or 48.6 Wh")]
    public void LabelAlone_AccusesOnlyWhatNoWayExplains(string label, string expected)
    {
        IEnumerable<Finding> findings = PrintedCheck.Of(Portwitness.Labels.LabelReader.Read($"Battery: {label}"), out _);

        string.Join(", ", findings.OrderBy(static finding => finding.Severity).ThenBy(static finding => finding.Rule, StringComparer.Ordinal)
            .Select(static finding => $"{finding.Severity.ToString().ToLowerInvariant()} {finding.Rule}"
                + (finding.Verdict == Verdict.CannotTell ? "?" : "") + (finding.Rule == "carriage-band" ? $" {finding.Observed}" : ""))).Should().Be(expected);
    }

    // A log against a print that may mean two energies: no efficiency is better than a wrong one.
    [Theory]
    [InlineData("Battery: 13500mAh 10.8V", null)]
    [InlineData("Battery: 13500mAh 10.8V 48.6Wh", 48_600_000L)]
    [InlineData("Battery: 10000mAh 3.7V", 37_000_000L)]
    public void CellEnergy_IsKnownWhereThePrintMeansOne(string label, long? microwattHours) =>
        CellEnergy.Of(null, Portwitness.Labels.LabelReader.Read(label))?.MicrowattHours.Should().Be(microwattHours);

    private static string Severities(ProductAnalysis analysis, string rule) =>
        string.Join(",", analysis.Findings.Where(finding => finding.Rule == rule).Select(static finding => finding.Severity.ToString().ToLowerInvariant()));

    private static ProductAnalysis OfCells(int series, int parallel, int capacity, double volts, string label)
    {
        using ProductCheck check = ProductCheck.ForProduct(
            "product.yaml",
            string.Create(
                CultureInfo.InvariantCulture,
                $"label: \"{label.Replace("\n", "\\n", StringComparison.Ordinal)}\"\nbattery: {{cells: {{series: {series}, parallel: {parallel}, capacity_mah: {capacity}, nominal_v: {volts}}}}}\n"),
            null);
        return check.Complete();
    }
}
