using Portwitness.Analysis.Catalogue;

namespace Portwitness.Analysis.Tests.Rules;

/// <summary>
/// Requests and their answers (R3.2v1.1, 6.4.2, 6.4.9, 6.4.10.3). What the sink does wrong is a note: it is not the product.
/// Request words are computed from Tables 6.23 to 6.26.
/// </summary>
public class RequestRuleTests
{
    private const string Offers = "source: [5V 3A, 9V 2A, 15V 3A, 20V 5A, battery 3.3-21V 45W, SPR AVS 3A/5A, PPS 5-11V 3A]";
    private const string OffersTo15V = "source: [5V 3A, 9V 3A, 15V 3A, SPR AVS 3A]";
    private const string EprOffers = "source: [5V 3A epr, 9V 3A, 15V 3A, 20V 5A, SPR AVS 3A/5A, 28V 5A, EPR AVS 15-28V 140W]";

    private static readonly string[] Names = [.. RuleSet.OfCaptures.Requests.Select(rule => rule.Description.Name)];

    [Theory]
    [InlineData("request 2 at 2A", "")]
    [InlineData("request 2 at 2.01A", "note request-beyond-offered-current, violation invalid-request-accepted")]
    [InlineData("request 2 at 0A", "")]
    [InlineData("request 2 at 2A mismatch", "")]
    [InlineData("request 5 at 45W", "")]
    [InlineData("request 5 at 45.25W", "note request-beyond-offered-current, violation invalid-request-accepted")]
    [InlineData("request 7 at 11V 3A", "")]
    [InlineData("request 7 at 5V 1A", "")]
    [InlineData("request 7 at 11V 3.05A", "note request-beyond-offered-current, violation invalid-request-accepted")]
    [InlineData("request 7 at 11.02V 3A", "note request-voltage-outside-range, violation invalid-request-accepted")]
    [InlineData("request 7 at 4.98V 3A", "note request-voltage-outside-range, violation invalid-request-accepted")]
    [InlineData("request 6 at 9V 3A", "")]
    [InlineData("request 6 at 8.9V 3A", "note request-voltage-outside-range, violation invalid-request-accepted")]
    [InlineData("request 6 at 14.9V 3A", "")]
    [InlineData("request 6 at 14.9V 3.05A", "note request-beyond-offered-current, violation invalid-request-accepted")]
    [InlineData("request 6 at 15V 5A", "")]
    [InlineData("request 6 at 15V 5.05A", "note request-beyond-offered-current, violation invalid-request-accepted")]
    [InlineData("request 6 at 15.1V 5A", "")]
    [InlineData("request 6 at 20V 5A", "")]
    [InlineData("request 6 at 20.1V 5A", "note request-voltage-outside-range, violation invalid-request-accepted")]
    [InlineData("request 0x6003C23C", "note request-step-invalid, violation invalid-request-accepted")]
    [InlineData("request 0x0000C832", "note request-position-invalid, violation invalid-request-accepted")]
    [InlineData("request 0xF000C832", "caution invalid-request-accepted, note request-position-invalid")]
    [InlineData("request 0x8000C832", "caution invalid-request-accepted, note request-position-invalid")]
    [InlineData("request 2 at 2A give-back", "note request-deprecated-giveback")]
    public void AcceptedRequest_IsJudgedByTheList(string request, string expected)
    {
        Run("", Offers, "attach", "advertise", request, "accept").Should().Be(expected);
    }

    [Theory]
    [InlineData("request 4 at 15V 3A", "")]
    [InlineData("request 4 at 15.1V 1A", "note request-beyond-offered-current, note request-voltage-outside-range, "
        + "violation invalid-request-accepted, violation invalid-request-accepted")]
    [InlineData("request 0x5000C832", "note request-position-invalid, violation invalid-request-accepted")]
    public void RangeThatEndsAt15V_IsKept(string request, string expected)
    {
        Run("R3.2", OffersTo15V, "attach", "advertise", request, "accept").Should().Be(expected);
    }

    // Tables 6.23 to 6.26: bits 21 and 20 of a request for a fixed object, 27, 21, 8 and 7 for PPS, 27, 21 and 8 to 7 for AVS.
    [Theory]
    [InlineData("request 0x2020C832", 1)]
    [InlineData("request 0x2010C832", 1)]
    [InlineData("request 0x2000C832", 0)]
    [InlineData("request 0x27C0C832", 0)] // every flag that R3.2 names
    [InlineData("request 0x5020B4B4", 1)]
    [InlineData("request 0x5000B4B4", 0)]
    [InlineData("request 0x7003843C", 0)]
    [InlineData("request 0x7003853C", 1)]
    [InlineData("request 0x700384BC", 1)]
    [InlineData("request 0x7023843C", 1)]
    [InlineData("request 0x7803843C", 1)]
    [InlineData("request 0x6002D03C", 0)]
    [InlineData("request 0x6002D0BC", 1)]
    [InlineData("request 0x6802D03C", 1)]
    [InlineData("request 0x6022D03C", 1)]
    public void ReservedBitsOfARequest_AreTheSinksFault(string request, int found) =>
        Run("", Offers, "attach", "advertise", request, "accept").Split(", ")
            .Count(told => told == "note request-reserved-bits-set").Should().Be(found);

    // Bit 31 belongs to the position since R3.1; a source of R3.0 reads the three bits below it.
    [Theory]
    [InlineData("R3.0", "note request-position-invalid")]
    [InlineData("R3.1", "note request-position-invalid, violation invalid-request-accepted")]
    [InlineData("R3.2", "note request-position-invalid, violation invalid-request-accepted")]
    public void PositionWithBit31_DependsOnTheEdition(string edition, string expected)
    {
        Run(edition, Offers, "attach", "advertise", "request 0xA000C832", "accept").Should().Be(expected);
    }

    [Theory]
    [InlineData("reject")]
    [InlineData("wait")]
    [InlineData("no-answer")]
    [InlineData("not-supported source")]
    public void InvalidRequestThatIsNotAccepted_IsTheSinksFaultOnly(string answer)
    {
        Run("R3.2", Offers, "attach", "advertise", "request 2 at 3A", answer)
            .Should().Be("note request-beyond-offered-current");
    }

    [Fact]
    public void FaultOfTheSink_LeavesTheVerdictToTheSource()
    {
        CaptureAnalysis analysis = ScriptRun.Of("R3.2", Offers, ["attach", "advertise", "request 2 at 3A", "reject"]);

        analysis.Findings.Single(finding => finding.Rule == "request-beyond-offered-current").Should().Match<Findings.Finding>(
            finding => finding.Verdict == null && finding.Detail.Text().Contains("partner"));
    }

    // 6.4.1.2.4.1.1: within the PPS object nothing is rejected, whatever the power; below 1 A it should be (7.1.4.2.2).
    [Theory]
    [InlineData("R3.2", "request 7 at 11V 3A", "violation valid-request-rejected")]
    [InlineData("R3.2", "request 7 at 11V 1A", "violation valid-request-rejected")]
    [InlineData("R3.2", "request 7 at 11V 0.95A", "")]
    [InlineData("R3.1", "request 7 at 11V 3A", "caution valid-request-rejected")]
    [InlineData("", "request 7 at 11V 3A", "caution valid-request-rejected")]
    [InlineData("R3.2", "request 2 at 2A", "caution valid-request-rejected")]
    [InlineData("R3.2", "request 5 at 45W", "caution valid-request-rejected")]
    [InlineData("R3.2", "request 6 at 9V 3A", "caution valid-request-rejected")]
    public void RejectedRequest_WhileTheListStays(string edition, string request, string expected)
    {
        Run(edition, Offers, "attach", "advertise", request, "reject", "contract 1 at 3A").Should().Be(expected);
        Run(edition, Offers, "attach", "advertise", request, "reject", "advertise").Should().Be(expected);
    }

    [Fact]
    public void RejectedRequestOfRevision2_SaysNothing()
    {
        Run("R2.0", "revision: 2.0\nsource: [5V 3A, 9V 2A]", "attach", "advertise", "request 2 at 2A", "reject").Should().Be("");
    }

    [Fact]
    public void WaitIsNoRejection()
    {
        Run("R3.2", Offers, "attach", "advertise", "request 7 at 11V 3A", "wait").Should().Be("");
    }

    [Theory]
    [InlineData("advertise other", "")]
    [InlineData("pause 1s", "caution valid-request-rejected")]
    [InlineData("hard-reset", "caution valid-request-rejected")]
    [InlineData("detach", "caution valid-request-rejected")]
    public void RejectedPpsRequest_MayBeExplainedByWhatComesNext(string next, string expected)
    {
        const string Lists = "source:\n  one: [5V 3A, 9V 3A, PPS 5-11V 3A]\n  other: [5V 3A, 9V 2A, PPS 5-11V 2A]";
        Run("R3.2", Lists, "attach", "advertise one", "request 3 at 11V 3A", "reject", next).Should().Be(expected);
    }

    // 6.4.1.2.4.1.1: what is attached to another port leaves the request and its list as they are.
    [Theory]
    [InlineData("attach C2")]
    [InlineData("detach C2")]
    public void NeighboursAttach_LeavesTheRefusedRequest(string between)
    {
        const string Lists = "port: C1\nin_use: [C1, C2]\nsource: [5V 3A, 9V 3A, PPS 5-11V 3A]";
        Run("R3.2", Lists, "attach", "advertise", "request 3 at 11V 3A", "reject", between, "advertise").Should().Be("violation valid-request-rejected");
    }

    // 6.4.9, 6.4.10.3.3, 10.2.3.3: 140 W / 28 V is 5 A; at 20.1 V, 5 A is above the row of 5 A only beyond 28 V.
    [Theory]
    [InlineData("request 8 at 5A", "")]
    [InlineData("request 4 at 5A", "")]
    [InlineData("request 9 at 28V 5A", "")]
    [InlineData("request 9 at 28.1V 4.9A", "note request-voltage-outside-range, violation invalid-request-accepted")]
    [InlineData("request 9 at 14.9V 5A", "note request-voltage-outside-range, violation invalid-request-accepted")]
    [InlineData("send sink EPR_Request 0x8047D1F4 0x0008C1F4", "")]
    [InlineData("send sink EPR_Request 0x8047D1F4 0x0008C190", "note request-copy-differs, violation invalid-request-accepted")]
    [InlineData("send sink EPR_Request 0x6047D1F4 0x00000000", "note request-position-invalid, violation invalid-request-accepted")]
    [InlineData("send sink EPR_Request 0xA047D1F4 0x0008C1F4", "note request-position-invalid, violation invalid-request-accepted")]
    [InlineData("send sink Request 0x2004B12C", "note request-wrong-for-mode, violation invalid-request-accepted")]
    public void AcceptedRequestInEprMode_IsJudgedByTheEprList(string request, string expected)
    {
        Run("R3.2", EprOffers, [.. EnterEpr, request, "accept"]).Should().Be(expected);
    }

    // EPR AVS: PDP / V rounded down to 50 mA (6.4.2.8): 120 W / 25 V is 4.8 A.
    [Theory]
    [InlineData("request 9 at 25V 4.8A", "")]
    [InlineData("request 9 at 25V 4.85A", "note request-beyond-offered-current, violation invalid-request-accepted")]
    [InlineData("request 9 at 24V 5A", "")]
    [InlineData("request 9 at 15V 5A", "")]
    [InlineData("request 9 at 15V 5.05A", "note request-beyond-offered-current, violation invalid-request-accepted")]
    public void EprAvsRequest_IsLimitedByThePower(string request, string expected)
    {
        const string Of120W = "source: [5V 3A epr, 9V 3A, 15V 3A, 20V 5A, SPR AVS 3A/5A, 28V 4.28A, EPR AVS 15-28V 120W]";
        Run("R3.2", Of120W, [.. EnterEpr, request, "accept"]).Should().Be(expected);
    }

    [Theory]
    [InlineData("send sink EPR_Request 0x2004B12C 0x0002D12C", "note request-wrong-for-mode, violation invalid-request-accepted")]
    [InlineData("request 2 at 3A", "")]
    public void EprRequestInSprMode_IsWrong(string request, string expected)
    {
        Run("R3.2", EprOffers, "attach", "advertise", request, "accept").Should().Be(expected);
        Run("R3.2", EprOffers, [.. EnterEpr, "exit-epr sink", "advertise", request, "accept"]).Should().Be(expected);
    }

    // An EPR list that was asked for in SPR mode is not what requests refer to.
    [Fact]
    public void EprListInSprMode_ChangesNothing()
    {
        Run("R3.2", EprOffers, "attach", "advertise", "get-epr-source-cap", "request 4 at 5A", "accept").Should().Be("");
        Run("R3.2", EprOffers, "attach", "advertise", "get-epr-source-cap", "request 0x8000C832", "accept")
            .Should().Be("note request-position-invalid, violation invalid-request-accepted");
    }

    // Who is refused stays where it was: EPR_Mode 0x04010000 is Enter Failed, 0x01640000 Enter (Table 6.50).
    [Fact]
    public void EnterThatFails_DoesNotChangeTheMode()
    {
        Run("R3.2", EprOffers, "advertise", "send source EPR_Mode 0x04010000", "request 0x8000C832", "accept")
            .Should().Be("note request-position-invalid, violation invalid-request-accepted");
        Run("R3.2", EprOffers, [.. EnterEpr, "send sink EPR_Mode 0x01640000", "request 8 at 5A", "accept"]).Should().Be("");
    }

    // Without an attach the capture does not show the mode: the kind of list that came unasked tells what requests refer to.
    [Theory]
    [InlineData("request 2 at 3A", "")]
    [InlineData("request 2 at 3.01A", "note request-beyond-offered-current, violation invalid-request-accepted")]
    public void ListThatWasAskedFor_ReplacesOneOfItsKind(string request, string expected)
    {
        const string Lists = "source:\n  one: [5V 3A epr, 9V 2A]\n  other: [5V 3A epr, 9V 3A]\n"
            + "  epr: [5V 3A epr, 9V 2A, 15V 3A, 20V 5A, 28V 5A, EPR AVS 15-28V 140W]";
        Run(
            "R3.2", Lists, "advertise one", "get-epr-source-cap epr", "send sink Get_Source_Cap", "advertise other", request,
            "accept").Should().Be(expected);
    }

    // An SPR list that was asked for in EPR mode is not what requests refer to either.
    [Fact]
    public void SprListInEprMode_ChangesNothing()
    {
        string[] asked =
        [
            .. EnterEpr, "send sink Get_Source_Cap",
            "send source Source_Capabilities 0x0881912C 0x0002D12C 0x0004B12C 0x000641F4 0xE004B1F4",
        ];
        Run("R3.2", EprOffers, [.. asked, "request 8 at 5A", "accept"]).Should().Be("");
        Run("R3.2", EprOffers, [.. asked, "send sink EPR_Request 0xA047D1F4 0x0008C1F4", "accept"])
            .Should().Be("note request-position-invalid, violation invalid-request-accepted");
    }

    // What the recorder missed may have been another list.
    [Fact]
    public void AcceptedRequestAfterAGap_CannotBeTold()
    {
        const string List = "A1212C910108C8D00200";
        string text = "{\"capture\":1,\"port\":\"C1\",\"edition\":\"R3.2\"}\n"
            + $"{{\"t\":0,\"sop\":\"SOP\",\"hex\":\"{List}\"}}\n{{\"t\":10,\"sop\":\"SOP\",\"hex\":\"82102CB10420\"}}\n";

        // Accept with the next MessageID, and with the one after it.
        Findings(text + "{\"t\":20,\"sop\":\"SOP\",\"hex\":\"A303\"}\n").Should().Contain("violation invalid-request-accepted");
        Findings(text + "{\"t\":20,\"sop\":\"SOP\",\"hex\":\"A305\"}\n").Should().Contain("caution invalid-request-accepted");

        // What was received wrongly may have been a list, unless the next MessageID shows that it was the Accept (6.7.1.1).
        const string Garbled = "{\"t\":15,\"sop\":\"SOP\",\"hex\":\"A103\",\"crc_ok\":false}\n";
        Findings(text + Garbled + "{\"t\":20,\"sop\":\"SOP\",\"hex\":\"A305\"}\n").Should().Contain("caution invalid-request-accepted");
        Findings(text + Garbled + "{\"t\":20,\"sop\":\"SOP\",\"hex\":\"A303\"}\n").Should().Contain("violation invalid-request-accepted");
    }

    // After a power role swap the captured port asks and its partner answers (6.3.10).
    [Fact]
    public void RequestOfTheProductAfterARoleSwap_IsItsOwnFault()
    {
        string text = "{\"capture\":1,\"port\":\"C1\",\"edition\":\"R3.2\"}\n"
            + string.Concat(new[] { "AA01", "8300", "A1212C910108C8D00200", "82122CB10420", "A303" }
                .Select((hex, index) => $"{{\"t\":{index * 10},\"sop\":\"SOP\",\"hex\":\"{hex}\"}}\n"));

        Findings(text).Should().Be("note invalid-request-accepted, violation request-beyond-offered-current");
    }

    private static string[] EnterEpr => ["attach", "advertise", "contract 4 at 5A epr", "enter-epr at 140W"];

    private static string Run(string edition, string source, params string[] steps) =>
        ScriptRun.Findings(ScriptRun.Of(edition, source, steps), Names);

    private static string Findings(string text) => ScriptRun.Findings(CaptureRun.Told(text), Names);
}
