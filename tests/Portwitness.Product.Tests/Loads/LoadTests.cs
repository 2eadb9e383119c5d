using System.Text;
using Portwitness.Analysis.Evidence;

namespace Portwitness.Product.Tests.Loads;

/// <summary>
/// Ports that were loaded. Limits: vSafe5V 4.75 V to 5.5 V (R3.2v1.1, Table 7.23) and 5 % of other voltages; what a meter may be off is what
/// its maker states, or 1 % and more where nothing is stated (common practice, no source).
/// </summary>
public class LoadTests
{
    private const string Label = "USB-A: 5V⎓3A";

    [Theory]
    [InlineData("measured: 4.92V 3.00A, for: 10min, accuracy: {volts: 0.1%, amps: 0.2%}, measured_at: source", Verdict.Holds)]
    [InlineData("measured: 4.92V 3.00A, accuracy: {volts: 0.1%, amps: 0.2%}", Verdict.Holds)] // for how long is not stated
    [InlineData("measured: 4.92V 2.995A, for: 10min, accuracy: {volts: 0.1%, amps: 0.2%}", Verdict.Holds)] // as far as the meter can tell
    [InlineData("measured: 5.45V 3.00A, for: 10min, accuracy: {volts: 0.1%, amps: 0.2%}", Verdict.Holds)]
    [InlineData("measured: 4.60V 3.00A, for: 10min, accuracy: {volts: 0.1%, amps: 0.2%}, measured_at: source", Verdict.Fails)]
    [InlineData("measured: 5.60V 3.00A, for: 10min, accuracy: {volts: 0.1%, amps: 0.2%}", Verdict.Fails)]
    [InlineData("measured: 4.60V 3.00A, for: 10min, accuracy: {volts: 0.1%, amps: 0.2%}", Verdict.CannotTell)] // a cable may take it
    [InlineData("measured: 4.752V 3.00A, for: 10min, accuracy: {volts: 0.1%, amps: 0.2%}, measured_at: source", Verdict.Holds)] // by simple acceptance
    [InlineData("measured: 4.748V 3.00A, for: 10min, accuracy: {volts: 0.1%, amps: 0.2%}, measured_at: source", Verdict.CannotTell)]
    [InlineData("measured: 4.78V 3.00A, for: 10min, measured_at: source", Verdict.CannotTell)] // of a meter of which nothing is stated
    [InlineData("measured: 4.92V 2.40A, for: 10min, accuracy: {volts: 0.1%, amps: 0.2%}", Verdict.CannotTell)] // less than printed
    [InlineData("measured: 4.92V 3.00A, for: 2s, accuracy: {volts: 0.1%, amps: 0.2%}", Verdict.CannotTell)]
    [InlineData("measured: 4.60V 3.50A, for: 10min, accuracy: {volts: 0.1%, amps: 0.2%}, measured_at: source", Verdict.CannotTell)] // more than printed
    public void ReadingOfAPort_SettlesItsPrintedMode(string reading, Verdict verdict)
    {
        ProductAnalysis analysis = ProductRun.Typed($"label: \"{Label}\"\nloads:\n  - {{port: A, at: 5V 3A, {reading}}}\n");

        analysis.Faults.Should().BeEmpty();
        Statement statement = analysis.Statements.Single();
        statement.Verdict.Should().Be(verdict);
        analysis.Verdict.Should().Be(verdict);
        statement.NextStep.IsEmpty.Should().Be(verdict != Verdict.CannotTell);
        analysis.NextSteps.Select(static step => step.Text()).Should().NotContain(static step => step.Contains("Capture A", StringComparison.Ordinal));
    }

    [Theory]
    [InlineData("4.95", "4.93", Verdict.Holds)]
    [InlineData("4.95", "4.60", Verdict.Fails)]
    [InlineData("4.76", "4.752", Verdict.Holds)] // by simple acceptance
    [InlineData("4.748", "4.748", Verdict.CannotTell)]
    public void LogOfALoad_SettlesIt(string volts, string later, Verdict verdict)
    {
        ProductAnalysis analysis = WithLog(
            "label: \"USB-A: 5V⎓3A\"\nloads:\n  - {port: A, at: 5V 3A, file: a.csv, accuracy: {volts: 0.1%, amps: 0.2%}, measured_at: source, longest_step: 1h}\n",
            $"time (s),volts (V),amps (A)\n0,5.1,3\n10,{volts},3\n600,{later},3\n1200,{later},3\n");

        analysis.Statements.Single().Verdict.Should().Be(verdict);
        analysis.Verdict.Should().Be(verdict);
    }

    // A log of a load need not begin with a full pack, and says nothing of the capacity.
    [Fact]
    public void LogOfALoad_IsNoDischarge() => WithLog(
        "label: \"USB-A: 5V⎓3A\\nRated capacity: 6000mAh 5V⎓3A\"\nloads:\n  - {port: A, at: 5V 3A, file: a.csv, accuracy: {volts: 0.1%, amps: 0.2%}, longest_step: 1h}\n",
        "time (s),volts (V),amps (A)\n0,5,3\n600,5,3\n1200,0.1,0\n").Findings.Should().NotContain(static one => one.Rule == "measured-capacity-below-rated");

    [Fact]
    public void PrintedPower_HoldsByTheDrawnCurrent()
    {
        ProductAnalysis analysis = ProductRun.Typed(
            "label: \"USB-A: 5V⎓3A 9V⎓2A (18W Max)\"\nloads:\n  - {port: A, at: 5V 3A, measured: 5.02V 3A, for: 10min}\n  - {port: A, at: 9V 2A, measured: 8.97V 2A, for: 10min}\n");

        analysis.Statements.Should().HaveCount(3).And.OnlyContain(static one => one.Verdict == Verdict.Holds);
        analysis.Verdict.Should().Be(Verdict.Holds);
    }

    // Beside others a port may give less; that says nothing of what is printed for it alone.
    [Fact]
    public void LoadBesideOthers_IsNotTakenForOneAlone() => ProductRun.Typed(
        "label: \"USB-A: 5V⎓3A\"\nloads:\n  - {port: A, in_use: [A, C], at: 5V 3A, measured: 5.02V 3A, for: 10min}\n").Statements.Single().Verdict.Should().Be(Verdict.CannotTell);

    [Fact]
    public void PortWithoutACcLine_IsToBeMeasured()
    {
        ProductAnalysis analysis = ProductRun.Typed($"label: \"{Label}\"\n");

        analysis.NextSteps.Select(static step => step.Text()).Should().ContainSingle(static step => step.Contains("\"loads:\"", StringComparison.Ordinal))
            .Which.Should().StartWith("Measure A alone");
    }

    [Theory]
    [InlineData("{port: A, at: 5V 3A}", "a load needs")]
    [InlineData("{at: 5V 3A, measured: 5V 3A}", "a load needs")]
    [InlineData("{port: A, at: 5V 3A, measured: 5V 3A, file: a.csv}", "a load needs")]
    [InlineData("{port: A, at: 5V 3A, measured: 5V}", "4.92V 3.00A")]
    [InlineData("{port: A, at: 5V 3A, measured: 5V 3A, for: long}", "10min")]
    [InlineData("{port: A, at: 5V 3A, measured: 5V 3A, mesured: 5V 3A}", "Did you mean \"measured\"?")]
    [InlineData("{port: A, at: 5V 3A, file: ../a.csv}", "leaves the product's folder")]
    public void WhatIsWrongWithALoad_IsNamed(string load, string says) =>
        ProductFileReader.Read($"label: \"{Label}\"\nloads:\n  - {load}\n").Faults.Should().Contain(fault => fault.Line == 3 && fault.Detail.Contains(says));

    private static ProductAnalysis WithLog(string product, string log)
    {
        using ProductCheck check = ProductCheck.ForProduct("product.yaml", product, edition: null);
        check.OpenLog().Write(Encoding.UTF8.GetBytes(log));
        check.CloseLog();
        return check.Complete();
    }
}
