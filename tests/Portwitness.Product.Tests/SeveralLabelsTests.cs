using System.Text;
using Portwitness.Analysis.Evidence;
using Portwitness.Analysis.Findings;

namespace Portwitness.Product.Tests;

/// <summary>Several labels of one product, held against each other and each against the evidence. What disagrees is plain reading; no source.</summary>
public class SeveralLabelsTests
{
    private const string Watts65 = "0x0801912C 0x0002D12C 0x0004B12C 0x00064145";

    [Theory]
    [InlineData("USB-C: 65W Max", "USB-C: 65W Max", "")]
    [InlineData("USB-C: 65W Max", "USB-C: 60W Max", "Fails front 1 leaflet 1")]
    [InlineData("Model X\nUSB-C: 65W Max", "USB-C: 5V⎓3A 20V⎓5A", "Fails front 2 leaflet 1")]
    [InlineData("USB-C: 65W Max", "USB-C: 5V⎓3A 20V⎓3.25A", "")]
    [InlineData("USB-C: 5V⎓3A 9V⎓3A", "USB-C: 5V⎓3A 9V⎓2A", "Fails front 1 leaflet 1")]
    [InlineData("USB-C: 5V⎓3A 9V⎓2.22A", "USB-C: 5V⎓3A 9V⎓2.2A", "")]
    [InlineData("USB-C: 5V⎓3A 9V⎓3A", "USB-C: 5V⎓3A", "Fails front 1 leaflet 1")]
    [InlineData("USB-C: 5V⎓3A", "USB-C: 5V⎓3A, PPS 3.3-11V⎓3A", "")]
    [InlineData("USB-C: PPS 3.3-11V⎓3A", "USB-C: PPS 3.3-11V⎓5A", "Fails front 1 leaflet 1")]
    [InlineData("USB-C: PPS 3.3-11V⎓5A, 3.3-21V⎓3A", "USB-C: PPS 3.3-21V⎓3A, 3.3-11V⎓5A", "")]
    [InlineData("Output: 5V⎓3A", "USB-C: 5V⎓3A", "")]
    [InlineData("Output: 5V⎓3A", "USB-C: 5V⎓2A", "Fails front 1 leaflet 1")]
    [InlineData("Output: 5V⎓3A", "C1: 5V⎓2A\nC2: 5V⎓2A", "")]
    [InlineData("C1: 65W\nC2: 30W\nC1+C2: 45W+20W", "C1: 65W\nC2: 30W\nC2+C1: 20W+45W", "")]
    [InlineData("C1: 65W\nC2: 30W\nC1+C2: 45W+20W", "C1: 65W\nC2: 30W\nC1+C2: 45W+15W", "Fails front 3 leaflet 3")]
    [InlineData("C1: 65W\nC2: 30W\nTotal: 65W", "C1: 65W\nC2: 30W\nTotal: 75W", "Fails front 3 leaflet 3")]
    [InlineData("C1: 65W\nC2: 30W", "C1: 65W", "CannotTell front 2 leaflet 1")]
    [InlineData("Battery: 10000mAh 3.7V 37Wh", "Battery: 10000mAh 3.7V 38.5Wh", "Fails front 1 leaflet 1")]
    [InlineData("Rated capacity: 6000mAh (5V⎓2A)", "Rated capacity: 6400mAh (5V⎓2A)", "Fails front 1 leaflet 1")]
    [InlineData("Battery: 10000mAh 3.7V 37Wh\nRated capacity: 6000mAh (5V⎓2A)", "Battery: 10000mAh 3.7V 37Wh\nRated capacity: 3200mAh (9V⎓2A)", "")]
    [InlineData("Input: 100-240V~ 50/60Hz 1.5A\nUSB-C: 65W", "Input: 100-240V~ 50/60Hz 1.8A\nUSB-C: 65W", "Fails front 1 leaflet 1")]
    // A character that was guessed accuses nobody.
    [InlineData("USB-C: 5V⎓3A 9V⎓3A", "USB-C: 5V⎓3A 9V⎓2.O A", "CannotTell front 1 leaflet 1")]
    public void Labels_AreHeldAgainstEachOther(string front, string leaflet, string expected)
    {
        ProductAnalysis analysis = ProductRun.Typed(Labels(front, leaflet));

        string.Join("; ", analysis.Findings.Where(static finding => finding.Rule == "labels-disagree")
            .Select(static finding => $"{finding.Verdict} {finding.Label} {finding.LabelLine} {finding.OtherLabel} {finding.OtherLabelLine}")).Should().Be(expected);
        analysis.Verdict.Should().Be(expected.StartsWith("Fails", StringComparison.Ordinal) ? Verdict.Fails : Verdict.CannotTell);
    }

    [Fact]
    public void EachLabel_IsHeldAgainstTheControllers()
    {
        ProductAnalysis analysis = ProductRun.Typed(
            "labels:\n  - {name: front, label: \"C1: 65W\\nA: 18W\"}\n  - {name: leaflet, label: \"C1: 100W\\nA: 18W\"}\nparts:\n"
            + "  - {part: U1, kind: controller, watts: 65, ports: [C1]}\n  - {part: U2, kind: controller, watts: 18, ports: [A]}\n");

        analysis.Findings.Where(static finding => finding.Rule == "label-beyond-controller").Should().ContainSingle()
            .Which.Should().Match<Finding>(static finding => finding.Label == "leaflet" && finding.LabelLine == 1);
    }

    // Both labels are held against the capture: 65 W is offered, 60 W is printed in the leaflet.
    [Fact]
    public void EachLabel_IsHeldAgainstTheEvidence()
    {
        using ProductCheck check = ProductCheck.ForProduct(
            "product.yaml",
            "labels:\n  - {name: front, label: \"USB-C: 65W Max\"}\n  - {name: leaflet, file: leaflet.txt}\ncaptures:\n  - {file: c, port: C, in_use: [C]}\n", null);
        check.LabelFile.Should().Be("leaflet.txt");
        check.OpenLabel().Write("USB-C: 60W Max"u8);
        check.CloseLabel();
        check.LabelFile.Should().BeNull();
        check.Open("c").Write(Encoding.UTF8.GetBytes(Watts65));
        check.Close();
        ProductAnalysis analysis = check.Complete();

        analysis.LabelName.Should().Be("front");
        analysis.Statements.Should().ContainSingle().Which.Verdict.Should().Be(Verdict.Holds);
        JudgedLabel leaflet = analysis.FurtherLabels.Should().ContainSingle().Subject;
        leaflet.Statements.Should().ContainSingle().Which.Verdict.Should().Be(Verdict.Fails);
        Finding more = analysis.Findings.Should().ContainSingle(static finding => finding.Rule == "advertised-power-exceeds-printed").Subject;
        (more.Label, more.LabelLine).Should().Be(("leaflet", 1));
        analysis.Findings.Should().ContainSingle(static finding => finding.Rule == "labels-disagree").Which.Detail.ToString().Should()
            .Be("front, line 1: C gives up to 65 W; leaflet, line 1: C gives up to 60 W.");
    }

    // Common practice, no source: the same port is "Left" on the housing and "Port 1" in the leaflet.
    [Theory]
    [InlineData("USB-C1: 65W\nUSB-C2: 30W", "USB-C1: 65W\nUSB-C3: 30W", "Is C3 of leaflet the port that front calls C2?")]
    [InlineData("USB-C: 65W\nUSB-A: 18W", "USB-C: 65W\nUSB1: 18W", "Is USB1 of leaflet the port that front calls A?")]
    [InlineData("USB-C: 65W\nUSB-A: 18W", "USB-C: 65W", "")]
    [InlineData("USB-C1: 65W\nUSB-C2: 30W", "USB-C2: 30W\nUSB-C1: 65W", "")]
    public void NamesThatMayMeanOnePort_AreAskedAbout(string front, string leaflet, string question)
    {
        ProductAnalysis analysis = ProductRun.Typed(Labels(front, leaflet));

        string.Join("; ", analysis.NextSteps.Select(static step => step.ToString()).Where(static step => step.StartsWith("Is ", StringComparison.Ordinal))
            .Select(static step => step[..(step.IndexOf('?', StringComparison.Ordinal) + 1)])).Should().Be(question);
    }

    [Fact]
    public void NamesThatMeanOnePort_AreOnePortOfAllLabels()
    {
        string labels = Labels("USB-C: 65W\nUSB-A: 18W\nUSB-C+USB-A: 45W+18W", "USB-C: 65W\nUSB1: 12W\nUSB-C+USB1: 30W+18W");
        ProductAnalysis open = ProductRun.Typed(labels);
        ProductAnalysis settled = ProductRun.Typed($"{labels}ports:\n  A: {{also: [USB1]}}\n");

        open.Findings.Where(static one => one.Rule == "labels-disagree").Should().OnlyContain(static one => one.Verdict == Verdict.CannotTell);
        settled.Findings.Where(static one => one.Rule == "labels-disagree" && one.Verdict == Verdict.Fails).Select(static one => one.LabelLine).Should().Equal(2, 3);
        settled.NextSteps.Should().NotContain(static step => step.ToString().StartsWith("Is ", StringComparison.Ordinal));
    }

    [Fact]
    public void LabelMember_GoesBeforeTheOthers()
    {
        ProductAnalysis analysis = ProductRun.Typed("label: \"USB-C: 65W Max\"\nlabels:\n  - {name: box, label: \"USB-C: 65W Max\"}\n");

        (analysis.LabelName, analysis.FurtherLabels.Single().Name).Should().Be(("label", "box"));
        analysis.Findings.Should().NotContain(static finding => finding.Rule == "labels-disagree");
    }

    [Fact]
    public void MissingFile_OpensTheVerdictAndTheOthersAreJudged()
    {
        using ProductCheck check = ProductCheck.ForProduct("product.yaml", "labels:\n  - {name: front, file: a.txt}\n  - {name: back, file: b.txt}\n", null);
        check.LabelFiles.Should().Equal("a.txt", "b.txt");
        check.MissingLabel("it is not there");
        check.OpenLabel().Write("USB-C: 65W Max"u8);
        check.CloseLabel();
        ProductAnalysis analysis = check.Complete();

        analysis.Faults.Should().ContainSingle().Which.Fault.Detail.Should().Be("the label \"a.txt\" could not be read: it is not there");
        analysis.Label.Should().BeNull();
        analysis.FurtherLabels.Should().ContainSingle().Which.Statements.Should().ContainSingle().Which.Verdict.Should().Be(Verdict.CannotTell);
    }

    [Theory]
    [InlineData("{label: x}", "a label needs its name")]
    [InlineData("{name: front}", "a label needs its name, and its text or its file")]
    [InlineData("{name: front, file: ../x.txt}", "leaves the product's folder")]
    [InlineData("{name: front, label: x, file: y.txt}", "keep one of them")]
    [InlineData("{name: front, label: x}\n  - {name: front, label: y}", "two labels are named \"front\"")]
    [InlineData("{name: front, lable: x}", "\"label\"")]
    public void WrongLabels_AreFaultsWithTheirPlace(string labels, string says) =>
        ProductFileReader.Read($"labels:\n  - {labels}\n").Faults.Should().Contain(fault => fault.Detail.Contains(says, StringComparison.Ordinal) && fault.Line >= 2);

    private static string Labels(string front, string leaflet) =>
        $"labels:\n  - {{name: front, label: \"{Quoted(front)}\"}}\n  - {{name: leaflet, label: \"{Quoted(leaflet)}\"}}\n";

    private static string Quoted(string label) => label.Replace("\n", "\\n", StringComparison.Ordinal);
}
