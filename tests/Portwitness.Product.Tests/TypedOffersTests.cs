using System.Globalization;
using Portwitness.Analysis.Evidence;
using Portwitness.Analysis.Findings;

namespace Portwitness.Product.Tests;

/// <summary>
/// Offers that were typed, in a product file. Lists are those of R3.2v1.1, Table 10.2: what keeps to it accuses nobody, however a display
/// rounds (10.2: PDP / V is rounded down or up to 10 mA).
/// </summary>
public class TypedOffersTests
{
    private const string Label = "USB-C1: 5V⎓3A 9V⎓3A 15V⎓3A 20V⎓3.35A (67W Max)\n  USB-C2: 5V⎓3A 9V⎓2.22A (20W Max)";

    [Fact]
    public void ListsOfTwoPorts_AreHeldAgainstTheLabel()
    {
        ProductAnalysis analysis = Check(
            """
              - {port: C1, in_use: [C1], list: [5V 3A, 9V 3A, 15V 3A, 20V 3.35A], read_on: 2026-03-02, from: a display, under_contract: true}
              - port: C2
                list: "5V 3A, 9V 2.2A"
            """);

        analysis.Faults.Should().BeEmpty();
        analysis.Statements.Should().HaveCount(8).And.OnlyContain(static one => one.Verdict == Verdict.Holds);
        analysis.Accusations().Should().BeEmpty();
        analysis.Captures.Select(static capture => capture.File).Should().Equal("offers of C1, read off a display on 2026-03-02", "offers of C2");
    }

    // A managed port need not list everything before its first contract (6.4.11): only what was read under one settles it.
    [Theory]
    [InlineData(", under_contract: true", Verdict.Fails)]
    [InlineData("", Verdict.CannotTell)]
    public void RatingThatIsNotOffered_FailsUnderAContract(string stated, Verdict verdict) => Check(
        $"  - {{port: C1, list: [5V 3A, 9V 3A, 15V 3A, 20V 3.25A]{stated}}}").Statements
        .Single(static one => one.Claim.Text().Contains("3.35", StringComparison.Ordinal)).Verdict.Should().Be(verdict);

    [Fact]
    public void OfferThatCannotBeRead_IsNamedAndLeavesTheRestOpen()
    {
        ProductAnalysis analysis = Check("  - {port: C1, list: [5V 3A, 9V 3B, 15V 3A, 20V 3.35A], under_contract: true}");

        FileFault fault = analysis.Faults.Should().ContainSingle().Subject;
        (fault.Fault.Code, fault.Fault.Line).Should().Be((ProductFaultCodes.ValueWrong, 7L));
        fault.Fault.Detail.Should().Contain("in \"9V 3B\"");
        analysis.Accusations().Should().BeEmpty();
        analysis.Statements.Should().NotContain(static one => one.Verdict == Verdict.Fails);
    }

    [Theory]
    [InlineData("  - {list: [5V 3A]}")]
    [InlineData("  - {port: C1}")]
    [InlineData("  - {port: C1, list: []}")]
    public void OffersWithoutPortOrList_AreAFault(string offers) => Check(offers).Faults.Should().ContainSingle()
        .Which.Fault.Detail.Should().Contain("typed offers need");

    [Fact]
    public void MemberThatIsNotKnown_IsNamedWithTheNearest() => Check("  - {port: C1, list: [5V 3A], read_at: x}").Faults
        .Should().ContainSingle().Which.Fault.Detail.Should().Contain("read_on");

    // Of a typed list and a capture the capture counts; what a display rounds, or shows in another order, is no difference.
    [Theory]
    [InlineData("5V 3A, 9V 2.22A", null)]
    [InlineData("9V 2.2A, 5V 3A", null)]
    [InlineData("5V 3A, 9V 3B", null)] // not read whole
    [InlineData("5V 3A, 9V 2.23A", "fixed 9 V 2.23 A")]
    [InlineData("5V 3A, 9V 2.4A", "fixed 9 V 2.4 A")]
    [InlineData("5V 3A", "no such object")]
    [InlineData("5V 3A, 9V 2.22A, 12V 1.67A", "fixed 12 V 1.67 A")]
    public void TypedOffers_AreHeldAgainstACapture(string list, string? observed)
    {
        using ProductCheck check = ProductCheck.ForProduct(
            "product.yaml",
            $"label: \"USB-C: 5V⎓3A 9V⎓2.22A (20W Max)\"\ncaptures:\n  - {{file: c.words, port: C, in_use: [C]}}\noffers:\n  - {{port: C, list: \"{list}\"}}\n",
            edition: null);
        check.Open("c.words").Write("0x0801912C 0x0002D0DE"u8.ToArray());
        check.Close();

        ProductAnalysis analysis = check.Complete();

        analysis.Statements.Should().OnlyContain(static one => one.Verdict == Verdict.Holds, "the capture counts");
        (analysis.Findings.SingleOrDefault(static finding => finding.Rule == "typed-offers-differ")?.Observed?.Text()).Should().Be(observed);
    }

    // R3.2v1.1, Table 10.2: above 27 W 15 V is normative. A person may have skipped the line.
    [Theory]
    [InlineData("", Severity.Caution)]
    [InlineData(", complete: false", Severity.Caution)]
    [InlineData(", complete: true", Severity.Violation)]
    public void NormativeVoltageThatNobodyTyped_IsAskedAbout(string stated, Severity severity)
    {
        ProductAnalysis analysis = ProductRun.Typed(
            $"ports: {{C: {{cable: captive}}}}\nlabel: \"USB-C: 5V⎓3A 20V⎓3.25A (65W Max)\"\noffers:\n  - {{port: C, list: [5V 3A, 9V 3A, 20V 3.25A], under_contract: true{stated}}}\n");

        Finding finding = analysis.Findings.Should().ContainSingle(static one => one.Rule == "normative-voltage-missing").Subject;
        finding.Severity.Should().Be(severity);
        if (severity == Severity.Caution)
        {
            finding.NextStep.Text().Should().Contain("Is that all that the display showed?").And.Contain("complete: true");
        }
    }

    [Theory]
    [InlineData("", Verdict.CannotTell)]
    [InlineData(", complete: true", Verdict.Fails)]
    public void PrintedVoltageThatNobodyTyped_IsAskedAbout(string stated, Verdict verdict) => ProductRun.Typed(
        $"label: \"USB-C: 5V⎓3A 9V⎓3A 15V⎓2A (30W Max)\"\noffers:\n  - {{port: C, list: [5V 3A, 9V 3A], under_contract: true{stated}}}\n").Statements
        .Single(static one => one.Claim.Text().Contains("15 V", StringComparison.Ordinal)).Verdict.Should().Be(verdict);

    // The better evidence counts, in whatever order it is named.
    [Theory]
    [InlineData("obj0=0x0801912C obj1=0x0002D0DE", null)]
    [InlineData("obj0=0x0801912C", null)] // an excerpt
    [InlineData("obj0=0x0801912C obj1=0x0002D12C", "fixed 9 V 3 A")]
    [InlineData("p/source-capabilities/1:fixed_supply/voltage:5000mV\np/source-capabilities/1:fixed_supply/maximum_current:3000mA\n", null)] // some kernels leave objects out
    [InlineData("p/source-capabilities/1:fixed_supply/voltage:5000mV\np/source-capabilities/1:fixed_supply/maximum_current:2000mA\n", "fixed 5 V 2 A")]
    public void QuotedAndShownLists_AreHeldAgainstARecording(string other, string? observed)
    {
        using ProductCheck check = ProductCheck.ForProduct(
            "product.yaml",
            "label: \"USB-C: 5V⎓3A 9V⎓2.22A (20W Max)\"\ncaptures:\n  - {file: other, port: C, in_use: [C]}\n  - {file: recorded, port: C, in_use: [C]}\n", edition: null);
        check.Open("other").Write(System.Text.Encoding.UTF8.GetBytes(other));
        check.Close();
        check.Open("recorded").Write("{\"capture\":1}\n{\"t\":1,\"sop\":\"SOP\",\"hex\":\"A1212C910108DED00200\"}\n"u8.ToArray());
        check.Close();

        ProductAnalysis analysis = check.Complete();

        analysis.Statements.Should().OnlyContain(static one => one.Verdict == Verdict.Holds, "the recording counts");
        (analysis.Findings.SingleOrDefault(static finding => finding.Rule == "typed-offers-differ")?.Observed?.Text()).Should().Be(observed);
    }

    // Every whole PDP from 10 to 100 W, rounded down and up, each current rounded to tenths as a display would: nobody is accused, and what a
    // label prints to the hundredth holds.
    [Fact]
    public void ListsRoundedToTenths_AccuseNobody()
    {
        for (int watts = 10; watts <= 100; watts++)
        {
            foreach (bool isUp in new[] { false, true })
            {
                (int Millivolts, int Milliamperes)[] modes = [.. Table102(watts, isUp)];
                string label = "USB-C: " + string.Join(' ', modes.Select(mode => $"{mode.Millivolts / 1000}V⎓{Amperes(mode.Milliamperes, "0.##")}A"))
                    + $" ({watts}W Max)";
                string list = string.Join(", ", modes.Select(mode => $"{mode.Millivolts / 1000}V {Amperes(mode.Milliamperes, "0.0")}A"));

                ProductAnalysis analysis = ProductRun.Typed($"label: |\n  {label}\noffers:\n  - {{port: C, list: \"{list}\"}}\nports: {{C: {{cable: captive}}}}\n");

                analysis.Accusations().Should().BeEmpty("{0}: {1}", label, list);
                analysis.Statements.Should().OnlyContain(static one => one.Verdict != Verdict.Fails, "{0}: {1}", label, list);
            }
        }
    }

    private static IEnumerable<(int Millivolts, int Milliamperes)> Table102(int watts, bool isUp)
    {
        int At(int volts) => (isUp ? (watts * 100 + volts - 1) / volts : watts * 100 / volts) * 10;
        yield return (5_000, watts <= 15 ? At(5) : 3_000);
        if (watts > 15)
        {
            yield return (9_000, watts <= 27 ? At(9) : 3_000);
        }

        if (watts > 27)
        {
            yield return (15_000, watts <= 45 ? At(15) : 3_000);
        }

        if (watts > 45)
        {
            yield return (20_000, At(20));
        }
    }

    private static string Amperes(int milliamperes, string format) => (milliamperes / 1000m).ToString(format, CultureInfo.InvariantCulture);

    private static ProductAnalysis Check(string offers) => ProductRun.Typed($"label: |\n  {Label}\nproduct: TH-67\noffers:\n\n{offers}\n");
}
