using Portwitness.Contracts.V1;
using Portwitness.Reports.Comparing;
using Portwitness.Reports.Text;

namespace Portwitness.Reports.Tests;

/// <summary>What of a published report changes, and why, as far as both reports show it.</summary>
public sealed class ErrataReaderTests
{
    [Fact]
    public void SameReport_HasNone()
    {
        Errata errata = ErrataReader.Read(Report(), Report());

        errata.Entries.Should().BeEmpty();
        errata.Changes.Should().BeEmpty();
        errata.Unchanged.Should().Be(2);
    }

    // What only the new report captured is no less a change.
    [Fact]
    public void NewCapture_IsTheReason()
    {
        ProductReport after = Report();
        after.Statements[1].Verdict = Verdict.Fails;
        after.Statements[1].Evidence = "the largest offer is 20 W (c2.jsonl, message 1)";
        after.Findings.Add(new Finding { Rule = "printed-power-exceeds-advertised", Severity = Severity.Mismatch, Port = "C2", LabelLine = 3, Detail = "Printed: 30 W." });
        after.Ports.Add(new PortReport { Port = "C2", Arrangements = { new ArrangementReport { File = "c2.jsonl", LabelPort = "C2", InUse = { "C2" } } } });
        after.Inputs.Add(new JudgedFile { File = "c2.jsonl", Sha256 = "c" });

        Entries(Report(), after).Should().Equal(
            "changed C2 gives up to 30 W: CANNOT TELL -> FAILS, because c2.jsonl is new",
            "added printed-power-exceeds-advertised:  -> mismatch, because c2.jsonl is new");
    }

    [Fact]
    public void LabelLineThatReadsOtherwise_IsTheReason()
    {
        ProductReport after = Report();
        after.Label.Text = "Tarnholt\nUSB-C1: 9V 3A\nUSB-C2: 20W Max";
        after.Statements[1].Claim = "C2 gives up to 20 W";

        Entries(Report(), after).Should().Equal(
            "gone C2 gives up to 30 W: CANNOT TELL -> , because line 3 of the label was \"USB-C2: 30W Max\" and is \"USB-C2: 20W Max\"",
            "added C2 gives up to 20 W:  -> CANNOT TELL, because line 3 of the label was \"USB-C2: 30W Max\" and is \"USB-C2: 20W Max\"");
    }

    [Fact]
    public void OtherRule_IsTheReasonWhereNoFileIs()
    {
        ProductReport after = Report();
        (after.DecisionRule, after.ToolVersion) = ("guarded", "2.0.0");
        after.Statements[0].Verdict = Verdict.CannotTell;

        Entries(Report(), after).Should().Equal(
            "changed C1 gives 9 V 3 A: HOLDS -> CANNOT TELL, because readings near a limit were decided by simple acceptance, and are by guarded acceptance; "
            + "version 1.0.0 of the tool judged, and now version 2.0.0");
    }

    [Fact]
    public void WhatNothingExplains_IsSaid()
    {
        ProductReport after = Report();
        after.Statements[0].Verdict = Verdict.Fails;

        Entries(Report(), after).Should().Equal("changed C1 gives 9 V 3 A: HOLDS -> FAILS, because nothing that the reports show explains it");
    }

    [Fact]
    public void Text_CanBePublished()
    {
        ProductReport after = Report();
        after.Statements[0].Verdict = Verdict.Fails;
        after.Verdict = Verdict.Fails;
        StringWriter writer = new();
        ErrataText.Write(writer, ErrataReader.Read(Report(), after), TextStyle.Plain);

        writer.ToString().Should().Contain("The verdict was CANNOT TELL and is FAILS. 1 printed statement changes; 1 stay as they were.").And.Contain("  - Line 2: C1 gives 9 V 3 A was HOLDS, is FAILS.");
    }

    private static string[] Entries(ProductReport before, ProductReport after) => [.. ErrataReader.Read(before, after).Entries
        .Select(static one => $"{one.Change} {one.About}: {one.Before} -> {one.After}, because {string.Join("; ", one.Reasons)}")];

    private static ProductReport Report() => new()
    {
        Product = "Tarnholt TH-30", Verdict = Verdict.CannotTell, DecisionRule = "simple", ToolVersion = "1.0.0", Label = new Label { Text = "Tarnholt\nUSB-C1: 9V 3A\nUSB-C2: 30W Max" },
        Statements =
        {
            new Statement { Port = "C1", Claim = "C1 gives 9 V 3 A", LabelLine = 2, Verdict = Verdict.Holds, Evidence = "object 2 (c1.jsonl, message 1)" },
            new Statement { Port = "C2", Claim = "C2 gives up to 30 W", LabelLine = 3, Verdict = Verdict.CannotTell, Evidence = "not captured: C2 alone" },
        },
        Ports = { new PortReport { Port = "C1", Arrangements = { new ArrangementReport { File = "c1.jsonl", LabelPort = "C1", InUse = { "C1" } } } } },
        Inputs = { new JudgedFile { File = "product.yaml", Sha256 = "a" }, new JudgedFile { File = "c1.jsonl", Sha256 = "b" } },
    };
}
