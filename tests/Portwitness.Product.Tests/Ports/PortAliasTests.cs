using System.Text;
using Portwitness.Analysis.Evidence;

namespace Portwitness.Product.Tests.Ports;

/// <summary>Names that mean one port, and names that may.</summary>
public class PortAliasTests
{
    private const string Label = "Built-in cable: 5V⎓3A 9V⎓2.22A (20W Max)";
    private const string Words = "0x0801912C 0x0002D0DE";

    [Theory]
    [InlineData("ports: {C1: {also: [Type-C2, Built-in cable]}}\n", "C1")]
    [InlineData("ports: {Built-in cable: {also: C1}}\n", "C1")]
    [InlineData("ports: {C9: {also: [C1, Built-in cable]}}\n", "Type-C1")]
    public void NamesThatAreSaidToMeanOnePort_MeanOne(string ports, string captured)
    {
        ProductAnalysis analysis = Check(ports + $"label: \"{Label}\"\ncaptures:\n  - {{file: c.words, port: {captured}, in_use: [{captured}]}}\n", Words);

        analysis.Faults.Should().BeEmpty();
        analysis.Statements.Should().HaveCount(3).And.OnlyContain(static one => one.Verdict == Verdict.Holds);
        analysis.NextSteps.Select(static step => step.Text()).Should().NotContain(static step => step.StartsWith("Is ", StringComparison.Ordinal));
    }

    // A capture's own header has names, too.
    [Fact]
    public void NamesOfAHeader_AreToldByTheLabelsName()
    {
        ProductAnalysis analysis = Check(
            $"ports: {{C1: {{also: [Built-in cable]}}}}\nlabel: \"{Label}\"\ncaptures: [c.words]\n",
            "{\"capture\":1,\"port\":\"C1\",\"in_use\":[\"C1\"]}\n{\"t\":1,\"sop\":\"SOP\",\"hex\":\"A1212C910108DED00200\"}\n");

        analysis.Faults.Should().BeEmpty();
        analysis.Statements.Should().HaveCount(3).And.OnlyContain(static one => one.Verdict == Verdict.Holds);
    }

    [Fact]
    public void NameThatMayBeAPrintedPorts_IsAskedAboutAndNotMerged()
    {
        ProductAnalysis analysis = Check($"label: \"{Label}\"\ncaptures:\n  - {{file: c.words, port: C1, in_use: [C1]}}\n", Words);

        analysis.Statements.Should().OnlyContain(static one => one.Verdict == Verdict.CannotTell);
        analysis.NextSteps[0].Text().Should().StartWith("Is C1 the port that the label calls ").And.Contain("{also: [C1]}");
    }

    [Fact]
    public void NameOfTwoPorts_IsAFault() => ProductFileReader.Read("label: \"USB-C: 5V⎓3A\"\nports: {C1: {also: [X]}, C2: {also: [x]}}\n")
        .Faults.Should().ContainSingle().Which.Detail.Should().Contain("a name of two ports");

    [Fact]
    public void CapturesAndLabels_MayBePlainNames()
    {
        ProductFile file = ProductFileReader.Read("label: {file: label.txt}\ncaptures: [c1.capture.jsonl, c2.capture.jsonl]\n");

        file.Faults.Should().BeEmpty();
        file.LabelFile.Should().Be("label.txt");
        file.Captures.Select(static one => one.File).Should().Equal("c1.capture.jsonl", "c2.capture.jsonl");
        ProductFileReader.Read("label: {fiel: label.txt}\n").Faults.Should().Contain(static fault => fault.Detail.Contains("Did you mean \"file\"?"));
        ProductFileReader.Read("label: {file: ../label.txt}\n").Faults.Should().Contain(static fault => fault.Code == ProductFaultCodes.PathLeavesFolder);
    }

    [Fact]
    public void CaptureThatCannotBeRead_IsAmongTheVerdictsReasons()
    {
        using ProductCheck check = ProductCheck.ForProduct(
            "product.yaml", "label: \"USB-C: 5V⎓3A 9V⎓2.22A (20W Max)\"\ncaptures: [{file: a, port: C, in_use: [C]}, {file: b, port: C, in_use: [C]}, {file: c, port: C}]\n", null);
        check.Open("a").Write(Encoding.UTF8.GetBytes(Words));
        check.Close();
        check.Open("b").Write("Prüfsumme"u8.ToArray());
        check.Close();
        check.Missing("c", "there is no such file");

        ProductAnalysis analysis = check.Complete();

        analysis.Verdict.Should().Be(Verdict.CannotTell);
        analysis.VerdictBasis.Should().StartWith("c, b could not be read");
        analysis.Faults.Should().Contain(static fault => fault.Fault.Detail.Contains("'Prüfsumme'"), "text is printed as it is");
    }

    private static ProductAnalysis Check(string product, string capture)
    {
        using ProductCheck check = ProductCheck.ForProduct("product.yaml", product, null);
        check.Open("c.words").Write(Encoding.UTF8.GetBytes(capture));
        check.Close();
        return check.Complete();
    }
}
