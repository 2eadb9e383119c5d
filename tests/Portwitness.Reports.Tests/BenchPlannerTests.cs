using Portwitness.Contracts.V1;
using Portwitness.Reports.Markdown;
using Portwitness.Reports.Planning;
using Portwitness.Reports.Text;

namespace Portwitness.Reports.Tests;

/// <summary>A plan has what the label prints, and ticks off what the report shows. Times: arithmetic with usual losses (common practice, no source).</summary>
public sealed class BenchPlannerTests
{
    [Fact]
    public void LabelAlone_IsPlannedInOrder() => Steps(Pack()).Should().Equal(
        "label  done", "measures  open", "capture C1 open", "signalling A open", "load C1 open", "load A open", "together C1,A open", "together A,C1 open", "load together C1,A open",
        "sustain C1 open", "discharge  open", "charge C1 open", "charge C1 open");

    // 74 Wh at 45 W with k 1.47 and 88 %: 74 / 45 x 1.67 = 2.75 h. 88 % of 74 Wh at 5 V 3 A: 4.34 h; at 65 W 1 h, which is the hour.
    [Fact]
    public void Times_AreReckonedFromEnergyAndPower()
    {
        BenchPlan plan = BenchPlanner.Of(Pack());

        plan.Steps.Where(static step => step.Kind is "discharge" or "charge" or "sustain").Select(static step => Math.Round(step.TimeUs / 3_600_000_000m, 2))
            .Should().Equal(1.00m, 4.34m, 2.75m, 4.58m);
        plan.LeftUs.Should().Be(plan.TotalUs - (5 * 60_000_000), "the label is there");
    }

    [Fact]
    public void WhatTheFilesShow_IsTickedOff()
    {
        ProductReport report = Pack();
        report.Arrangements.Add(new PortInArrangement { Port = "C1", InUse = { "C1" }, AttachOrderKnown = true, File = "c1.jsonl" });
        report.Arrangements.Add(new PortInArrangement { Port = "C1", InUse = { "C1", "A" }, AttachOrderKnown = true, File = "c1a.jsonl" });
        report.Loads.Add(new LoadedPort { Port = "C1", InUse = { "C1" }, AtMv = 20_000, MeasuredUv = 19_900_000, MeasuredUa = 3_240_000, ForUs = 600_000_000, File = "c1.csv" });
        report.Loads.Add(new LoadedPort { Port = "A", InUse = { "A" }, AtMv = 5_000, MeasuredUv = 4_900_000, MeasuredUa = 3_000_000, ForUs = 600_000_000 });

        // Two seconds, and half the current, are no load.
        report.Loads.Add(new LoadedPort { Port = "C1", InUse = { "C1" }, AtMv = 9_000, MeasuredUv = 9_000_000, MeasuredUa = 3_000_000, ForUs = 2_000_000, File = "short.csv" });
        report.Loads.Add(new LoadedPort { Port = "C1", InUse = { "C1" }, AtMv = 5_000, MeasuredUv = 5_000_000, MeasuredUa = 1_500_000, ForUs = 600_000_000, File = "half.csv" });
        report.PowerLogs.Add(new PowerLog { File = "out.csv", Kind = "discharge", At = "5 V 3 A", End = "output off" });
        report.PowerLogs.Add(new PowerLog { File = "in.csv", Kind = "charge", At = "20 V 2.25 A", Port = "C1" });

        BenchPlan plan = BenchPlanner.Of(report);

        Steps(report).Should().Equal(
            "label  done", "measures  open", "capture C1 done", "signalling A open", "load C1 partly", "load A done", "together C1,A done", "together A,C1 open", "load together C1,A open",
            "sustain C1 open", "discharge  done", "charge C1 done", "charge C1 open");
        plan.Steps.Single(static step => step.Kind == "load" && step.State == "partly").Evidence.Should().Be("c1.csv; missing 5 V 3 A, 9 V 3 A");
    }

    [Fact]
    public void OpenedProduct_IsTooLateForSome()
    {
        ProductReport report = Pack();
        report.Opened = "2026-11-20";

        Steps(report).Where(static step => step.EndsWith("too late", StringComparison.Ordinal)).Should().Equal("measures  too late", "sustain C1 too late");
        Written(report).Should().Contain("It was opened on 2026-11-20");
    }

    [Fact]
    public void UnreadLines_AreNotPlanned()
    {
        ProductReport report = Pack();
        report.Label.Unread.Add(new UnreadSpan { Line = 7, Text = "C1+C2+A: 45W+15W", MayRate = true });

        BenchPlanner.Of(report).UnreadLines.Should().Equal(7);
        Steps(report)[0].Should().Be("label  partly");
        Written(report).Should().Contain("Unread are line 7 of the label; nothing is planned for what stands there.");
    }

    [Fact]
    public void WithoutALabel_TheLabelIsThePlan() => Steps(new ProductReport { Product = "x" }).Should().Equal("label  open");

    // Mains supplies are no packs: no mass, no discharge.
    [Fact]
    public void Charger_IsMeasuredAtTheMains()
    {
        ProductReport report = new() { Product = "x", Label = new Label { Outputs = { Output("C1", (20_000, 5_000)) }, Inputs = { new PrintedInput { Alternating = true, Line = 1 } } } };

        Steps(report).Should().Equal("label  done", "capture C1 open", "load C1 open", "sustain C1 open", "mains  open");
        BenchPlanner.Of(report).Steps[1].Text.Should().EndWith(", with a cable for 5 A.");
    }

    [Fact]
    public void Markdown_IsAListOfTasks()
    {
        StringWriter writer = new();
        MarkdownPlan.Write(writer, BenchPlanner.Of(Pack()));

        writer.ToString().Should().Contain("- [x] 1. Photograph").And.Contain("- [ ] 3. Plug into C1 alone");
    }

    private static string Written(ProductReport report)
    {
        StringWriter writer = new();
        PlanText.Write(writer, BenchPlanner.Of(report), TextStyle.Plain);
        return writer.ToString();
    }

    private static string[] Steps(ProductReport report) => [.. BenchPlanner.Of(report).Steps.Select(static step => $"{step.Kind} {string.Join(',', step.Ports)} {step.State}")];

    private static ProductReport Pack() => new()
    {
        Product = "Tarnholt RP-65",
        Label = new Label
        {
            Text = "as printed",
            Inputs = { Input(20_000, 2_250), Input(9_000, 3_000) },
            Outputs = { Output("C1", (5_000, 3_000), (9_000, 3_000), (20_000, 3_250)), Output("A", (5_000, 3_000)) },
            Combinations = { new PrintedCombination { Ports = { "C1", "A" }, Text = "C1+A: 45W+15W", Line = 4 } },
            Battery = new PrintedBattery { CapacityMah = 20_000, NominalVoltageMv = 3_700, EnergyMwh = 74_000, RatedCapacityMah = 12_000, RatedVoltageMv = 5_000, RatedCurrentMa = 3_000, Line = 5 },
        },
    };

    private static PrintedInput Input(int millivolts, int milliamperes) => new() { Port = "C1", MinVoltageMv = millivolts, MaxVoltageMv = millivolts, CurrentMa = milliamperes, Line = 1 };

    private static PrintedOutput Output(string port, params (int Millivolts, int Milliamperes)[] modes)
    {
        PrintedOutput output = new() { Port = port, Line = 2 };
        output.Fixed.AddRange(modes.Select(static mode => new PrintedFixed { VoltageMv = mode.Millivolts, CurrentMa = mode.Milliamperes, Line = 2 }));
        return output;
    }
}
