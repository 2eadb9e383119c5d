using Portwitness.Analysis.Evidence;
using Portwitness.Analysis.Findings;
using Xunit.Abstractions;

namespace Portwitness.Analysis.Tests.Measuring;

/// <summary>
/// Conversations that keep to the standard accuse nobody; those that break one clause accuse by its rule alone. Values from
/// R3.2v1.1, Tables 7.23 and 7.25.
/// </summary>
public class MeasuredConversationTests(ITestOutputHelper output)
{
    private const string Offers =
        """
        source: [5V 3A epr, 9V 3A, 15V 3A, battery 5-12V 30W, variable 8-10V 3A, SPR AVS 3A/3A, PPS 3.3-11V 3A, 28V 5A, EPR AVS 15-28V 140W]
        """;

    private static string Header(string edition, string point, int accuracy) =>
        $"""
        edition: {edition}
        port: C1
        cable: EPR detachable
        measured_at: {point}
        accuracy: {"{"}vbus_mv: {accuracy}, ibus_ma: 5{"}"}
        {Offers}
        """;

    /// <summary>Legs at the lowest allowed, a middle and the highest allowed voltage.</summary>
    private static IEnumerable<(string Name, Leg[] Legs)> Honest()
    {
        foreach (int side in new[] { -1, 0, 1 })
        {
            int At(int least, int most) => side < 0 ? least : side > 0 ? most : (least + most) / 2;
            int five = At(4_750, 5_500);
            yield return ($"fixed {side}", [new("2 at 3A", At(8_550, 9_450), 2_990), new("3 at 3A", At(14_250, 15_750), 2_990), new("1 at 3A", five, 2_990)]);
            yield return ($"battery {side}", [new("4 at 30W", At(5_000, 12_000), 2_000), new("1 at 1A", five, 990)]);
            yield return ($"variable {side}", [new("5 at 3A", At(8_000, 10_000), 2_990)]);
            yield return ($"AVS {side}", [new("6 at 9V 3A", At(8_550, 9_450), 2_990), new("6 at 10V 3A", At(9_500, 10_500), 2_990, 50, 1), new("6 at 15V 3A", At(14_250, 15_750), 500, 320, 1)]);
            yield return ($"PPS {side}", [new("7 at 9V 3A", At(8_550, 9_450), 2_990), new("7 at 9.4V 3A", At(8_930, 9_870), 2_990, 25, 1), new("7 at 4V 1A", At(3_800, 4_200), 990, 270, 1)]);
            yield return ($"PPS limiting {side}", [new("7 at 9V 2A", At(3_300, 8_000), At(1_850, 2_150)), new("7 at 9V 1A", 7_000, At(850, 1_150), 25, 1)]);
            yield return ($"EPR {side}", [new("2 at 3A epr", At(8_550, 9_450), 500), new("- enter-epr at 140W", 0, 0), new("8 at 5A", At(26_600, 29_400), 4_990, 320), new("9 at 20V 5A", At(19_000, 21_000), 4_990, 320)]);
        }
    }

    [Fact]
    public void HonestConversations_AccuseNobody()
    {
        int cases = 0;
        foreach ((string name, Leg[] legs) in Honest())
        {
            // EPR came with R3.1.
            foreach (string edition in name.StartsWith("EPR", StringComparison.Ordinal) ? new[] { "R3.1", "R3.2" } : ["R2.0", "R3.0", "R3.1", "R3.2"])
            {
                foreach ((long every, int noise) in new[] { (5_000L, 0), (5_000L, 20), (1_000L, 0), (50_000L, 20), (300_000L, 0) })
                {
                    foreach (string point in new[] { "source", "sink" })
                    {
                        foreach (string tail in new[] { "pause 1s", "hard-reset", "detach" })
                        {
                            if (every == 1_000 && (tail != "pause 1s" || point != "source"))
                            {
                                continue;
                            }

                            Bench bench = new(Header(edition, point, 20), [.. legs.Select(leg => leg with { })], tail) { EveryUs = every, NoiseMillivolts = noise };
                            CaptureAnalysis analysis = bench.Run();

                            Bench.Accusing(analysis).Should().BeEmpty($"{name}, {edition}, {every} us, {point}, {tail}");
                            if (noise == 0)
                            {
                                analysis.Findings.Where(Bench.IsOurs).Should().BeEmpty($"{name}, {edition}, {every} us, {point}, {tail}");
                            }

                            cases++;
                        }
                    }
                }
            }
        }

        output.WriteLine($"{cases} honest conversations");
        cases.Should().BeGreaterThan(1_500);
    }

    [Fact]
    public void HardResetAndRecovery_AccuseNobody()
    {
        foreach (long every in new[] { 1_000, 5_000, 50_000 })
        {
            Bench bench = new(
                Header("R3.2", "source", 0),
                [
                    new("2 at 3A", 9_000, 2_000), new("- hard-reset", 0, 0), new("- advertise", 0, 0), new("3 at 3A", 15_000, 2_000),
                    new("- attach C2", 0, 0), new("- advertise", 0, 0), new("2 at 2A", 9_000, 2_000), new("- detach C2", 0, 0),
                    new("- advertise", 0, 0), new("3 at 3A", 15_000, 2_990), new("- soft-reset", 0, 0), new("- pause 1s", 0, 0), new("- detach", 0, 0),
                    new("- pause 2s", 0, 0), new("- attach", 0, 0), new("- discover-cable", 0, 0), new("- advertise", 0, 0), new("2 at 2A", 9_000, 2_000),
                ])
            {
                EveryUs = every,
            };

            CaptureAnalysis analysis = bench.Run();
            analysis.Findings.Where(Bench.IsOurs).Should().BeEmpty();
            analysis.Contracts.Should().HaveCount(5).And.OnlyContain(contract => contract.Measured != null);
        }
    }

    /// <summary>Name of the rule, what is done to the samples, and the legs it is done to.</summary>
    private static IEnumerable<(string Rule, Leg[] Legs, string Tail, Func<Bench, Bench.Reading, Bench.Reading> Spoil)> Broken()
    {
        Leg[] nine = [new("2 at 3A", 9_000, 2_000)];
        foreach ((Leg[] legs, int off) in new (Leg[], int)[]
        {
            (nine, 500), (nine, -500), ([new("1 at 3A", 5_100, 2_000)], 500), ([new("4 at 30W", 8_000, 2_000)], 4_200),
            ([new("5 at 3A", 9_000, 2_000)], -1_200), ([new("6 at 9V 3A", 9_000, 2_000)], 520), ([new("7 at 9V 3A", 9_000, 1_000)], -600),
        })
        {
            yield return ("vbus-outside-tolerance", legs, "pause 1s", (bench, sample) =>
                After(bench, 0, 100, sample) ? sample with { Millivolts = sample.Millivolts + off } : sample);
        }

        foreach ((int off, string rule) in new[] { (1_200, "vbus-overshoot"), (-1_200, "vbus-droop") })
        {
            yield return (rule, nine, "pause 1s", (bench, sample) =>
                Between(bench, 0, 300, 320, sample) ? sample with { Millivolts = sample.Millivolts + off } : sample);
            yield return (rule, [new("7 at 9V 3A", 9_000, 2_000)], "pause 1s", (bench, sample) =>
                Between(bench, 0, 300, 320, sample) ? sample with { Millivolts = sample.Millivolts + (off / 2) } : sample);
        }

        yield return ("vbus-overshoot", [new("3 at 3A", 15_000, 0)], "pause 1s", (bench, sample) =>
            sample.TimeUs > bench.Legs[0].AcceptUs + 312_000 && sample.TimeUs < bench.Legs[0].AcceptUs + 325_000 ? sample with { Millivolts = 17_000 } : sample);
        yield return ("vbus-dropped-out", nine, "pause 1s", (bench, sample) =>
            Between(bench, 0, 300, 500, sample) ? sample with { Millivolts = 30, Milliamperes = 0 } : sample);
        yield return ("vbus-dropped-out", nine, "pause 1s", (bench, sample) =>
            Between(bench, 0, 300, 500, sample) ? sample with { Millivolts = 5_100 } : sample);
        yield return ("delivered-power-below-contract", nine, "pause 1s", (bench, sample) =>
            Between(bench, 0, 400, 900, sample) ? sample with { Millivolts = 8_200, Milliamperes = 2_900 } : sample);
        yield return ("vbus-transition-late", nine, "pause 1s", (bench, sample) =>
            sample.TimeUs > bench.Legs[0].AcceptUs + 40_000 && Between(bench, 0, -300, 200, sample) ? sample with { Millivolts = 7_000 } : sample);
        yield return ("vbus-moved-too-early", nine, "pause 1s", (bench, sample) =>
            sample.TimeUs > bench.Legs[0].AcceptUs && sample.TimeUs < bench.Legs[0].AcceptUs + 20_000 ? sample with { Millivolts = 7_000 } : sample);
        yield return ("pps-current-limit-wrong", [new("7 at 9V 2A", 9_000, 2_000)], "pause 1s", (bench, sample) =>
            Between(bench, 0, 100, 900, sample) ? sample with { Milliamperes = 2_300 } : sample);
        yield return ("vbus-not-removed-by-hard-reset", nine, "hard-reset", (bench, sample) =>
            sample.TimeUs > bench.Legs[0].ReadyUs + 1_030_000 ? sample with { Millivolts = 5_000, Milliamperes = 0 } : sample);
        yield return ("vbus-recovery-time-wrong", nine, "hard-reset", (bench, sample) =>
            sample.TimeUs > bench.Legs[0].ReadyUs + 1_500_000 ? sample with { Millivolts = 5_000, Milliamperes = 0 } : sample);
    }

    private static bool After(Bench bench, int leg, int ms, Bench.Reading sample) => sample.TimeUs > bench.Legs[leg].ReadyUs + (1_000L * ms);

    private static bool Between(Bench bench, int leg, int from, int to, Bench.Reading sample) =>
        After(bench, leg, from, sample) && !After(bench, leg, to, sample);

    [Fact]
    public void BrokenConversations_AccuseByTheirRuleAlone()
    {
        int cases = 0;
        HashSet<string> rules = [];
        foreach ((string rule, Leg[] legs, string tail, Func<Bench, Bench.Reading, Bench.Reading> spoil) in Broken())
        {
            foreach (string edition in new[] { "R3.0", "R3.1", "R3.2", "R2.0" })
            {
                foreach (long every in new[] { 1_000, 2_500, 5_000 })
                {
                    Bench bench = new(Header(edition, "source", 20), [.. legs.Select(leg => leg with { })], tail) { EveryUs = every, NoiseMillivolts = 10 };
                    bench.Spoil = sample => spoil(bench, sample);
                    CaptureAnalysis analysis = bench.Run();
                    GoldenFindings.Check(every == 5_000 ? analysis.Findings : []);

                    if (edition == "R2.0")
                    {
                        // Its limits are from memory: never more than a caution.
                        Bench.Accusing(analysis).Should().BeEmpty();
                        analysis.Findings.Should().Contain(finding => finding.Rule == rule && finding.Severity == Severity.Caution, $"{rule}, {every} us");
                    }
                    else
                    {
                        Bench.Accusing(analysis).Should().Equal([rule], $"{edition}, {every} us: {string.Join(" / ", analysis.Findings.Where(Bench.IsOurs).Select(f => f.Detail))}");
                    }

                    rules.Add(rule);
                    cases++;
                }
            }
        }

        output.WriteLine($"{cases} broken conversations, {rules.Count} rules");
        cases.Should().BeGreaterThan(200);
        rules.Should().HaveCount(10);
    }

    [Theory]
    [InlineData("sink")]
    [InlineData("tester")]
    public void CableThatLosesVoltage_IsNotTheSourcesFault(string point)
    {
        Bench bench = new(Header("R3.2", point, 5), [new("1 at 3A", 5_000, 2_900)]);
        bench.Spoil = sample => sample.Milliamperes > 0 ? sample with { Millivolts = sample.Millivolts - 600 } : sample;

        CaptureAnalysis analysis = bench.Run();

        Bench.Accusing(analysis).Should().BeEmpty();
        analysis.Findings.Should().Contain(finding => finding.Verdict == Verdict.CannotTell && finding.NextStep.Text().Contains("measured_at"));
    }

    [Fact]
    public void PortThatTakesPower_IsNotAccused_NorPassedInSilence()
    {
        Bench bench = new(Header("R3.2", "source", 5), [new("2 at 3A", 9_000, 2_000)]);
        bench.Spoil = sample => sample with { Millivolts = 12_000, Milliamperes = -1_000 };

        Finding[] ours = [.. bench.Run().Findings.Where(Bench.IsOurs)];
        ours.Should().NotBeEmpty().And.OnlyContain(finding => finding.Verdict == Verdict.CannotTell && finding.Detail.Text().Contains("flows into the port"));
    }

    // One sample of noise among those of a load.
    [Fact]
    public void OneSampleOfNegativeCurrent_SilencesNoRule()
    {
        Bench bench = new(Header("R3.2", "source", 5), [new("2 at 3A", 9_000, 2_000)]);
        bool isFirst = true;
        bench.Spoil = sample =>
        {
            int amperes = isFirst ? -60 : 1_000;
            isFirst = false;
            return sample with { Millivolts = 12_000, Milliamperes = amperes };
        };

        Bench.Accusing(bench.Run()).Should().Contain("vbus-outside-tolerance");
    }

    [Fact]
    public void SwapOfVconn_LeavesTheContractInForce()
    {
        Bench bench = new(
            Header("R3.2", "source", 5),
            [new("2 at 3A", 9_000, 2_000), new("- send sink VCONN_Swap", 0, 0), new("- accept", 0, 0), new("- send source PS_RDY", 0, 0)]);
        bench.Spoil = sample => After(bench, 0, 1_100, sample) ? sample with { Millivolts = 9_800 } : sample;

        Bench.Accusing(bench.Run()).Should().Equal("vbus-outside-tolerance");
    }

    [Theory]
    [InlineData("PR_Swap")]
    [InlineData("FR_Swap")]
    public void SwapOfPower_EndsWhatIsKnown(string swap)
    {
        Bench bench = new(
            Header("R3.2", "source", 5), [new("2 at 3A", 9_000, 2_000), new($"- send sink {swap}", 0, 0), new("- accept", 0, 0), new("3 at 3A", 9_800, 2_000)]);
        bench.Spoil = sample => After(bench, 0, 1_100, sample) ? sample with { Millivolts = 9_800 } : sample;

        bench.Run().Findings.Where(Bench.IsOurs).Should().BeEmpty();
    }

    [Fact]
    public void PsRdyWithoutItsRequest_EndsWhatIsKnown()
    {
        Bench bench = new(Header("R3.2", "source", 5), [new("2 at 3A", 9_000, 2_000), new("- send source PS_RDY", 0, 0)]);
        bench.Spoil = sample => After(bench, 0, 1_100, sample) ? sample with { Millivolts = 15_000 } : sample;

        bench.Run().Findings.Where(Bench.IsOurs).Should().BeEmpty();
    }

    [Fact]
    public void AttachThatWasNotRecorded_EndsTheDetach()
    {
        Bench bench = new(Header("R3.2", "source", 5), [new("2 at 3A", 9_000, 2_000), new("- detach", 0, 0), new("- pause 3s", 0, 0), new("- advertise", 0, 0)]);
        bench.Spoil = sample => After(bench, 0, 2_500, sample) ? sample with { Millivolts = 5_100 } : sample;

        bench.Run().Findings.Where(Bench.IsOurs).Should().BeEmpty();
    }

    [Fact]
    public void LateBegin_JudgesFromTheFirstContractOn()
    {
        Bench bench = new(Header("R3.2", "source", 5), [new("2 at 3A", 9_000, 2_000), new("3 at 3A", 16_500, 2_000)], startsLate: true);
        bench.Spoil = sample => sample.TimeUs < bench.Legs[0].AcceptUs ? sample with { Millivolts = 20_000 } : sample;

        Bench.Accusing(bench.Run()).Should().Equal("vbus-outside-tolerance");
    }

    [Fact]
    public void ManyAlike_AreListedAFewTimesAndCounted()
    {
        Leg[] legs = [.. Enumerable.Range(0, 20).Select(i => new Leg($"7 at {8 + (i % 2)}V 3A", 10_500, 1_000, 270, 1))];
        CaptureAnalysis analysis = new Bench(Header("R3.2", "source", 5), legs).Run();

        Finding found = analysis.Findings.Single(finding => finding.Rule == "vbus-outside-tolerance");
        found.FurtherPlaces.Length.Should().BeLessThan(5);
        (found.Repeats + 1 + found.FurtherPlaces.Sum(place => place.Repeats + 1)).Should().Be(20);
    }

    [Fact]
    public void Contracts_TellWhatWasMeasured()
    {
        CaptureAnalysis analysis = new Bench(Header("R3.2", "source", 5), [new("2 at 3A", 9_010, 2_000), new("1 at 3A", 5_020, 1_000)]).Run();

        analysis.Contracts.Should().HaveCount(2);
        analysis.Contracts[0].Measured.Should().BeEquivalentTo(new
        {
            Least = Vbus.Volts(9_010), Mean = Vbus.Volts(9_010), Most = Vbus.Volts(9_010), MostCurrent = Vbus.Amps(2_000),
        });
        analysis.Contracts[1].Measured!.Samples.Should().BeInRange(150, 250);
    }
}
