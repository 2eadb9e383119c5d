using Portwitness.Analysis.Findings;

namespace Portwitness.Product.Tests;

/// <summary>A captured port that the label does not name is told, and never taken for one that is named alike.</summary>
public class PortNameTests
{
    private const string Label = "USB-C1: 27W Max\nUSB-C2: 18W Max";

    [Theory]
    [InlineData("C1", "")]
    [InlineData("USB-C1", "")]
    [InlineData("Typ-C1", "")]
    [InlineData("C", "Did you mean C1 or C2? Then name it as the port of c0.")]
    [InlineData("C1a", "Did you mean C1? Then name it as the port of c0.")]
    [InlineData("front", "Did you mean C1 or C2? Then name it as the port of c0.")]
    public void PortThatIsNotNamed_IsAskedFor(string port, string asked)
    {
        ProductAnalysis analysis = ProductRun.Several(Label, [(port, port, "0x0801912C 0x0002D12C")]);

        Finding? note = analysis.Findings.FirstOrDefault(static finding => finding.Rule == "port-not-on-label");
        (note?.NextStep.ToString() ?? "").Should().Be(asked);
        analysis.Statements.Count(static one => !one.Evidence.ToString()!.StartsWith("not captured", StringComparison.Ordinal)).Should().Be(asked.Length == 0 ? 1 : 0);
    }

    [Fact]
    public void LabelWithoutPortNames_AsksNothing() => ProductRun.Several("Output: 5V⎓3A", [("C1", "C1", "0x0801912C")])
        .Findings.Should().NotContain(static finding => finding.Rule == "port-not-on-label");
}
