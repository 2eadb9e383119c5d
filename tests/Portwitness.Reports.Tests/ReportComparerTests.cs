using Portwitness.Contracts.V1;
using Portwitness.Reports.Comparing;

namespace Portwitness.Reports.Tests;

public sealed class ReportComparerTests
{
    [Fact]
    public void SameReports_DifferInNothing() => ReportComparer.Compare(Report(), Report()).Differences.Should().BeEmpty();

    [Fact]
    public void Differences_AreToldBothWays()
    {
        ProductReport after = Report();
        after.Verdict = Verdict.Fails;
        after.Findings.Add(new Finding { Rule = "vbus-dropped-out", Severity = Severity.Violation, Port = "C1", Arrangement = { "C1" }, Observed = "0.3 V" });
        after.Ports[0].Arrangements[0].Offered.Objects[1].Fixed.MaxCurrentMa = 2000;
        after.Ports[0].Arrangements[0].Offered.Objects.RemoveAt(2);
        after.Statements[0].Verdict = Verdict.Fails;

        Change[] there = Changes(Report(), after);
        Change[] back = Changes(after, Report());

        there.Should().Equal(
            new("verdict", "changed", "the product", "HOLDS", "FAILS"), new("finding", "added", "vbus-dropped-out", "", "violation: 0.3 V"),
            new("offer", "changed", "fixed 9 V", "3 A", "2 A"), new("offer", "gone", "fixed 15 V", "3 A", ""),
            new("statement", "changed", "C1 gives 9 V 3 A", "HOLDS", "FAILS"));
        back.Should().BeEquivalentTo(there.Select(one => one with
        {
            Kind = one.Kind switch { "added" => "gone", "gone" => "added", _ => "changed" }, Before = one.After, After = one.Before,
        }));
    }

    [Fact]
    public void WhatIsFoundInside_IsCompared()
    {
        (ProductReport before, ProductReport after) = (Opened("found", "NR16", 15_900), Opened("absent", "NR20", 15_900));
        before.Claims.Add(new JudgedClaim { Text = "full in 100 minutes", Source = "box", Verdict = Verdict.CannotTell });
        after.Claims.Add(new JudgedClaim { Text = "full in 100 minutes", Source = "box", Verdict = Verdict.Fails });

        Changes(before, after).Should().Equal(
            new("claim", "changed", "full in 100 minutes (box)", "CANNOT TELL", "FAILS"),
            new("teardown", "changed", "Q3 (main bottom)", "switch, NR16, 2 pieces, read", "switch, NR20, 2 pieces, read"),
            new("function", "changed", "balancing for 3 cells in series", "found", "absent"),
            new("pass-through", "changed", "C in, A out, when the input leaves", "goes on", "0 V 0 A"));
        ReportComparer.Compare(before, after).Measured.Should().ContainSingle(static pair =>
            pair.About == "into the pack, C in, A out" && pair.Unit == "mW" && pair.Before == 15_900 && pair.Verdict == "open");
    }

    // A sample that nobody opened lacks no parts, and no function is gone.
    [Fact]
    public void WhatNobodyOpened_IsNotCompared()
    {
        Changes(Opened("found", "NR16", 1), new ProductReport { Product = "Tarnholt RP-60" }).Should().BeEmpty();

        SpreadCollector spread = new("Tarnholt RP-60", "");
        spread.Add(Opened("found", "NR16", 1), "one");
        spread.Add(Opened("found", "NR16", 1), "two");
        spread.Add(new ProductReport { Product = "Tarnholt RP-60" }, "sealed");
        spread.ToSpread().Differing.Should().BeEmpty();
    }

    private static ProductReport Opened(string balancing, string marking, long intoPack) => new()
    {
        Product = "Tarnholt RP-60",
        Teardown = { new TeardownEntry { Ref = "Q3", Function = "switch", Marking = marking, Board = "main", Side = "bottom", Count = 2, Identified = "read" } },
        TeardownChecks = { new TeardownCheck { Function = "balancing", State = balancing, WantedFor = "3 cells in series" } },
        PassThrough =
        {
            new PassThrough
            {
                Inputs = { "C" }, Outputs = { "A" }, IntoPackMw = intoPack, WithoutInput = { new OutputWithoutInput { Port = "A", GoesOn = balancing == "found" } },
            },
        },
    };

    // What only one of them captured is neither gone nor added.
    [Fact]
    public void WhatWasNotCaptured_IsNotCompared()
    {
        ProductReport after = Report();
        after.Ports[0].Arrangements.Add(new ArrangementReport { InUse = { "C1", "C2" }, File = "b", Offered = Offered(5000) });
        after.Findings.Add(new Finding { Rule = "x", Severity = Severity.Note, Port = "C1", Arrangement = { "C1", "C2" } });

        ReportComparison comparison = ReportComparer.Compare(Report(), after);

        comparison.Differences.Should().BeEmpty();
        comparison.NotCaptured.Should().Equal("C1, in use C1+C2: only in the second");
    }

    // Such a finding rests on the label, on cells, parts or logs; no capture has to be there for it to be said.
    [Fact]
    public void FindingOfAPortWithoutCaptures_IsCompared()
    {
        ProductReport before = new() { Product = "Tarnholt TP-10", Verdict = Verdict.Fails };
        ProductReport after = before.Clone();
        before.Findings.Add(new Finding { Rule = "x", Severity = Severity.Mismatch, Port = "C1", LabelLine = 2 });

        Changes(before, after).Should().Equal(new Change("finding", "gone", "x (label line 2)", "mismatch", ""));
        Changes(after, before).Should().Equal(new Change("finding", "added", "x (label line 2)", "", "mismatch"));
        Changes(before, Report()).Should().Contain(new Change("finding", "gone", "x (label line 2)", "mismatch", ""));
    }

    [Fact]
    public void SamplesWithoutCaptures_AreCounted()
    {
        ProductReport clean = new() { Product = "Tarnholt TP-10", Verdict = Verdict.Holds };
        ProductReport bad = clean.Clone();
        bad.Findings.Add(new Finding { Rule = "x", Severity = Severity.Mismatch, Port = "C1" });
        SpreadCollector samples = new("Tarnholt TP-10", "");
        FirmwareCollector versions = new("Tarnholt TP-10");
        foreach ((string name, ProductReport report) in new[] { ("1", clean), ("2", clean), ("3", bad) })
        {
            samples.Add(report, name);
            versions.Add(report, name);
        }

        SpreadFact fact = samples.ToSpread().Differing.Should().ContainSingle().Subject;
        (fact.About, fact.Values[0].Samples, fact.Values[1].Value, fact.Values[1].Samples).Should().Be(("x", 1, "", 2));
        versions.ToSpread().Differing.Should().ContainSingle().Which.Values.Select(static value => (value.Firmware, value.Value))
            .Should().Equal(("1", ""), ("2", ""), ("3", "mismatch"));
    }

    // A capture that names no port in use, and a finding that does, are of the port alone both.
    [Fact]
    public void PortAlone_IsTheSameHoweverItIsNamed()
    {
        ProductReport after = Report();
        after.Ports[0].Arrangements[0].InUse.Clear();
        after.Findings.Add(new Finding { Rule = "x", Severity = Severity.Mismatch, Port = "C1", Arrangement = { "C1" } });

        Changes(Report(), after).Should().Equal(new Change("finding", "added", "x", "", "mismatch"));
    }

    // Other times, messages and file names are of another recording.
    [Fact]
    public void AnotherRecording_IsNoDifference()
    {
        ProductReport after = Report();
        after.Ports[0].Arrangements[0].File = "other";
        after.Ports[0].Arrangements[0].Offered.TimeUs = 99;
        after.Ports[0].Arrangements[0].Offered.MessageIndex = 12;
        after.Statements[0].Evidence = "message 12";

        ReportComparer.Compare(Report(), after).Differences.Should().BeEmpty();
    }

    [Theory]
    [InlineData(5600, 5700, "same")]
    [InlineData(5600, 5701, "differs")]
    [InlineData(5600, 5500, "same")]
    [InlineData(5600, 5499, "differs")]
    public void Logs_DifferOnlyBeyondTheirMeters(int before, int after, string verdict)
    {
        ReportComparison comparison = ReportComparer.Compare(WithLog(before, 50), WithLog(after, 50));

        comparison.Measured[0].Verdict.Should().Be(verdict);
        comparison.Differences.Should().BeEmpty();
    }

    [Fact]
    public void ALogWithoutBound_IsOpen()
    {
        ProductReport open = WithLog(5600, 50);
        open.PowerLogs[0].ChargeUah.ClearMost();

        ReportComparer.Compare(open, WithLog(100, 1)).Measured[0].Verdict.Should().Be("open");
    }

    [Fact]
    public void DifferencesBeyondTheLimit_AreCounted()
    {
        ProductReport many = Report();
        many.Findings.AddRange(Enumerable.Range(0, 1500).Select(n => new Finding { Rule = $"r{n}", Severity = Severity.Note }));

        ReportComparison comparison = ReportComparer.Compare(Report(), many);

        (comparison.Differences.Count, comparison.Unlisted).Should().Be((1000, 500));
    }

    [Fact]
    public void Spread_TellsWhatOnlySomeSamplesHave()
    {
        SpreadCollector collector = new("x", "1.0");
        for (int sample = 1; sample <= 12; sample++)
        {
            ProductReport report = Report();
            if (sample == 7)
            {
                report.Ports[0].Arrangements[0].Offered.Objects[1].Fixed.MaxCurrentMa = 2000;
                report.Findings.Add(new Finding { Rule = "printed-current-differs", Severity = Severity.Mismatch, Port = "C1", Arrangement = { "C1" } });
            }

            collector.Add(report, $"{sample}");
        }

        SampleSpread spread = collector.ToSpread();

        spread.Samples.Should().Be(12);
        spread.Differing.Should().HaveCount(2);
        spread.Differing[0].Values.Select(value => (value.Value, value.Samples)).Should().Equal(("mismatch", 1L), ("", 11L));
        spread.Differing[1].Values.Select(value => (value.Value, value.Samples, value.Names.Count)).Should().Equal(("3 A", 11L, 10), ("2 A", 1L, 1));
        spread.Differing[1].Values[1].Names.Should().Equal("7");
        spread.Common.Should().BeGreaterThan(3);
    }

    // What only one sample of a version has is not the version's: 9 V at 2 A is seen under both.
    [Fact]
    public void Firmware_IsToldApartByWhatNoSampleOfTheOtherHas()
    {
        FirmwareCollector collector = new("x");
        for (int sample = 0; sample < 6; sample++)
        {
            ProductReport report = Report();
            report.Ports[0].Arrangements[0].Offered.Objects[1].Fixed.MaxCurrentMa = sample is 1 or 4 ? 2000 : 3000;
            report.Ports[0].Arrangements[0].Offered.Objects[2].Fixed.MaxCurrentMa = sample < 3 ? 3000 : 2250;
            if (sample < 3)
            {
                report.Findings.Add(new Finding { Rule = "x", Severity = Severity.Caution });
            }

            collector.Add(report, sample < 3 ? "1.0" : "1.1");
        }

        FirmwareSpread spread = collector.ToSpread();

        spread.Versions.Select(static one => (one.Firmware, one.Samples)).Should().Equal(("1.0", 3L), ("1.1", 3L));
        spread.Differing.Select(static fact => (fact.Subject, fact.About)).Should().Equal(("finding", "x"), ("offer", "fixed 15 V"));
        spread.Differing[0].Values.Select(static one => (one.Firmware, one.Value, one.Samples)).Should().Equal(("1.0", "caution", 3L), ("1.1", "", 3L));
        spread.Differing[1].Values.Select(static one => (one.Firmware, one.Value, one.Samples)).Should().Equal(("1.0", "3 A", 3L), ("1.1", "2.25 A", 3L));
    }

    // A port that was not captured under one version tells nothing of it.
    [Fact]
    public void Firmware_IsNotToldApartByWhatWasNotCaptured()
    {
        FirmwareCollector collector = new("x");
        collector.Add(Report(), "1.0");
        ProductReport other = Report();
        other.Ports.Clear();
        collector.Add(other, "1.1");

        collector.ToSpread().Differing.Should().BeEmpty();
    }

    private static Change[] Changes(ProductReport before, ProductReport after) =>
        [.. ReportComparer.Compare(before, after).Differences.Select(one => new Change(one.Subject, one.Change, one.About, one.Before, one.After))];

    private static ProductReport WithLog(int milliampereHours, int uncertainty)
    {
        ProductReport report = Report();
        report.PowerLogs.Add(new PowerLog
        {
            Port = "C1", Kind = "discharge", At = "5V 2A", EnergyUwh = new MeasuredAmount(),
            ChargeUah = new MeasuredAmount { Value = milliampereHours * 1000L, Least = (milliampereHours - uncertainty) * 1000L, Most = (milliampereHours + uncertainty) * 1000L },
        });
        return report;
    }

    private static ProductReport Report() => new()
    {
        Product = "x", Verdict = Verdict.Holds, Label = new Label { Text = "USB-C1: 5V⎓3A\n9V⎓3A" },
        Statements = { new Statement { Port = "C1", Claim = "C1 gives 9 V 3 A", Verdict = Verdict.Holds } },
        Ports = { new PortReport { Port = "C1", Arrangements = { new ArrangementReport { InUse = { "C1" }, File = "a", Offered = Offered(5000, 9000, 15000) } } } },
    };

    private static Advertisement Offered(params int[] millivolts) => new()
    {
        Message = "Source_Capabilities",
        Objects = { millivolts.Select((volts, index) => new PowerObject { Position = index + 1, Fixed = new FixedSupply { VoltageMv = volts, MaxCurrentMa = 3000 } }) },
    };

    private sealed record Change(string Subject, string Kind, string About, string Before, string After);
}
