using Portwitness.Contracts.V1;
using Portwitness.Reports.Proofing;

namespace Portwitness.Reports.Tests.Proofing;

/// <summary>
/// Numbers of an article against a report. What a sentence says is plain reading; 1 in = 25.4 mm and 1 lb = 453.59237 g exactly (international yard
/// and pound, 1959), 0 °C = 32 °F (from memory).
/// </summary>
public sealed class ArticleProofTests
{
    [Theory]
    [InlineData("C1 gives up to 65 W.", "65 W agrees")]
    [InlineData("C1 gives up to 100 W.", "100 W differs")]
    [InlineData("C1 is rated for 65 W, and C2 for a maximum of 30 W.", "65 W agrees", "30 W agrees")]
    [InlineData("C1 is rated for 30 W.", "30 W differs")]
    // Of what the power is, the sentence does not say.
    [InlineData("A laptop took 58 W from C1.", "58 W no_evidence")]
    [InlineData("A lamp of 9 W lights the bench.", "9 W no_evidence")]
    // The lamp's power is not the port's.
    [InlineData("C1 is rated for 65 W, and the lamp for a maximum of 9 W.", "65 W agrees", "9 W no_evidence")]
    [InlineData("With both in use C1 gives up to 45 W.", "45 W agrees")]
    [InlineData("With both in use C1 gives up to 40 W.", "40 W differs")]
    [InlineData("We measured 45 W at C1.", "45 W not_measured")]
    [InlineData("We measured 19.9 V at C1.", "19.9 V agrees")]
    [InlineData("We measured 18.2 V at C1.", "18.2 V no_evidence")]
    [InlineData("It drew 3 A at 19.9 V, or 59.7 W.", "3 A agrees", "19.9 V agrees", "59.7 W agrees")]
    [InlineData("The capacity is 20,000 mAh.", "20,000 mAh agrees")]
    [InlineData("The capacity is 20 000 mAh.", "20 000 mAh agrees")]
    [InlineData("The capacity is 20 Ah.", "20 Ah agrees")]
    [InlineData("The capacity is 30,000 mAh.", "30,000 mAh differs")]
    [InlineData("The rated capacity is 20,000 mAh.", "20,000 mAh differs")]
    [InlineData("It is about 75 Wh.", "75 Wh agrees")]
    [InlineData("It is 75 Wh of energy.", "75 Wh differs")]
    [InlineData("Die Kapazität beträgt 20.000 mAh, die Energie 74,0 Wh.", "20.000 mAh agrees", "74,0 Wh agrees")]
    [InlineData("Laut Aufdruck liefert C1 mit der Zelle nicht 65 W, C1 gibt höchstens 60 W ab.", "65 W agrees", "60 W differs")]
    [InlineData("电池容量为20000毫安时，能量75瓦时。", "20000毫安时 agrees", "75瓦时 differs")]
    [InlineData("实测C1为19.9V。", "19.9V agrees")]
    [InlineData("See https://example.org/65W for C1, which is no 5G model of 2024.")]
    [InlineData("```\nC1 100 W\n```")]
    public void Amount_IsLookedUp(string text, params string[] expected) =>
        Outcomes(text).Should().Equal(expected);

    [Theory]
    [InlineData("It is 100 mm (3.94 in) long.", "agrees")]
    [InlineData("It is 100 mm (3.9 in) long.", "agrees")]
    [InlineData("It is 100 mm (3.8 in) long.", "converted_wrongly")]
    [InlineData("It is 3.94 in (100 mm) long.", "agrees")]
    [InlineData("It weighs 454 g (1.0 lb).", "agrees")]
    [InlineData("It weighs 410 g (14.5 oz).", "agrees")]
    [InlineData("It weighs 410 g (14.6 oz).", "converted_wrongly")]
    [InlineData("It reaches 60 °C (140 °F).", "agrees")]
    [InlineData("It reaches 60 °C (142 °F).", "converted_wrongly")]
    [InlineData("Es ist 100 mm (3,94 Zoll) lang.", "agrees")]
    [InlineData("100 × 68 × 27 mm (3.9 × 2.7 × 1.1 in)", "agrees")]
    [InlineData("100 × 68 × 27 mm (3.9 × 2.4 × 1.1 in)", "converted_wrongly")]
    public void Conversion_MayBeOffByHalfADigit(string text, string expected) =>
        Outcomes(text).Any(static one => one.EndsWith("converted_wrongly", StringComparison.Ordinal)).Should().Be(expected == "converted_wrongly");

    [Fact]
    public void SentencesThatSayDifferentThings_AreShownWithBothLines()
    {
        ProductReport report = Report();
        report.Label.Outputs[0].MaxPowerMw = 0;
        report.Label.Outputs[0].ClearMaxPowerMw();
        ArticleProof proof = ArticleProofReader.Read("a.md", "C1 gives up to 65 W.\n\nLater: C1 gives up to 60 W.", report);

        proof.Entries[1].Should().Match<ProofEntry>(static one => one.Outcome == "contradicts" && one.Evidence == "line 1 says 65 W of C1" && one.Line == 3);
    }

    [Fact]
    public void Place_IsLineAndColumnAsAPersonCounts()
    {
        ProofEntry entry = ArticleProofReader.Read("a.md", "# Kopf\n\nÄ gibt C1 höchstens\n100 W ab.", Report()).Entries.Should().ContainSingle().Subject;

        (entry.Line, entry.Column, entry.Sentence).Should().Be((4, 1, "Ä gibt C1 höchstens 100 W ab."));
        entry.Evidence.Should().Be("the record has 65 W, printed (label, line 2)");
    }

    [Theory]
    [InlineData("3.25", false, "3.25")]
    [InlineData("3,25", true, "3.25")]
    [InlineData("20,000", false, "20000")]
    [InlineData("20.000", true, "20000")]
    [InlineData("1,234,567", false, "1234567")]
    [InlineData("0,500", true, "0.5")]
    [InlineData("12’500", false, "12500")]
    public void Number_IsReadAsItsLanguageWritesIt(string written, bool isCommaDecimal, string expected) =>
        (ArticleNumber.Read(written, isCommaDecimal)!.Value.Number == decimal.Parse(expected, System.Globalization.CultureInfo.InvariantCulture)).Should().BeTrue();

    // A megabyte of digits, marks and units ends in a moment, and lists no more than it may.
    [Fact]
    public void HostileText_IsBounded()
    {
        string text = string.Concat(Enumerable.Repeat("1/2 W. 9999999999999999999999 mAh (((3,,,4 in) ", 5_000));

        ArticleProofReader.Read("a.md", text, Report()).Entries.Count.Should().Be(2_000);
    }

    private static IEnumerable<string> Outcomes(string text) =>
        ArticleProofReader.Read("article.md", text, Report()).Entries.Select(static one => $"{one.Text} {one.Outcome}");

    // Printed: 65 W and 30 W, 45 W and 20 W together; 20,000 mAh, 74 Wh, rated 12,000 mAh. Measured under 20 V 3 A: 19.8 V to 20.0 V.
    private static ProductReport Report()
    {
        ProductReport report = new() { Product = "Tarnholt TP-65", Label = new Label { Battery = new PrintedBattery { CapacityMah = 20_000, EnergyMwh = 74_000, RatedCapacityMah = 12_000, Line = 1 } } };
        report.Label.Outputs.Add(new PrintedOutput { Port = "C1", MaxPowerMw = 65_000, MaxPowerLine = 2 });
        report.Label.Outputs.Add(new PrintedOutput { Port = "C2", MaxPowerMw = 30_000, MaxPowerLine = 3 });
        PrintedCombination together = new() { Line = 4 };
        together.Ports.Add(["C1", "C2"]);
        together.Split.Add(new PrintedShare { Port = "C1", PowerMw = 45_000 });
        together.Split.Add(new PrintedShare { Port = "C2", PowerMw = 20_000 });
        report.Label.Combinations.Add(together);
        ArrangementReport arrangement = new() { File = "c1.jsonl", LabelPort = "C1" };
        arrangement.Contracts.Add(new Contract
        {
            VoltageMv = 20_000, CurrentMa = 3_000, Measured = new MeasuredPower { Samples = 9, LeastMv = 19_800, MeanMv = 19_900, MostMv = 20_000 },
        });
        PortReport port = new() { Port = "C1" };
        port.Arrangements.Add(arrangement);
        report.Ports.Add(port);
        return report;
    }
}
