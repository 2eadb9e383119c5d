using System.Globalization;
using System.Text;
using Portwitness.Analysis.Evidence;
using Portwitness.Analysis.Findings;
using Portwitness.Product.Soaks;

namespace Portwitness.Product.Tests.Soaks;

/// <summary>What is said of a soak, and what where the evidence is one step too poor. All of it is common practice: cautions.</summary>
public class SoakRuleTests
{
    private const string Meter = "accuracy: {volts: 0.1%, amps: 0.1%}, measured_at: source";
    private const string Charger = "label: \"USB-C: 5V⎓3A 20V⎓3.25A\"\n";
    private const string Pack = "label: \"USB-C: 5V⎓3A 20V⎓3.25A\\nBattery: 20000mAh 3.7V 74Wh\"\n";

    [Theory]
    [InlineData(Charger, Meter, 14.0, "Fails")] // 45.5 W are 70 % of 65 W
    [InlineData(Charger, Meter, 18.5, "CannotTell")] // 92 %: marginal
    [InlineData(Charger, Meter, 19.9, "")]
    [InlineData(Charger, "accuracy: {volts: 0.1%, amps: 0.1%}", 14.0, "CannotTell")] // a cable may take some of it
    [InlineData(Charger, Meter, 0.0, "Fails")]
    [InlineData(Pack, Meter, 0.0, "")] // a pack is empty at some time
    [InlineData("label: \"USB-C: 5V⎓3A\"\n", Meter, 14.0, "")] // nothing is printed at 20 V
    [InlineData("label: \"USB-C: 5V⎓3A 20V⎓5A\"\n", Meter, 14.0, "")] // the load drew less than is printed
    public void PrintedPower_IsHeldOrNot(string label, string meter, double volts, string verdict) =>
        Verdicts("printed-power-not-sustained", label, meter, FallsTo(volts)).Should().Be(verdict);

    // The capture begins with the log; it ends after the fall, before it, or has another list beside it.
    [Theory]
    [InlineData("{\"t\":2400000000,\"event\":\"detach\",\"port\":\"C\"}\n", "Fails")]
    [InlineData("{\"t\":900000000,\"event\":\"detach\",\"port\":\"C\"}\n", "CannotTell")]
    [InlineData("{\"t\":1079000000,\"sop\":\"SOP\",\"hex\":\"A11F2C910108\"}\n{\"t\":2400000000,\"event\":\"detach\",\"port\":\"C\"}\n", "")]
    public void SourceThatSaysNothing_IsToldFromOneThatDoes(string behind, string verdict)
    {
        using ProductCheck check = ProductCheck.ForProduct(
            "product.yaml", $"product: x\n{Charger}captures: [{{file: c.jsonl, port: C, in_use: [C]}}]\nsoaks: [{{port: C, at: 20V 3.25A, file: log.csv, with: c.jsonl, {Meter}}}]\n", null);
        check.Open("c.jsonl").Write(Encoding.UTF8.GetBytes(
            "{\"capture\":1,\"port\":\"C\"}\n{\"t\":1000,\"sop\":\"SOP\",\"hex\":\"A1212C91010845410600\"}\n" + behind));
        check.Close();
        check.OpenLog().Write(Encoding.UTF8.GetBytes(FallsTo(14)));
        check.CloseLog();

        Told("power-reduced-silently", check.Complete()).Should().Be(verdict);
    }

    [Fact]
    public void WithoutACapture_NobodyKnowsWhatWasSaid() => Verdicts("power-reduced-silently", Charger, Meter, FallsTo(14)).Should().Be("CannotTell");

    [Theory]
    [InlineData(2, "")]
    [InlineData(3, "CannotTell")]
    public void OutputThatComesBack_Cycles(int times, string verdict) => Verdicts(
        "output-cycles", Charger, Meter,
        "time (s),volts,amps\n0,20,3.25\n100,20,3.25\n" + string.Concat(Enumerable.Range(1, times).Select(static time => $"{time * 200},0,0\n{(time * 200) + 10},20,3.25\n{(time * 200) + 100},20,3.25\n")))
        .Should().Be(verdict);

    // IEC 62368-1, Table 38 (second-hand and from memory): what is held 48 °C, plastic that is touched 77 °C.
    [Theory]
    [InlineData("held", "plastic", 52, 25, "Fails")]
    [InlineData("touched", "plastic", 52, 25, "")]
    [InlineData("touched", "plastic", 76, 22, "Fails")]
    [InlineData("held", "plastic", 52, 35, "CannotTell")] // a room of 35 °C is no room of 25 °C
    [InlineData("held", "plastic", 47, 27, "")]
    public void Surface_IsHeldAgainstItsRow(string row, string material, int surface, int room, string verdict) => Verdicts(
        "touch-temperature-above-limit", Charger + $"touch: {{row: {row}, material: {material}}}\n", Meter + ", temperatures: [case, ambient]",
        $"time (s),volts,amps,case,ambient\n0,20,3.25,{surface},{room}\n300,20,3.25,{surface},{room}\n600,20,3.25,{surface},{room}\n").Should().Be(verdict);

    // 60 °C on a pack: stop (common practice, no source).
    [Theory]
    [InlineData(Pack, "CannotTell")]
    [InlineData(Charger, "")]
    public void HotPack_IsToBeLeftAlone(string label, string verdict) => Verdicts(
        "touch-temperature-above-limit", label, Meter + ", temperatures: [case]", "time (s),volts,amps,case\n0,20,3.25,61\n300,20,3.25,61\n600,20,3.25,61\n").Should().Be(verdict);

    [Fact]
    public void Rows_AreThoseOfTheTable()
    {
        TouchRow.Of("held", "metal")!.Millidegrees.Should().Be(48_000);
        TouchRow.Of("untouched", "plastic")!.Millidegrees.Should().Be(94_000);
        TouchRow.Of("worn", "wood")!.Millidegrees.Should().Be(43_000);
        TouchRow.Of("held", "cheese").Should().BeNull();
    }

    [Theory]
    [InlineData("soaks: [{port: C, file: log.csv}]", "a soak needs \"port:\"")]
    [InlineData("soaks: [{port: C, at: 20V 3A, file: ../log.csv}]", "leaves the product's folder")]
    [InlineData("soaks: [{port: C, at: 20V 3A, file: log.csv, temperature: [case]}]", "Did you mean \"temperatures\"?")]
    [InlineData("touch: {row: licked, material: plastic}", "rows are worn, held, gripped, touched, untouched")]
    public void WhatCannotBeRead_IsSaid(string member, string told) => ProductFileReader.Read($"product: x\nlabel: \"USB-C: 5V 3A\"\n{member}\n").Faults
        .Should().Contain(fault => fault.Detail.Contains(told, StringComparison.Ordinal));

    private static string FallsTo(double volts) => "time (s),volts,amps\n" + string.Concat(Enumerable.Range(0, 241).Select(row =>
        string.Create(CultureInfo.InvariantCulture, $"{row * 10},{(row < 108 ? 20 : volts)},{(row >= 108 && volts == 0 ? 0 : 3.25)}\n")));

    private static string Verdicts(string rule, string label, string meter, string log)
    {
        using ProductCheck check = ProductCheck.ForProduct("product.yaml", $"product: x\n{label}soaks: [{{port: C, at: 20V 3.25A, file: log.csv, {meter}}}]\n", null);
        check.OpenLog().Write(Encoding.UTF8.GetBytes(log));
        check.CloseLog();
        return Told(rule, check.Complete());
    }

    private static string Told(string rule, ProductAnalysis analysis)
    {
        Finding[] found = [.. analysis.Findings.Where(finding => finding.Rule == rule)];
        found.Should().NotContain(static finding => finding.Severity != Severity.Caution);
        return string.Join(",", found.Select(static finding => finding.Verdict.ToString()));
    }
}
