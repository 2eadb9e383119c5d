using Portwitness.Analysis.Evidence;

namespace Portwitness.Product.Tests.Loads;

/// <summary>
/// Printed combinations that were drawn. Limits of VBUS: R3.2v1.1, Table 7.23, and 5 %. That each port has to be loaded at once is what a
/// label says that prints them together (common practice, no source).
/// </summary>
public class LoadedCombinationTests
{
    private const string Meter = "for: 10min, accuracy: {volts: 0.1%, amps: 0.2%}, measured_at: source";
    private const string Split = "USB-C: 20V⎓3A (60W Max)\nUSB-A: 5V⎓3A\nC+A: 45W+15W";
    private const string Total = "USB-C: 20V⎓3A (60W Max)\nUSB-A: 5V⎓3A\nC+A: 60W Max in total";

    [Theory]
    [InlineData(Split, "{port: C, in_use: [C, A], at: 20V 2.25A, measured: 19.9V 2.26A, M}", "{port: A, in_use: [C, A], at: 5V 3A, measured: 4.95V 3.0A, M}", Verdict.Holds)]
    [InlineData(Split, "{port: C, in_use: [A, C], at: 20V 2.25A, measured: 19.9V 2.26A, M}", "{port: A, in_use: [C, A], at: 5V 3A, measured: 4.95V 3.0A, M}", Verdict.Holds)]
    [InlineData(Split, "{port: C, in_use: [C, A], at: 20V 2.25A, measured: 19.9V 1.5A, M}", "{port: A, in_use: [C, A], at: 5V 3A, measured: 4.95V 3.0A, M}", Verdict.CannotTell)]
    [InlineData(Split, "{port: C, in_use: [C, A], at: 20V 2.25A, measured: 19.9V 2.26A, M}", "{port: A, in_use: [A], at: 5V 3A, measured: 4.95V 3.0A, M}", Verdict.CannotTell)]
    [InlineData(Total, "{port: C, in_use: [C, A], at: 20V 2.25A, measured: 19.9V 2.26A, M}", "{port: A, in_use: [C, A], at: 5V 3A, measured: 4.95V 3.0A, M}", Verdict.Holds)]
    [InlineData(Total, "{port: C, in_use: [C, A], at: 20V 2A, measured: 19.9V 2.0A, M}", "{port: A, in_use: [C, A], at: 5V 3A, measured: 4.95V 3.0A, M}", Verdict.CannotTell)]
    [InlineData(Total, "{port: C, in_use: [C, A], at: 20V 2.25A, measured: 18.9V 2.26A, M}", "{port: A, in_use: [C, A], at: 5V 3A, measured: 4.95V 3.0A, M}", Verdict.CannotTell)]
    public void LoadsAtOnce_SettleWhatIsPrintedOfPortsTogether(string label, string first, string second, Verdict verdict)
    {
        ProductAnalysis analysis = Of(label, first, second);

        analysis.Faults.Should().BeEmpty();
        Statement[] together = [.. analysis.Statements.Where(static one => one.Claim.Text().StartsWith("C+A", StringComparison.Ordinal))];
        together.Should().NotBeEmpty().And.OnlyContain(one => one.Verdict == verdict);
        together.Should().OnlyContain(one => one.NextStep.IsEmpty == (verdict != Verdict.CannotTell));
    }

    [Fact]
    public void PortThatWasNotMeasured_IsNamed()
    {
        ProductAnalysis analysis = Of(Split, "{port: C, in_use: [C, A], at: 20V 2.25A, measured: 19.9V 2.26A, M}");

        analysis.Statements.Where(static one => one.Claim.Text().StartsWith("C+A", StringComparison.Ordinal))
            .Should().OnlyContain(static one => one.Verdict == Verdict.CannotTell && one.Evidence.Text().StartsWith("A was not measured while"));
    }

    // A load beside others says nothing of the port alone.
    [Fact]
    public void LoadsAtOnce_DoNotSettleThePortAlone() =>
        Of(Split, "{port: A, in_use: [C, A], at: 5V 3A, measured: 4.95V 3.0A, M}").Statements.Single(static one => one.Claim.Text() == "A gives 5 V 3 A")
            .Verdict.Should().Be(Verdict.CannotTell);

    private static ProductAnalysis Of(string label, params string[] loads) => ProductRun.Typed(
        "label: |\n" + string.Concat(label.Split('\n').Select(static line => $"  {line}\n"))
        + "loads:\n" + string.Concat(loads.Select(static load => $"  - {load.Replace("M}", Meter + "}", StringComparison.Ordinal)}\n")));
}
