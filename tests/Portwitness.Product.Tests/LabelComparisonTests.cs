using Portwitness.Analysis.Evidence;
using Portwitness.PowerDelivery.Limits;

namespace Portwitness.Product.Tests;

/// <summary>
/// Printed against offered. Words come from shared/vectors (kernel header macros and the bit tables of R3.2v1.1), the
/// labels are ours.
/// </summary>
public class LabelComparisonTests
{
    private const string FiveAmpereCable = "\"cable\":{\"kind\":\"detachable\",\"current_a\":5}";
    private const string Sixty5 = "0x0801912C 0x0002D12C 0x0004B12C 0x00064145";

    [Fact]
    public void LabelAndListAgree_Holds()
    {
        ProductAnalysis analysis = ProductRun.Capture(
            FiveAmpereCable, Sixty5, "USB-C: 5V⎓3A 9V⎓3A 15V⎓3A 20V⎓3.25A (65W Max)");

        analysis.Findings.Should().BeEmpty();
        analysis.Verdict.Should().Be(Verdict.Holds);
        analysis.Statements.Should().HaveCount(5).And.OnlyContain(statement => statement.Verdict == Verdict.Holds);
    }

    [Theory]
    [InlineData("USB-C: 5V⎓3A 9V⎓3A 15V⎓3A 20V⎓3.25A", Sixty5, "")]
    // R3.2v1.1 10.2: 20 W may round to 2.22 A or to 2.23 A, and labels print either, or 2.2 A.
    [InlineData("USB-C: 5V⎓3A 9V⎓2.22A", "0x0801912C 0x0002D0DF", "")]
    [InlineData("USB-C: 5V⎓3A 9V⎓2.2A", "0x0801912C 0x0002D0DE", "")]
    [InlineData("USB-C: 5V⎓3A 9V⎓2.22A (20W Max)", "0x0801912C 0x0002D0DE", "")]
    [InlineData("USB-C: 5V⎓3A 9V⎓3A", "0x0801912C 0x0002D0DE", "mismatch printed-current-differs@1")]
    [InlineData("USB-C: 5V⎓3A 9V⎓2A", "0x0801912C 0x0002D12C", "note printed-current-differs@1")]
    [InlineData("USB-C: 5V⎓3A 9V⎓3A 15V⎓3A", "0x0801912C 0x0002D12C", "mismatch printed-rating-not-advertised@1")]
    [InlineData("USB-C: 5V⎓3A", "0x0801912C 0x0002D12C", "mismatch advertised-rating-not-printed@1")]
    [InlineData("USB-C: 65W Max", "0x0801912C 0x0002D12C 0x0004B12C", "mismatch printed-power-exceeds-advertised@1")]
    [InlineData("USB-C: 27W Max", "0x0801912C 0x0002D12C 0x0004B12C", "mismatch advertised-power-exceeds-printed@1")]
    [InlineData("USB-C: 5V⎓3A 9V⎓3A PPS 3.3-11V⎓3A", "0x0801912C 0x0002D12C 0xC0DC213C", "")]
    [InlineData("USB-C: 5V⎓3A 9V⎓3A PPS 3.3-11V⎓3A", "0x0801912C 0x0002D12C 0xC140213C", "")]
    [InlineData("USB-C: 5V⎓3A 9V⎓3A PPS 3.3-16V⎓3A", "0x0801912C 0x0002D12C 0xC0DC213C", "mismatch printed-range-not-advertised@1")]
    [InlineData("USB-C: 5V⎓3A 9V⎓3A PPS 3.3-11V⎓5A", "0x0801912C 0x0002D12C 0xC0DC2132", "mismatch printed-current-differs@1")]
    // More than printed is a promise that is kept, and noted; of two objects that cover the range the nearer one is meant.
    [InlineData("USB-C: 5V⎓3A 9V⎓3A PPS 3.3-11V⎓3A", "0x0801912C 0x0002D12C 0xC0DC2164", "note printed-current-differs@1")]
    [InlineData("USB-C: 5V⎓3A 9V⎓3A PPS 3.3-11V⎓5A", "0x0801912C 0x0002D12C 0xC0DC2164 0xC140213C", "")]
    [InlineData("USB-C: 5V⎓3A 9V⎓3A PD 27W, UFCS 40W", "0x0801912C 0x0002D12C", "")]
    [InlineData("USB-C: 5V⎓3A 9V⎓3A PD 45W", "0x0801912C 0x0002D12C", "mismatch printed-power-exceeds-advertised@1")]
    [InlineData("USB-C: 5V⎓3A 9V⎓3A AVS 9-11V⎓3A", "0x0801912C 0x0002D12C 0xC0DC213C", "mismatch printed-range-not-advertised@1")]
    [InlineData("USB-C: 5V⎓3A 9V⎓3A", "0x0801912C 0x0002D12C 0xC0DC213C", "note advertised-rating-not-printed@1")]
    public void Comparison_ReportsWhatDisagrees(string label, string words, string expected)
    {
        ProductAnalysis analysis = ProductRun.Capture($"{FiveAmpereCable},\"edition\":\"R3.0\"", words, label);

        IEnumerable<string> found = analysis.Summary().Where(line => line.Contains('@', StringComparison.Ordinal));
        string.Join(", ", found).Should().Be(expected);
    }

    // R3.2v1.1 4.4: over a 3 A cable a source offers no more than 3 A, so 5 A on the label cannot be told.
    [Theory]
    [InlineData("\"cable\":{\"kind\":\"detachable\",\"current_a\":3}")]
    [InlineData("")]
    public void ThreeAmpereCable_HidesFiveAmperes(string cable)
    {
        ProductAnalysis analysis = ProductRun.Capture(
            cable, "0x0801912C 0x0002D12C 0x0004B12C 0x0006412C", "USB-C: 5V⎓3A 9V⎓3A 15V⎓3A 20V⎓5A (100W Max)");

        analysis.Accusations().Should().BeEmpty();
        analysis.Verdict.Should().Be(Verdict.CannotTell);
        analysis.NextSteps.Should().Contain(step => step.Contains("5 A cable", StringComparison.Ordinal));
    }

    // 12 V was optional before R3.2 and is not allowed since (R3.2v1.1, 10.2.3.1).
    [Theory]
    [InlineData("R2.0", "mismatch")]
    [InlineData("R3.0", "mismatch")]
    [InlineData("R3.2", "caution")]
    public void TwelveVolts_DependOnTheEdition(string edition, string severity)
    {
        ProductAnalysis analysis = ProductRun.Capture(
            $"\"edition\":\"{edition}\"", "0x0801912C 0x0002D12C", "USB-C: 5V⎓3A 9V⎓3A 12V⎓2.25A");

        analysis.Summary().Should().Contain($"{severity} printed-rating-not-advertised@1");
    }

    // Common practice, no source: such ratings belong to other protocols.
    [Theory]
    [InlineData("USB-C: 5V⎓3A 9V⎓3A 10V⎓4A")]
    [InlineData("USB-C: 5V⎓4.5A 9V⎓3A")]
    [InlineData("USB-C: 5V⎓3A 9V⎓3A 20V⎓6A")]
    public void RatingThatPowerDeliveryCannotExpress_NeedsOtherEvidence(string label)
    {
        ProductAnalysis analysis = ProductRun.Capture("\"edition\":\"R3.0\"", "0x0801912C 0x0002D12C", label);

        analysis.Accusations().Should().BeEmpty();
        analysis.Findings.Should().ContainSingle(finding => finding.Severity != Severity.Note).Which.NextStep.Should().Contain("does not show it");
    }

    // R3.2v1.1 Table 10.12: 28 V needs EPR, which an SPR list does not show. Bit 23 clear says that there is none.
    [Theory]
    [InlineData("0x0881912C 0x0002D12C 0x0004B12C 0x000641F4", "caution")]
    [InlineData("0x0801912C 0x0002D12C 0x0004B12C 0x000641F4", "mismatch")]
    public void PrintedEpr_NeedsAnEprCapture(string words, string severity)
    {
        ProductAnalysis analysis = ProductRun.Capture(
            FiveAmpereCable, words, "USB-C: 5V⎓3A 9V⎓3A 15V⎓3A 20V⎓5A 28V⎓5A");

        analysis.Summary().Should().Contain($"{severity} printed-rating-not-advertised@1");
    }

    [Fact]
    public void PortOfSeveral_WithoutContract_MayListMore()
    {
        ProductAnalysis analysis = ProductRun.Words(
            "0x0801912C 0x0002D0DE", "USB-C1: 5V⎓3A 9V⎓3A\nUSB-C2: 5V⎓3A", port: "C1");

        analysis.Accusations().Should().BeEmpty();
        analysis.Summary().Should().Contain("caution printed-current-differs@1");
        analysis.NextSteps.Should().Contain("Capture C2 alone.");
    }

    [Fact]
    public void PortNeverCaptured_CannotBeTold()
    {
        ProductAnalysis analysis = ProductRun.Capture(
            "\"port\":\"C1\",\"in_use\":[\"C1\"]", "0x0801912C 0x0002D12C", "USB-C1: 5V⎓3A 9V⎓3A\nUSB-C2: 5V⎓3A\nC1+C2: 15W+15W");

        analysis.Verdict.Should().Be(Verdict.CannotTell);
        analysis.NextSteps.Should().Contain(["Capture C2 alone.", "Capture C1 while C1 and C2 are in use."]);
        analysis.Statements.Where(statement => statement.Verdict == Verdict.Holds).Should().HaveCount(2);
    }

    // R3.2v1.1, 6.4.11: the words of the messages are those of the bit tables. A port that declares what is printed agrees.
    [Theory]
    [InlineData("AB133C3C3C80", "mismatch declared-power-differs-from-printed@1")]
    [InlineData("AB1341414180", "")]
    public void DeclaredPower_IsHeldAgainstTheMaximum(string sourceInfo, string expected)
    {
        ProductAnalysis analysis = ProductRun.Words(
            $$$"""
            {"capture":1,"port":"C","in_use":["C"],"cable":{"kind":"detachable","current_a":5}}
            {"t":1000,"sop":"SOP","hex":"{{{sourceInfo}}}"}
            {"t":9000,"sop":"SOP","hex":"A1412C9101082CD102002CB1040045410600"}
            """,
            "USB-C: 5V⎓3A 9V⎓3A 15V⎓3A 20V⎓3.25A (65W Max)");

        string.Join(", ", analysis.Summary().Where(line => line.Contains('@', StringComparison.Ordinal))).Should().Be(expected);
    }

    // Only a power role swap that is accepted and completed turns the roles round (R3.2v1.1, 6.3.9 to 6.3.11). DR_Swap 0x09, PR_Swap
    // 0x0A, Reject 0x04, Accept 0x03, PS_RDY 0x06; 0x02 and 0x06 in the second byte are MessageIDs 1 and 3 of a sink.
    [Theory]
    [InlineData("", true)]
    [InlineData("8902", true)]
    [InlineData("8902 A303", true)]
    [InlineData("8A02 A403", true)]
    [InlineData("AA03 8C02", true)]
    [InlineData("8A02 A303 A604 8607", false)]
    [InlineData("8A02 A303", false)]
    [InlineData("8A02", false)]
    [InlineData("A903 8309", false)] // MessageIDs show that messages are missing, among which a swap has room
    public void PrintedInput_IsJudgedUnlessThePowerRolesWereSwapped(string swap, bool isJudged)
    {
        int said = swap.Split(' ', StringSplitOptions.RemoveEmptyEntries).Count(static hex => (Convert.ToInt32(hex[2..], 16) & 1) != 0);
        string messages = string.Concat(swap.Split(' ', StringSplitOptions.RemoveEmptyEntries).Select(
            static (hex, at) => $"{{\"t\":{2_000 + (1_000 * at)},\"sop\":\"SOP\",\"hex\":\"{hex}\"}}\n"));
        ProductAnalysis analysis = ProductRun.Words(
            "{\"capture\":1,\"port\":\"C\",\"in_use\":[\"C\"]}\n{\"t\":1000,\"sop\":\"SOP\",\"hex\":\"A1112C910120\"}\n" + messages
            + $"{{\"t\":9000,\"sop\":\"SOP\",\"hex\":\"A4{0x23 + (2 * said):X2}2C9101202CD10200\"}}\n",
            "USB-C Input: 5V⎓3A 9V⎓2A\nUSB-C Output: 5V⎓3A");

        analysis.Findings.Any(static finding => finding.Rule == "sink-current-exceeds-printed").Should().Be(isJudged);
    }

    // R3.2v1.1, 6.4.1.3. Header 0x21A4 is a source's, 0x20A4 a sink's: that list is the partner's and says nothing of the label.
    [Theory]
    [InlineData("A421", "5V⎓3A 9V⎓2A", "mismatch sink-current-exceeds-printed@1", 2)]
    [InlineData("A421", "5V⎓3A 9V⎓3A", "", 2)]
    [InlineData("A421", "5V⎓3A 12V⎓1.5A", "", 2)]
    [InlineData("A420", "5V⎓3A 9V⎓2A", "", 0)]
    public void PrintedInput_IsHeldAgainstTheListOfTheSink(string header, string input, string expected, int statements)
    {
        ProductAnalysis analysis = ProductRun.Words(
            $$$"""
            {"capture":1,"port":"C","in_use":["C"]}
            {"t":1000,"sop":"SOP","hex":"A1112C910120"}
            {"t":9000,"sop":"SOP","hex":"{{{header}}}2C9101202CD10200"}
            """,
            $"USB-C Input: {input}\nUSB-C Output: 5V⎓3A");

        string.Join(", ", analysis.Summary().Where(line => line.Contains('@', StringComparison.Ordinal))).Should().Be(expected);
        analysis.Statements.Count(statement => statement.Claim.Text().Contains("takes", StringComparison.Ordinal)).Should().Be(statements);
    }

    [Fact]
    public void PadInACombination_NeedsAMeasurement()
    {
        ProductAnalysis analysis = ProductRun.Capture(
            "\"port\":\"C1\",\"in_use\":[\"C1\"]", "0x0801912C 0x0002D12C", "USB-C1: 5V⎓3A 9V⎓3A\nC1+Wireless: 15W+10W");

        analysis.Statements.Should().Contain(statement => statement.Port == "Wireless" && statement.Verdict == Verdict.CannotTell
            && statement.NextStep.Text().Contains("wireless receiver", StringComparison.Ordinal));
    }

    [Fact]
    public void UnreadText_KeepsTheVerdictOpen()
    {
        ProductAnalysis analysis = ProductRun.Capture(
            FiveAmpereCable, "0x0801912C 0x0002D12C", "USB-C: 5V⎓3A 9V⎓3A\n%%% ??? 7q 9V");

        analysis.Verdict.Should().Be(Verdict.CannotTell);
        analysis.NextSteps.Should().Contain(step => step.StartsWith("Read line 2", StringComparison.Ordinal));
    }

    // A total is the most of any arrangement. A port that was not captured can only add to what the others offer.
    [Theory]
    [InlineData("C1: 27W Max\nC2: 27W Max\nC1+C2: 15W+15W\nTotal: 30W", "C1=27, C2=27, C1+C2=15 15", Verdict.Holds, "")]
    [InlineData("C1: 27W Max\nC2: 15W Max\nC1+C2: 15W+15W\nTotal: 27W", "C1=27, C2=15, C1+C2=15 15", Verdict.Fails, "combination-budget-exceeded")]
    [InlineData("C1: 27W Max\nC2: 15W Max\nTotal: 27W", "C1=27", Verdict.Holds, "")]
    [InlineData("C1: 27W Max\nC2: 15W Max\nTotal: 45W", "C1=27, C2=15, C1+C2=15 15", Verdict.Fails, "printed-power-exceeds-advertised")]
    [InlineData("C1: 27W Max\nC2: 15W Max\nTotal: 45W", "C1=27, C2=15", Verdict.CannotTell, "")]
    [InlineData("C1: 27W Max\nA: 12W Max\nC1+A: 15W total", "C1=27, C1+A=27", Verdict.Fails, "advertised-power-exceeds-printed, arrangement-not-captured")]
    [InlineData("C1: 27W Max\nA: 12W Max\nC1+A: 30W total", "C1=27, C1+A=27", Verdict.CannotTell, "arrangement-not-captured")]
    [InlineData("C1: 27W Max\nC2: 15W Max\nC1+C2: 15W+15W\nMax Output: 27W", "C1=27, C2=15, C1+C2=15 15", Verdict.CannotTell, "combination-budget-exceeded")]
    public void Total_IsTheMostOfAnyArrangement(string label, string offered, Verdict verdict, string rule)
    {
        List<(string Port, string InUse, string Words)> captures = [];
        foreach (string[] arrangement in offered.Split(", ").Select(static one => one.Split('=')))
        {
            string[] ports = arrangement[0].Split('+');
            captures.AddRange(arrangement[1].Split(' ').Select((watts, index) =>
                (ports[index], string.Join(", ", ports), watts == "27" ? "0x0801912C 0x0002D12C" : "0x0801912C")));
        }

        ProductAnalysis analysis = ProductRun.Several(label, captures);

        Statement total = analysis.Statements.Single(static one => one.Claim.Text().Contains("in total", StringComparison.Ordinal) || one.Claim.Text().Contains("together", StringComparison.Ordinal));
        total.Verdict.Should().Be(verdict, total.Evidence.Text());
        string.Join(", ", analysis.Findings.Where(finding => finding.LabelLine == total.At.Line && finding.Severity != Severity.Note).Select(static finding => finding.Rule))
            .Should().Be(rule);
    }

    [Fact]
    public void StatementsBeyondTheLimit_AreJudgedAndCounted()
    {
        string label = string.Concat(Enumerable.Repeat("USB-C: 5V⎓3A 9V⎓3A\n", 2000)) + "USB-C: 9V⎓3.5A\n";

        ProductAnalysis analysis = ProductRun.Capture($"{FiveAmpereCable},\"edition\":\"R3.0\"", "0x0801912C 0x0002D12C", label);

        analysis.Statements.Should().HaveCount(1000);
        analysis.Faults.Should().ContainSingle().Which.Fault.Detail.Should().StartWith("3001 more printed statements are not listed");
        analysis.Summary().Should().Contain("caution printed-current-differs@2001");
        analysis.Verdict.Should().Be(Verdict.CannotTell);
    }

    // A label that is misread accuses the innocent: what could not be read may be what seems to be missing.
    [Fact]
    public void UnreadWordsOfAPort_KeepUnprintedOffersOpen()
    {
        ProductAnalysis analysis = ProductRun.Capture(
            FiveAmpereCable, "0x0801912C 0x0002D12C", "USB-C: 5V⎓3A 9V#3A");

        analysis.Accusations().Should().BeEmpty();
        analysis.Summary().Should().Contain("caution advertised-rating-not-printed@1");
    }

    [Fact]
    public void NoLabel_JudgesTheListAlone()
    {
        // R3.2 asks for SPR AVS (Table 10.2), which a managed port may leave out before its first contract.
        ProductRun.Words(Sixty5, "", Editions.R32).Findings.Select(finding => finding.Rule).Should().BeEquivalentTo(
            "current-above-3a-without-5a-cable", "spr-avs-missing");
    }
}
