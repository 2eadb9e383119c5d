using Portwitness.Analysis.Evidence;

namespace Portwitness.Product.Tests.Pack;

/// <summary>Cells by size, mass and current; bands are common practice, no source, and the arithmetic is that of power, voltage and mass.</summary>
public class PackRuleTests
{
    private const string Implausible = "cell-energy-implausible";
    private const string Beyond = "cell-current-beyond-limit";

    [Theory]
    [InlineData("capacity_mah: 3500, nominal_v: 3.6, code: \"18650\", mass_g: 48", "")]
    [InlineData("capacity_mah: 9900, nominal_v: 3.7, code: \"18650\"", "2215 Wh/l")]
    [InlineData("capacity_mah: 9900, nominal_v: 3.7, mass_g: 45", "814 Wh/kg")]
    [InlineData("capacity_mah: 5000, nominal_v: 3.7, code: \"606090\"", "")]
    [InlineData("capacity_mah: 1800, nominal_v: 3.7, code: \"103450\"", "")]
    [InlineData("capacity_mah: 500, nominal_v: 3.7, size_mm: [6, 60, 90]", "57 Wh/l")]
    [InlineData("capacity_mah: 500, nominal_v: 3.7, size_mm: [6, 60, 90], mass_g: 10", "57 Wh/l")]
    public void Cell_IsHeldAgainstItsSizeAndMass(string cells, string observed) =>
        Seen($"battery: {{cells: {{{cells}}}}}", Implausible).Should().Equal(observed.Length == 0 ? [] : [observed]);

    [Theory]
    [InlineData("[200, 850]", true)]
    [InlineData("[200, 2300]", false)]
    public void Bands_AreTheUsers(string band, bool isTold) =>
        Seen($"battery: {{cells: {{capacity_mah: 9900, nominal_v: 3.7, code: \"18650\"}}, plausible: {{wh_per_litre: {band}}}}}", Implausible)
            .Should().HaveCount(isTold ? 1 : 0);

    // A label and a scale: 74 Wh in 180 g are 411 Wh/kg.
    [Theory]
    [InlineData(180, 1)]
    [InlineData(400, 0)]
    public void Product_IsHeldAgainstItsMass(int grams, int findings) =>
        Seen($"label: \"Battery: 20000mAh 3.7V 74Wh\"\nbattery: {{mass_g: {grams}}}", Implausible).Should().HaveCount(findings);

    // Without a stated capacity a cell holds its part of what is printed: 37 Wh each, of an 18650.
    [Fact]
    public void CellWithoutACapacity_IsReckonedWithThePrintedEnergy() =>
        Seen("label: \"Battery: 20000mAh 3.7V 74Wh\"\nbattery: {cells: {parallel: 2, code: \"18650\"}}", Implausible).Should().Equal("2237 Wh/l");

    [Theory]

    // 65 W / 8.4 V = 7.738 A, without a loss and full.
    [InlineData("7.7", "fails: 7.738 A")]
    [InlineData("7.8", "cannot tell: 11.775 A")]

    // 65 W / (6.0 V x 0.92) = 11.775 A.
    [InlineData("11.7", "cannot tell: 11.775 A")]
    [InlineData("11.8", "")]
    public void Discharge_IsHeldAgainstTheCells(string amperes, string told) => Told(
        $"label: \"USB-C 65W Max\"\nbattery: {{cells: {{series: 2, capacity_mah: 5000, nominal_v: 3.6, full_v: 4.2, empty_v: 3, max_discharge_a: {amperes}}}}}", Beyond)
        .Should().Equal(told.Length == 0 ? [] : [told]);

    // 7.738 A for 6 A is sure by a label that was typed, and by none that was recognised.
    [Theory]
    [InlineData("checked: true", "fails: 7.738 A")]
    [InlineData("checked: false", "cannot tell: 7.738 A")]
    public void PowerOffAPhoto_AccusesNobody(string isChecked, string told)
    {
        string photo = "level\tpage_num\tblock_num\tpar_num\tline_num\tword_num\tleft\ttop\twidth\theight\tconf\ttext\n"
            + "5\t1\t1\t1\t1\t1\t20\t30\t60\t12\t96\tUSB-C\n5\t1\t1\t1\t1\t2\t90\t30\t40\t12\t96\t65W\n5\t1\t1\t1\t1\t3\t140\t30\t40\t12\t96\tMax\n";
        using ProductCheck check = ProductCheck.ForProduct("product.yaml", $$$"""
            product: x
            label: {photo: label.jpg, {{{isChecked}}}}
            battery: {cells: {series: 2, capacity_mah: 5000, nominal_v: 3.6, full_v: 4.2, empty_v: 3, max_discharge_a: 6}}
            """, null);
        check.OpenLabel().Write(System.Text.Encoding.UTF8.GetBytes(photo));
        check.CloseLabel();

        ProductAnalysis analysis = check.Complete();

        analysis.Findings.Where(static one => one.Rule == Beyond)
            .Select(static one => $"{(one.Verdict == Verdict.Fails ? "fails" : "cannot tell")}: {one.Observed}").Should().Equal(told);
    }

    // 45 W x 0.92 / 6.0 V = 6.9 A; a charger may hold it back.
    [Theory]
    [InlineData("6.8", "cannot tell: 6.9 A")]
    [InlineData("6.9", "")]
    public void Charge_IsHeldAgainstTheCells(string amperes, string told) => Told(
        $"label: \"Input: 15V 3A\"\nbattery: {{cells: {{series: 2, capacity_mah: 5000, nominal_v: 3.6, empty_v: 3, max_charge_a: {amperes}}}}}", Beyond)
        .Should().Equal(told.Length == 0 ? [] : [told]);

    [Theory]
    [InlineData("{cells: {code: nonsense}}", "line 3, column 25: \"nonsense\" is no code")]
    [InlineData("{cells: {size_mm: [1]}}", "has two numbers")]
    [InlineData("{cells: {size_mm: [1, 2, 3, 4]}}", "has two numbers")]
    [InlineData("{cells: {size_mm: [1.234, 2]}}", "with at most two decimals")]
    [InlineData("{cells: {massg: 3}}", "Did you mean \"mass_g\"?")]
    [InlineData("{plausible: {wh_per_kg: [5, 1]}}", "has the least and the most")]
    [InlineData("{fills: [{device: handset}]}", "needs \"device:\" and \"energy_wh:\"")]
    [InlineData("{cells: {capacity_mah: 5000}}", "needs \"capacity_mah:\" and \"nominal_v:\"")]
    public void WhatCannotBeReckoned_IsSaidWithItsPlace(string battery, string told)
    {
        ProductAnalysis analysis = ProductRun.Typed($"product: x\nlabel: \"USB-C 65W Max\"\nbattery: {battery}\n");

        analysis.Faults.Should().Contain(fault => $"line {fault.Fault.Line}, column {fault.Fault.Column}: {fault.Fault.Detail}".Contains(told, StringComparison.Ordinal));
    }

    private static IEnumerable<string> Seen(string members, string rule) =>
        ProductRun.Typed($"product: x\n{members}\n").Findings.Where(one => one.Rule == rule).Select(static one => one.Observed.ToString());

    private static IEnumerable<string> Told(string members, string rule) =>
        ProductRun.Typed($"product: x\n{members}\n").Findings.Where(one => one.Rule == rule)
            .Select(static one => $"{(one.Verdict == Verdict.Fails ? "fails" : "cannot tell")}: {one.Observed}");
}
