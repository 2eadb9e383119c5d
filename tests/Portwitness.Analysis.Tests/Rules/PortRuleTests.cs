using Portwitness.Analysis.Catalogue;
using Portwitness.Analysis.Conversation;
using Portwitness.Analysis.Evidence;
using Portwitness.Analysis.Findings;
using Portwitness.PowerDelivery.Units;

namespace Portwitness.Analysis.Tests.Rules;

/// <summary>Rules over several messages of a port. SIDO words are computed from R3.2v1.1 Table 6.51, blocks from Table 6.54.</summary>
public class PortRuleTests
{
    private const string Of65W = "source: [5V 3A, 9V 3A, 15V 3A, 20V 3.25A, SPR AVS 3A/3.25A]";
    private const string Of20W = "source: [5V 3A, 9V 2.22A]";
    private const string Of140W = "source: [5V 3A epr, 9V 3A, 15V 3A, 20V 5A, SPR AVS 3A/5A, 28V 5A, EPR AVS 15-28V 140W]";
    private static readonly string Zeroes23 = string.Concat(Enumerable.Repeat("00", 23));

    private static readonly string[] Names = [.. RuleSet.OfCaptures.Ports.Select(rule => rule.Description.Name)];

    // Guaranteed, maximum, present and reported PDP: 6.4.11. 9 V 2.22 A is 19.98 W.
    [Theory]
    [InlineData(Of65W, "0x80414141", "")]
    [InlineData(Of65W, "0x80414041", "")]
    [InlineData(Of65W, "0x80414241", "violation source-info-inconsistent")]
    [InlineData(Of65W, "0x80414140", "violation source-info-inconsistent")]
    [InlineData(Of65W, "0x80414142", "violation source-info-inconsistent")]
    [InlineData(Of20W, "0x80141413", "")]
    [InlineData(Of20W, "0x80141414", "violation source-info-inconsistent")]
    [InlineData("source: [5V 3A, 9V 2.23A]", "0x80141414", "")]
    [InlineData(Of65W, "0x00414041", "")]
    [InlineData(Of65W, "0x00413F41", "caution source-info-inconsistent")]
    [InlineData(Of65W, "0x00644141", "")]
    public void SourceInfo_IsHeldAgainstTheList(string source, string info, string expected)
    {
        Run(source, "attach", "advertise", $"send source Source_Info {info}").Should().Be(expected);
    }

    [Fact]
    public void MaximumPdpThatChanges_IsInconsistent()
    {
        Run(Of65W, "attach", "advertise", "send source Source_Info 0x80414141", "send source Source_Info 0x80404041")
            .Should().Be("violation source-info-inconsistent");
    }

    [Fact]
    public void ReportedPdp_MayBeThatOfEitherList()
    {
        Run(Of140W, "attach", "advertise", "get-epr-source-cap", "send source Source_Info 0x808C8C64").Should().Be("");
        Run(Of140W, "attach", "advertise", "get-epr-source-cap", "send source Source_Info 0x808C8C8C").Should().Be("");
        Run(Of140W, "attach", "advertise", "get-epr-source-cap", "send source Source_Info 0x808C8C65")
            .Should().Be("violation source-info-inconsistent");
    }

    [Fact]
    public void SourceInfoBeforeAnyList_SaysNothing()
    {
        Run(Of65W, "attach", "send source Source_Info 0x80414113", "advertise").Should().Be("");
    }

    // Two objects are an addition that R3.2v1.1 does not have; the first says nothing certain then.
    [Fact]
    public void SourceInfoOfTwoObjects_IsNotJudged()
    {
        Run(Of65W, "attach", "advertise", "send source Source_Info 0x80414113 0x40000000").Should().Be("");
    }

    [Theory]
    [InlineData("41", "00", "")]
    [InlineData("40", "00", "violation declared-pdp-differs")]
    [InlineData("42", "00", "violation declared-pdp-differs")]
    [InlineData("00", "00", "")]
    public void Ratings_AreHeldAgainstSourceInfo(string spr, string epr, string expected)
    {
        Run(
            Of65W, "attach", "advertise", "send source Source_Info 0x80414141",
            $"send source Source_Capabilities_Extended {Zeroes23}{spr}{epr}").Should().Be(expected);
    }

    // Half watts below 10 W are not carried (6.4.11).
    [Theory]
    [InlineData("08", "")]
    [InlineData("07", "")]
    [InlineData("06", "violation declared-pdp-differs")]
    public void RatingBelow10W_MayDifferByTheHalfWatt(string spr, string expected)
    {
        Run(
            "source: [5V 1.5A]", "attach", "advertise", "send source Source_Info 0x80080807",
            $"send source Source_Capabilities_Extended {Zeroes23}{spr}00").Should().Be(expected);
    }

    [Fact]
    public void EprRating_IsTheLargerOne()
    {
        string[] steps = ["attach", "advertise", "send source Source_Info 0x808C8C64"];
        Run(Of140W, [.. steps, $"send source Source_Capabilities_Extended {Zeroes23}648C"]).Should().Be("");
        Run(Of140W, [.. steps, $"send source Source_Capabilities_Extended {Zeroes23}6478"])
            .Should().Be("violation declared-pdp-differs");

        // The shorter block of older editions says nothing of EPR (from memory).
        Run(Of140W, [.. steps, $"send source Source_Capabilities_Extended {Zeroes23}64"]).Should().Be("");
    }

    [Theory]
    [InlineData(65_000, "")]
    [InlineData(67_000, "caution declared-pdp-differs")]
    public void PrintedPower_CannotSettleIt(int printed, string expected)
    {
        CaptureAnalysis analysis = ScriptRun.Of(
            "R3.2", Of65W, ["attach", "advertise", "send source Source_Info 0x80414141"],
            new CaptureOptions { File = "capture", PrintedPdp = Power.FromMilliwatts(printed) });

        ScriptRun.Findings(analysis, Names).Should().Be(expected);
    }

    // What happens at a neighbour hides no message of this port: what it said of its list still counts (6.4.11).
    [Theory]
    [InlineData("attach C2", "violation source-info-inconsistent")]
    [InlineData("detach C2", "violation source-info-inconsistent")]
    [InlineData("detach", "")]
    public void NeighboursAttach_IsNotThePortsOwn(string between, string expected)
    {
        Run($"port: C1\nin_use: [C1]\n{Of65W}", "attach", "advertise", between, "send source Source_Info 0x80414142").Should().Be(expected);
    }

    // 6.4.1.2.1: the printed text of an object leaves its flags out, so that the field is named. Bit 27 is Unconstrained Power.
    [Fact]
    public void ListOfTheSameText_TellsTheFieldThatChanged()
    {
        CaptureAnalysis analysis = ScriptRun.Of(
            "R3.2", "source:\n  one: [5V 3A, 9V 3A]\n  other: [5V 3A unconstrained usb-communications, 9V 3A]", ["attach", "advertise one", "advertise other"]);

        Finding finding = analysis.Findings.Single(static one => one.Rule == "capabilities-changed");
        finding.Detail.Should().Be(
            "Offered before and now: fixed 5 V 3 A, fixed 9 V 3 A. Changed: object 1: Unconstrained Power (bit 27) 0, now 1, "
            + "USB Communications Capable (bit 26) 0, now 1.");
        finding.Observed.Should().NotBe(finding.Expected.Text());
    }

    // 6.4.1.4: bits 29 and 25 are the same in both lists of a port.
    [Theory]
    [InlineData("0x2201912C", "")]
    [InlineData("0x2001912C", "violation power-role-flag-inconsistent")]
    [InlineData("0x0201912C", "violation power-role-flag-inconsistent")]
    [InlineData("0x3A01912C", "")]
    public void SinkListOfTheSource_HasTheSameRoleFlags(string sink, string expected)
    {
        const string Dual = "source: [5V 3A dual-role-power dual-role-data, 9V 3A]";
        Run(Dual, "attach", "advertise", $"send source Sink_Capabilities {sink}").Should().Be(expected);
        Run(Dual, "attach", "advertise", $"send sink Sink_Capabilities {sink}").Should().Be("");
    }

    [Fact]
    public void ListOfThePartner_IsNotTheProducts()
    {
        CaptureAnalysis analysis = ScriptRun.Of(
            "R3.2", Of20W, ["attach", "advertise", "send sink Source_Capabilities 0x0002D12C 0x0001912C", "request 2 at 2.22A", "accept"]);

        ScriptRun.Findings(analysis, RuleSet.OfCaptures.Capabilities.Select(rule => rule.Description.Name)).Should().Be(
            "note first-object-not-vsafe5v, note objects-out-of-order");
        analysis.Advertisements.Select(list => list.ByPartner).Should().Equal(false, true);
    }

    [Theory]
    [InlineData("epr", "")]
    [InlineData("", "violation epr-flag-inconsistent, violation epr-flag-inconsistent")]
    public void EprObjects_NeedTheFlag(string flag, string expected)
    {
        string source = Of140W.Replace("3A epr", $"3A {flag}".TrimEnd(), StringComparison.Ordinal);
        Run(source, "attach", "advertise", "get-epr-source-cap").Should().Be(expected);
    }

    // An EPR source has more than 100 W (10.2.3.3).
    [Theory]
    [InlineData("5V 3A epr", "0x80646464", "violation epr-flag-inconsistent")]
    [InlineData("5V 3A epr", "0x808C8C64", "")]
    [InlineData("5V 3A", "0x80646464", "")]
    [InlineData("5V 3A", "0x80656464", "violation epr-flag-inconsistent")]
    public void DeclaredRating_DecidesTheFlag(string first, string info, string expected)
    {
        Run($"source: [{first}, 9V 3A, 15V 3A, 20V 5A, SPR AVS 3A/5A]", "attach", "advertise", $"send source Source_Info {info}")
            .Should().Be(expected);
    }

    // 6.5.15.1; at 20 V an EPR source may give less in SPR mode (10.2.3.3).
    [Theory]
    [InlineData("5V 3A epr, 9V 3A, 15V 3A, 20V 5A, SPR AVS 3A/5A", "")]
    [InlineData("5V 3A epr, 9V 3A, 15V 3A, 20V 4A, SPR AVS 3A/4A", "")]
    [InlineData("5V 3A epr, 9V 3A, 15V 2A, 20V 5A, SPR AVS 3A/5A", "caution epr-positions-differ-from-spr")]
    [InlineData("5V 3A epr, 9V 3A, 15V 3A, 20V 5A", "violation epr-positions-differ-from-spr")]
    [InlineData("5V 3A epr, 9V 3A, 15V 3A, 20V 5A, SPR AVS 3A/5A, PPS 5-21V 5A", "violation epr-positions-differ-from-spr")]
    [InlineData("5V 3A epr, 9V 3A, 20V 5A, SPR AVS 3A/5A", "violation epr-positions-differ-from-spr")]
    public void EprPositions_AreThoseOfTheSprList(string spr, string expected)
    {
        string lists = $"source:\n  spr: [{spr}]\n  epr: {Of140W[8..]}";
        CaptureAnalysis analysis = ScriptRun.Of(
            "R3.2", lists, ["attach", "advertise spr", "get-epr-source-cap epr"],
            new CaptureOptions { File = "capture", Sharing = PowerSharing.None });

        ScriptRun.Findings(analysis, Names).Should().Be(expected);
    }

    [Fact]
    public void EprPositionsOfAPortThatMayShare_CannotBeTold()
    {
        const string Lists = "source:\n  spr: [5V 3A epr, 9V 3A, 20V 5A, SPR AVS 3A/5A]\n"
            + "  epr: [5V 3A epr, 9V 3A, 15V 3A, 20V 5A, SPR AVS 3A/5A, 28V 5A, EPR AVS 15-28V 140W]";
        Run(Lists, "attach", "advertise spr", "get-epr-source-cap epr").Should().Be("caution epr-positions-differ-from-spr");

        // The list that comes next explains it.
        Run(Lists, "attach", "advertise spr", "get-epr-source-cap epr", "advertise epr").Should().Be("note capabilities-changed");
    }

    [Fact]
    public void ListThatChanges_IsNotedWithinOneAttachOnly()
    {
        const string Lists = "source:\n  one: [5V 3A, 9V 3A]\n  other: [5V 3A, 9V 2A]";
        Run(Lists, "attach", "advertise one", "advertise other").Should().Be("note capabilities-changed");
        Run(Lists, "attach", "advertise one", "advertise one").Should().Be("");
        Run(Lists, "attach", "advertise one", "detach", "attach", "advertise other").Should().Be("");
        Run(Lists, "attach", "advertise one", "attach C2", "advertise other").Should().Be("");
    }

    // Table 6.54: the EPR rating is 0 for an SPR source; 10.1: above 100 W a source is one of EPR.
    [Theory]
    [InlineData("5V 3A", "64", "00", "")]
    [InlineData("5V 3A", "64", "8C", "violation epr-flag-inconsistent")]
    [InlineData("5V 3A epr", "64", "8C", "")]
    [InlineData("5V 3A epr", "64", "00", "violation epr-flag-inconsistent")]
    public void EprRating_DecidesTheFlag(string first, string spr, string epr, string expected) => Run(
        $"source: [{first}, 9V 3A, 15V 3A, 20V 5A, SPR AVS 3A/5A]", "attach", "advertise",
        $"send source Source_Capabilities_Extended {Zeroes23}{spr}{epr}").Should().Be(expected);

    // A source above 100 W lists 20 V above 15 W (Table 10.3); from 27 W to 45 W the table's cells are not confirmed.
    [Theory]
    [InlineData("9V 3A, 15V 3A, 20V 3A", "")]
    [InlineData("9V 3A, 15V 3A", "caution epr-flag-inconsistent")]
    [InlineData("9V 2A", "violation epr-flag-inconsistent")]
    [InlineData("9V 1.66A", "")]
    public void EprCapableList_Has20V(string rest, string expected) => Run(
        $"source:\n  whole: [5V 3A epr, 9V 3A, 15V 3A, 20V 5A, SPR AVS 3A/5A]\n  part: [5V 3A epr, {rest}]",
        "attach", "advertise whole", "contract 1 at 1A", "advertise part")
        .Replace("note capabilities-changed", "", StringComparison.Ordinal).Trim(',', ' ').Should().Be(expected);

    // 6.4.1.2.1: EPR Capable is static; of other flags that is from memory; Unconstrained Power may change.
    [Theory]
    [InlineData("5V 3A epr", "5V 3A", "violation static-fact-changed")]
    [InlineData("5V 3A", "5V 3A epr", "violation static-fact-changed")]
    [InlineData("5V 3A dual-role-data", "5V 3A", "caution static-fact-changed")]
    [InlineData("5V 3A", "5V 3A dual-role-power", "caution static-fact-changed")]
    [InlineData("5V 3A unconstrained", "5V 3A", "")]
    [InlineData("5V 3A epr", "5V 3A epr", "")]
    public void StaticFlag_DoesNotChange(string before, string after, string expected)
    {
        const string Rest = "9V 3A, 15V 3A, 20V 5A, SPR AVS 3A/5A";
        string lists = $"source:\n  one: [{before}, {Rest}]\n  other: [{after}, {Rest}]";
        Run(lists, "attach", "advertise one", "advertise other").Replace("note capabilities-changed", "", StringComparison.Ordinal)
            .Trim(',', ' ').Should().Be(expected);
        Run(lists, "attach", "advertise one", "detach", "attach", "advertise other").Should().Be("");
    }

    [Fact]
    public void RatingThatChanges_IsStatic() => Run(
        Of65W, "attach", "advertise", $"send source Source_Capabilities_Extended {Zeroes23}4100",
        $"send source Source_Capabilities_Extended {Zeroes23}4100", $"send source Source_Capabilities_Extended {Zeroes23}3C00")
        .Should().Be("violation static-fact-changed");

    private static string Run(string source, params string[] steps) =>
        ScriptRun.Findings(ScriptRun.Of("R3.2", source, steps), Names);
}
