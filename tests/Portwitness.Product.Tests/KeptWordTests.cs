using Portwitness.Analysis.Evidence;

namespace Portwitness.Product.Tests;

/// <summary>
/// Sources that keep their word, whatever else the label prints. Words come from the bit tables of R3.2v1.1 (shared/vectors); the labels are
/// ours, and FLUX is a token of nobody. What labels print for other protocols, and how they round, is common practice, no source.
/// </summary>
public class KeptWordTests
{
    private const string Header = "\"cable\":{\"kind\":\"detachable\",\"current_a\":5},\"edition\":\"R3.0\"";

    // 5 V 3 A, 9 V 3 A, 15 V 3 A, 20 V 2.25 A: a source of 45 W (R3.2v1.1, Table 10.2).
    private const string Source45 = "0x0801912C 0x0002D12C 0x0004B12C 0x000640E1";

    private const string Source27 = "0x0801912C 0x0002D12C";

    // 5 V 3 A, 9 V 2.22 A: 20 W.
    private const string Source20 = "0x0801912C 0x0002D0DE";

    /// <summary>What only a rating outside USB PD reaches is nobody's fault, and no PDP that rules may ask for.</summary>
    [Theory]
    [InlineData("USB-C: 5V⎓3A 9V⎓3A 15V⎓3A 20V⎓2.25A FLUX 11V⎓6A (66W Max)", Source45, "only 11 V 6 A reaches the printed maximum, and that is printed for FLUX")]
    [InlineData("USB-C: 5V⎓3A 9V⎓3A 15V⎓3A 20V⎓2.25A FLUX 66W (66W Max)", Source45, "only 66 W reaches the printed maximum, and that is printed for FLUX")]
    [InlineData("USB-C: 5V⎓3A 9V⎓3A 15V⎓3A 20V⎓2.25A UFCS 3.3-11V⎓6A (66W Max)", Source45, "printed for UFCS")]
    [InlineData("USB-C: 5V⎓3A 9V⎓3A 15V⎓3A 20V⎓2.25A 11V⎓6A (66W Max)", Source45, "only 11 V 6 A reaches the printed maximum, which need not be of USB PD")]
    [InlineData("USB-C: 5V⎓4.5A 9V⎓2.22A (22.5W Max)", Source20, "only 5 V 4.5 A reaches the printed maximum")]
    [InlineData("USB-C: 5V⎓3A 9V⎓3A 12V⎓3A (36W Max) PD: 5V⎓3A 9V⎓3A", Source27, "only 12 V 3 A reaches the printed maximum")]
    [InlineData("USB-C: 5V⎓3A 9V⎓3A 15V⎓3A 20V⎓2.25A, 11V#6A, (66W Max)", Source45, "beside words that were not read")]
    public void Maximum_ThatAnotherProtocolExplains_IsNotOwed(string label, string words, string explanation)
    {
        ProductAnalysis analysis = ProductRun.Capture(Header, words, label);

        analysis.Accusations().Should().BeEmpty();
        analysis.Statements.Should().NotContain(static one => one.Verdict == Verdict.Fails);
        analysis.Verdict.Should().Be(Verdict.CannotTell);
        analysis.Statements.Where(static one => one.Claim.Text().Contains("up to", StringComparison.Ordinal))
            .Should().OnlyContain(one => one.Evidence.Text().Contains(explanation, StringComparison.Ordinal) || one.Evidence.Text().Contains("not USB PD", StringComparison.Ordinal));
    }

    /// <summary>What ratings of USB PD reach is owed, whatever is printed beside them.</summary>
    [Theory]
    [InlineData("USB-C: 5V⎓3A 9V⎓3A 15V⎓3A 20V⎓3.3A FLUX 11V⎓6A (66W Max)", Source45)]
    [InlineData("USB-C: 5V⎓3A 9V⎓3A 15V⎓3A 20V⎓2.25A FLUX 11V⎓2A (66W Max)", Source45)]
    [InlineData("USB-C: 5V⎓3A 9V⎓3A 15V⎓3A 20V⎓2.25A PPS 3.3-21V⎓3.25A (66W Max)", Source45)]
    [InlineData("USB-C: 65W Max", Source45)]
    public void Maximum_OfPowerDelivery_IsOwed(string label, string words) => ProductRun.Capture(Header, words, label).Accusations()
        .Should().Contain(static finding => finding.Rule == "printed-power-exceeds-advertised");

    /// <summary>Beside a list of USB PD what is printed without a protocol is not PD's: neither 12 V nor 9 V of another current.</summary>
    [Theory]
    [InlineData("USB-C: 5V⎓3A 9V⎓2.22A 12V⎓1.67A\nPD: 5V⎓3A 9V⎓2.22A", Source20)]
    [InlineData("USB-C: 5V⎓3A 9V⎓3A, PD: 5V⎓3A 9V⎓2.22A", Source20)]
    [InlineData("USB-C: 5V⎓3A 15V⎓3A\nPD3.0: 5V⎓3A 9V⎓2.22A", Source20)]
    public void RatingBesideAListOfPowerDelivery_IsNotOwed(string label, string words)
    {
        ProductAnalysis analysis = ProductRun.Capture(Header, words, label);

        analysis.Accusations().Should().BeEmpty();
        analysis.Statements.Should().Contain(static one => one.Verdict == Verdict.CannotTell
            && one.Evidence.Text().Contains("a list of USB PD of its own", StringComparison.Ordinal));
    }

    [Theory]
    [InlineData("USB-C: 5V⎓3A 9V⎓2.22A, PD: 5V⎓3A 9V⎓2.22A 12V⎓1.67A", "printed-rating-not-advertised")]
    [InlineData("USB-C: 5V⎓3A 9V⎓3A, PD: 5V⎓3A 9V⎓3A", "printed-current-differs")]
    public void RatingInTheListOfPowerDelivery_IsOwed(string label, string rule) =>
        ProductRun.Capture(Header, Source20, label).Accusations().Should().Contain(finding => finding.Rule == rule);

    /// <summary>Rounding: the same power to half a watt says nothing; more is noted, and holds; less is only a custom at the next 50 mA.</summary>
    [Theory]
    [InlineData("USB-C: 5V⎓3A 9V⎓2.22A", "0x0801912C 0x0002D0E1", "Holds ")] // 2.25 A for 2.22 A
    [InlineData("USB-C: 5V⎓3A 9V⎓2.25A (20W Max)", "0x0801912C 0x0002D0DE", "Holds ")] // 2.22 A for 2.25 A
    [InlineData("USB-C: 5V⎓3A 9V⎓1.66A", "0x0801912C 0x0002D0A7", "Holds ")] // 1.67 A for 1.66 A
    [InlineData("USB-C: 5V⎓3A 9V⎓1.67A", "0x0801912C 0x0002D0A6", "Holds ")] // 1.66 A for 1.67 A
    [InlineData("USB-C: 5V⎓3A 9V⎓2A", "0x0801912C 0x0002D12C", "Holds note")] // 3 A for 2 A
    [InlineData("USB-C: 5V⎓3A 9V⎓2.25A", "0x0801912C 0x0002D0C8", "Fails mismatch")] // 2 A for 2.25 A
    [InlineData("USB-C: 5V⎓3A 9V⎓2.3A", "0x0801912C 0x0002D0DE", "Fails mismatch")] // 2.22 A for 2.3 A
    [InlineData("USB-C: 5V⎓3A 9V⎓2.25A", "0x0801912C 0x0002D0DC", "Fails mismatch")] // 2.2 A for 2.25 A: 19.8 W are no whole watts
    public void Current_IsComparedAsItIsRounded(string label, string words, string expected)
    {
        ProductAnalysis analysis = ProductRun.Capture(Header, words, label);

        string finding = analysis.Summary().FirstOrDefault(static one => one.Contains("printed-current-differs", StringComparison.Ordinal)) ?? "";
        $"{analysis.Statements[1].Verdict} {finding.Split(' ')[0]}".Should().Be(expected);
        analysis.Verdict.Should().Be(analysis.Statements[1].Verdict);
    }

    /// <summary>20 W may be 20.25 W, rounded; then 2.25 A at 9 V are what R3.2v1.1, 10.2 allows.</summary>
    [Theory]
    [InlineData("0x0002D0E1", Verdict.CannotTell)] // 2.25 A: 20.25 W
    [InlineData("0x0002D0FA", Verdict.Fails)] // 2.5 A: 22.5 W
    public void PrintedPower_MayBeRounded(string word, Verdict verdict)
    {
        ProductAnalysis analysis = ProductRun.Capture(Header, $"0x0801912C {word}", "USB-C: 5V⎓3A 9V⎓2.22A (20W Max)");

        analysis.Findings.Single(static one => one.Rule == "current-beyond-pdp").Verdict.Should().Be(verdict);
        analysis.Verdict.Should().Be(verdict);
    }

    /// <summary>PPS with a current that holds at the upper end only, or over part of the range (R3.2v1.1, 6.4.1.2.4.1, PPS Power Limited).</summary>
    [Theory]
    [InlineData("PPS 3.3-11V⎓3A (33W)", "0xC8DC2164", Verdict.Holds, "")] // 5 A, power limited
    [InlineData("PPS 3.3-11V⎓3A", "0xC8DC2164", Verdict.Holds, "")]
    [InlineData("PPS 3.3-11V⎓3A", "0xC0DC2164", Verdict.Holds, "note")] // 5 A up to 11 V
    [InlineData("PPS 3.3-11V⎓5A", "0xC0762164 0xC0DC213C", Verdict.CannotTell, "caution")] // 5 A up to 5.9 V, 3 A up to 11 V
    [InlineData("PPS 3.3-11V⎓5A", "0xC0DC213C", Verdict.Fails, "mismatch")]
    public void RangeCurrent_IsHeldAgainstEachLegalReading(string range, string words, Verdict verdict, string severity)
    {
        ProductAnalysis analysis = ProductRun.Capture(Header, $"{Source27} {words}", $"USB-C: 5V⎓3A 9V⎓3A {range}");

        analysis.Statements.Single(static one => one.Claim.Text().Contains("PPS", StringComparison.Ordinal)).Verdict.Should().Be(verdict);
        (analysis.Summary().FirstOrDefault(static one => one.Contains("printed-current-differs", StringComparison.Ordinal)) ?? "").Split(' ')[0]
            .Should().Be(severity);
    }

    /// <summary>SPR AVS 9 to 20 V 3 A / 5 A (0xE004B1F4, shared/vectors): one current up to 15 V, one above (R3.2v1.1, 6.4.1.2.4.2).</summary>
    [Theory]
    [InlineData("AVS 9-20V⎓3A/5A", "Holds Holds")]
    [InlineData("AVS 9-20V⎓3A/3.25A", "Holds Holds")]
    [InlineData("AVS 9-20V⎓5A", "Holds")]
    [InlineData("AVS 9-20V⎓5A/5A", "Fails Holds")]
    public void AdjustableVoltage_HasACurrentOnEachSideOf15V(string range, string verdicts)
    {
        ProductAnalysis analysis = ProductRun.Capture(
            Header.Replace("R3.0", "R3.2", StringComparison.Ordinal), "0x0801912C 0x0002D12C 0x0004B12C 0x000641F4 0xE004B1F4",
            $"USB-C: 5V⎓3A 9V⎓3A 15V⎓3A 20V⎓5A {range} (100W Max)");

        string.Join(' ', analysis.Statements.Where(static one => one.Claim.Text().Contains("AVS", StringComparison.Ordinal)).Select(static one => one.Verdict))
            .Should().Be(verdicts);
    }

    /// <summary>Of a rating that is read in part nothing is accused.</summary>
    [Theory]
    [InlineData("USB-C: 5V⎓3A 9V⎓3A/5A")]
    [InlineData("USB-C: 5V⎓3A 9V⎓3A/#2A")]
    public void RatingReadInPart_IsNoMismatch(string label)
    {
        ProductAnalysis analysis = ProductRun.Capture(Header, Source20, label);

        analysis.Accusations().Should().BeEmpty();
        analysis.Verdict.Should().Be(Verdict.CannotTell);
        analysis.NextSteps.Should().Contain(static step => step.Contains("read in part", StringComparison.Ordinal));
    }

    /// <summary>A total below a port alone is that of the combinations that come to it.</summary>
    [Fact]
    public void TotalOfACombination_IsHeldAgainstWhatIsUsedTogether()
    {
        const string Label = "USB-C: 65W Max\nUSB-A: 12W Max\nC+A: 45W+12W\nTotal: 57W";
        const string Source65 = "0x0801912C 0x0002D12C 0x0004B12C 0x00064145";

        ProductAnalysis analysis = ProductRun.Several(Label, [("C", "C", Source65), ("C", "C, A", Source45)]);

        analysis.Accusations().Should().BeEmpty();
        analysis.Summary().Should().NotContain(static one => one.Contains("total-below-single-port", StringComparison.Ordinal));
        ProductRun.Several(Label, [("C", "C", Source65), ("C", "C, A", Source65)]).Accusations().Should().NotBeEmpty("65 W are offered beside A");
    }
}
