using System.Text;
using Portwitness.Analysis.Evidence;

namespace Portwitness.Product.Tests;

/// <summary>Products of which no port was captured are judged by what there is, and never hold for what nobody captured.</summary>
public class WithoutCaptureTests
{
    // The same is asked of two lines: that is one step, with both of them.
    [Fact]
    public void StepsForSeveralLines_AreOne()
    {
        ProductAnalysis analysis = ProductRun.Typed("label: |\n  USB-C1: 9V⎓3A/2OW\n  USB-C2: 9V⎓3A/2OW\n");

        string[] steps = [.. analysis.NextSteps.Select(static step => step.Text()).Where(static step => step.StartsWith("Look at line", StringComparison.Ordinal))];
        steps.Should().Equal("Look at lines 1, 2 of the label: some of their characters were taken for others; settle them with \"label_corrections:\".");
    }

    private const string Label = "label: \"USB-C: 5V⎓3A 9V⎓2.22A (20W Max)\\nBattery: 10000mAh 3.7V 37Wh\"\n";
    private const string Cells = "battery: {cells: {parallel: 2, capacity_mah: 5000, nominal_v: 3.7}}\n";
    private const string Parts = "parts: [{part: Q1, node: C, volts: 30V}]\n";

    [Theory]
    [InlineData(Label, "from label; no port was captured")]
    [InlineData(Label + Cells, "from label and cells; no port was captured")]
    [InlineData(Label + Cells + Parts, "from label, cells and parts; no port was captured")]
    [InlineData(Cells, "from cells; no port was captured, no label to compare")]
    [InlineData(Parts, "from parts; no port was captured, no label to compare")]
    [InlineData("teardown: [{ref: Q1, function: switch, identified: read}]\n", "from teardown; no port was captured, no label to compare")]
    [InlineData("ratings: {outputs: {C: 5V 3A}}\n", "from label; no port was captured")]
    [InlineData("adapter: [{at: 20V 3A, no_load_w: 0.1}]\n", "from measured adapter points; no port was captured, no label to compare")]
    public void WhatThereIs_IsJudgedAndNamed(string members, string basis)
    {
        ProductAnalysis analysis = Judge(members);

        analysis.Unusable.Should().BeFalse();
        analysis.VerdictBasis.Should().Be(basis);
        analysis.Verdict.Should().Be(Verdict.CannotTell, "nobody captured what is offered");
        analysis.NextSteps.Should().NotBeEmpty();
    }

    [Fact]
    public void WhatFails_Fails()
    {
        ProductAnalysis analysis = Judge(Label + "battery: {cells: {capacity_mah: 5000, nominal_v: 3.7}}\n");

        analysis.Verdict.Should().Be(Verdict.Fails);
        analysis.Summary().Should().Contain("mismatch cells-differ-from-label@2");
    }

    [Fact]
    public void PrintedOffers_NameThePortToCapture()
    {
        ProductAnalysis analysis = Judge(Label);

        analysis.Statements.Should().OnlyContain(static statement => statement.Verdict == Verdict.CannotTell);
        analysis.Statements.Where(static statement => statement.Port == "C").Should().NotBeEmpty().And.OnlyContain(statement => statement.NextStep.Text() == "Capture C alone.");
        analysis.NextSteps.Select(static step => step.Text()).Should().HaveCount(2).And.Contain("Capture C alone.");
    }

    [Theory]
    [InlineData("product: x\n")]
    [InlineData("product: x\nlabel: \"\"\n")]
    [InlineData("product: x\ncaptures: []\n")]
    public void NothingToJudge_CannotBeUsed(string members)
    {
        ProductAnalysis analysis = Judge(members);

        analysis.Unusable.Should().BeTrue();
        analysis.Faults.Should().ContainSingle(fault => fault.Fault.Code == ProductFaultCodes.NoCaptures);
    }

    // A capture that is named and not there is a mistake, not a product without captures.
    [Theory]
    [InlineData("captures: [{file: ../c.jsonl}]\n")]
    [InlineData("captures: [{port: C}]\n")]
    public void CapturesThatMayNotBeRead_LeaveNothingToJudge(string members) => Judge(Label + members).Unusable.Should().BeTrue();

    [Theory]
    [InlineData("0x0801912C", Verdict.Holds, "to the standard; no label to compare")]
    [InlineData("0x0801912C 0x0801912C", Verdict.Fails, "without a label to compare")]
    public void WithoutALabel_TheVerdictSaysSo(string words, Verdict verdict, string basis)
    {
        using ProductCheck check = ProductCheck.ForCapture("words", null, null, null);
        check.Open("words").Write(Encoding.UTF8.GetBytes(words));
        check.Close();
        ProductAnalysis analysis = check.Complete();

        (analysis.Verdict, analysis.VerdictBasis).Should().Be((verdict, basis));
    }

    [Fact]
    public void WithLabelAndCapture_NothingIsAdded() => ProductRun.Words("0x0801912C", "USB-C: 5V⎓3A").VerdictBasis.Should().BeEmpty();

    // A Standard-A receptacle has no CC line (USB Type-C R2.0, 2.2): USB PD cannot be captured there.
    [Fact]
    public void PortWithoutCcLine_IsToBeMeasured()
    {
        ProductAnalysis analysis = Judge("label: \"USB-C: 5V⎓3A\\nUSB-A: 5V⎓2.4A\\nC+A: 5V⎓3A total\"\n");

        analysis.NextSteps.Should().Contain(
            "Measure A alone, under its printed loads, and write what was read under \"loads:\", or what it answers to under \"signalling:\"; it has no CC line to capture.")
            .And.NotContain(static step => step.Contains("Capture A", StringComparison.Ordinal) || step.Contains("capture all of them", StringComparison.Ordinal));
        analysis.Statements.Single(static statement => statement.Claim.Text() == "A gives 5 V 2.4 A").Evidence.Should().Be("A has no CC line, on which USB PD is captured");
    }

    [Theory]
    [InlineData("pack", "State \"series:\" and \"full_v:\" of the cells")]
    [InlineData("mains", "Hold the ratings of Q1 against the highest voltage and current of \"mains\" by hand")]
    [InlineData("U7", "Hold the ratings of Q1 against the highest voltage and current of \"U7\" by hand")]
    [InlineData("bridge", "Capture")]
    [InlineData("C", "Capture C alone.")]
    public void PartOnNoPort_IsNotToBeCaptured(string node, string begin)
    {
        ProductAnalysis analysis = Judge($"{Label}parts: [{{part: Q1, node: {node}, volts: 1V}}]\n");

        string step = analysis.Findings.Single(static finding => finding.Rule == "part-rating-exceeded").NextStep.Text();
        step.Should().StartWith(begin);
    }

    [Fact]
    public void LabelInAFile_IsReadBeforeTheCaptures()
    {
        using ProductCheck check = ProductCheck.ForProduct("product.yaml", "label: \"@labels/th.txt\"\ncaptures:\n  - {file: c.words}\n", null);
        check.LabelFile.Should().Be("labels/th.txt");
        check.OpenLabel().Write(Encoding.UTF8.GetBytes("\uFEFFUSB-C: 5V⎓3A (15W Max)"));
        check.CloseLabel();
        check.Open("c.words").Write("0x0801912C"u8.ToArray());
        check.Close();
        ProductAnalysis analysis = check.Complete();

        analysis.Label!.Text.Should().Be("USB-C: 5V⎓3A (15W Max)");
        analysis.Captures.Single().Port.Should().Be("C");
        analysis.Faults.Should().BeEmpty();
    }

    [Theory]
    [InlineData(new byte[] { 0x43, 0xFF }, "byte 2 is not UTF-8; save the file as UTF-8")]
    [InlineData(new byte[0], "it is empty")]
    public void LabelFileThatCannotBeRead_IsAFault(byte[] content, string reason)
    {
        using ProductCheck check = ProductCheck.ForProduct("product.yaml", "label: \"@label.txt\"\n", null);
        check.OpenLabel().Write(content);
        check.CloseLabel();

        check.Complete().Faults.Should().ContainSingle().Which.Fault.Detail.Should().Be($"the label \"label.txt\" could not be read: {reason}");
    }

    [Fact]
    public void LabelFileLongerThanAnyLabel_IsAFault()
    {
        using ProductCheck check = ProductCheck.ForProduct("product.yaml", "label: \"@label.txt\"\n", null);
        LabelIntake intake = check.OpenLabel();
        for (int piece = 0; piece < 2 * Portwitness.Labels.LabelLimits.MaxBytes / 1000; piece++)
        {
            intake.Write(new byte[1000]);
        }

        check.CloseLabel();

        check.Complete().Faults.Should().ContainSingle().Which.Fault.Detail.Should().Contain("it is longer than a label");
    }

    [Theory]
    [InlineData("label: label.txt", "label-is-path", "write label: \"@label.txt\"")]
    [InlineData("label: labels/th-65.TXT", "label-is-path", "write label: \"@labels/th-65.TXT\"")]
    [InlineData("label: \"@../label.txt\"", "path-leaves-folder", "leaves the product's folder")]
    [InlineData("label: \"@/etc/label.txt\"", "path-leaves-folder", "leaves the product's folder")]
    [InlineData("label: @label.txt", "product-file-unreadable", "Write a value that begins with @ in quotes")]
    public void LabelThatNamesAFile_SaysHowToNameIt(string text, string code, string remedy) => ProductFileReader.Read(text).Faults
        .Should().ContainSingle(fault => fault.Code == code).Which.Detail.Should().Contain(remedy);

    // Printed words, however short, are no file's name.
    [Theory]
    [InlineData("5V.DC")]
    [InlineData("USB-C:5V3A")]
    [InlineData("12V⎓1.5A")]
    public void PrintedWord_IsNoFile(string label) => ProductFileReader.Read($"label: \"{label}\"").Label.Should().Be(label);

    private static ProductAnalysis Judge(string members)
    {
        using ProductCheck check = ProductCheck.ForProduct("product.yaml", members, null);
        return check.Complete();
    }
}
