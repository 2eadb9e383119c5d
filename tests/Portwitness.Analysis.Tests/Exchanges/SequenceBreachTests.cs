using System.Text;
using Portwitness.Analysis.Catalogue;
using Portwitness.Analysis.Rules;
using Portwitness.Tests;

namespace Portwitness.Analysis.Tests.Exchanges;

/// <summary>Breaches of sequence, and what is just not one. Clauses are those of the rules, of R3.2v1.1.</summary>
public class SequenceBreachTests
{
    private const string Spr = "5V 3A, 9V 3A";
    private const string Epr = "5V 3A epr, 9V 3A, 15V 3A, 20V 5A, SPR AVS 3A/5A, 28V 5A, EPR AVS 15-28V 140W";
    private const string Tail = "get-sink-cap;send sink DR_Swap;reject;get-sink-cap;send sink DR_Swap;reject";

    private static readonly HashSet<string> Ours =
        [.. CaptureRules.Descriptions.Where(rule => rule.Category == RuleCategory.Sequence).Select(rule => rule.Name)];

    // Data/sequence/README.md says what each breaks; a sink's fault is a note.
    [Theory]
    [InlineData("epr-exit-at-28V", "caution epr-left-under-epr-contract")]
    [InlineData("epr-entry-rdo-bit-clear", "violation epr-entered-with-epr-bit-clear")]
    [InlineData("unchunked-without-agreement", "violation unchunked-without-agreement")]
    [InlineData("both-DFP", "note data-roles-equal")]
    [InlineData("role-bit-wrong", "violation power-role-bit-wrong")]
    [InlineData("accept-then-reject", "violation unexpected-message")]
    [InlineData("accept-id5-after-softreset", "violation message-id-not-reset")]
    [InlineData("softreset-id-not-0", "violation message-id-not-reset")]
    [InlineData("goodcrc-wrong-id", "caution goodcrc-id-wrong")]
    [InlineData("vdm-before-contract", "caution vdm-before-contract")]
    [InlineData("data-reset-incomplete", "caution completion-missing")]
    [InlineData("epr-caps-unasked-in-spr", "violation unexpected-message")]
    [InlineData("vdm-interrupted", "")]
    public void Case_IsNamedAndNothingElse(string file, string expected) =>
        Findings(File.ReadAllText(Repository.PathOf("tests", "Portwitness.Analysis.Tests", "Data", "sequence", file + ".jsonl")))
            .Should().Be(expected);

    // 6.4.10, from memory: a contract for object 1 to 7 before Exit, by whoever sends it. The sink's fault would be a note, and from
    // memory there is none.
    [Theory]
    [InlineData("contract 8 at 5A epr;exit-epr source", "caution epr-left-under-epr-contract")]
    [InlineData("contract 9 at 15V 5A epr;exit-epr source", "caution epr-left-under-epr-contract")]
    [InlineData("contract 7 at 5A epr;exit-epr source", "")]
    [InlineData("contract 8 at 5A epr;contract 4 at 5A epr;exit-epr source", "")]
    [InlineData("contract 8 at 5A epr;exit-epr sink", "")]
    public void EprExit_DependsOnTheContract(string steps, string expected) => Findings(Script(
        Epr.Replace("SPR AVS 3A/5A", "SPR AVS 3A/5A, PPS 5-11V 3A, 0x0004B12C", StringComparison.Ordinal),
        $"contract 4 at 5A epr;enter-epr at 140W;{steps};advertise;contract 1 at 3A")).Should().Be(expected);

    // Table 6.50, reason 3. What counts is the request of the contract; one that is refused afterwards leaves it open.
    [Theory]
    [InlineData("contract 4 at 5A;enter-epr at 140W", "violation epr-entered-with-epr-bit-clear")]
    [InlineData("contract 4 at 5A epr;contract 4 at 5A;enter-epr at 140W", "violation epr-entered-with-epr-bit-clear")]
    [InlineData("contract 4 at 5A;contract 4 at 5A epr;enter-epr at 140W", "")]
    [InlineData("contract 4 at 5A;request 4 at 5A epr;reject;enter-epr at 140W", "")]
    [InlineData("contract 4 at 5A epr;request 4 at 5A;reject;enter-epr at 140W", "")]
    [InlineData("contract 4 at 5A;enter-epr at 140W fails 3", "")]
    public void EprEntry_DependsOnTheRequest(string steps, string expected) =>
        Findings(Script(Epr, $"{steps};keep-alive;keep-alive", hasEpr: true)).Should().Be(expected);

    // 6.2.1.2: the bit in the source's 5 V object and in the sink's request; chunked is always right.
    [Theory]
    [InlineData("", "", "violation unchunked-without-agreement")]
    [InlineData(" unchunked", "", "violation unchunked-without-agreement")]
    [InlineData("", " unchunked", "violation unchunked-without-agreement")]
    [InlineData(" unchunked", " unchunked", "")]
    public void Unchunked_NeedsBothBits(string list, string request, string expected) => Findings(Script(
        $"5V 3A{list}, 9V 3A", $"contract 2 at 3A{request};send sink Get_Status;raw source A28B 0700 2101 0000 0200 00;"
        + "send sink Get_Status;raw source A2BD 0780 2101 0000 0200 0000 0000", tail: "")).Should().Be(expected);

    [Fact]
    public void UnchunkedBySink_IsANote() => Findings(Script(
        Spr, "contract 2 at 3A;send source Get_Status;raw sink 8284 0700 2101 0000 0200 00")).Should().Be("note unchunked-without-agreement");

    // 6.2.1.1.6. Bit 5 of the header: whoever changed it without DR_Swap is named.
    [Theory]
    [InlineData("raw source 8807;send sink Sink_Capabilities 0x0001912C", "violation data-roles-equal")]
    [InlineData("raw sink B202;send source Status 21010000020000", "note data-roles-equal")]
    [InlineData("raw source A807;send sink Sink_Capabilities 0x0001912C", "")]
    public void DataRole_MayNotChangeAlone(string steps, string expected) => Findings(Script(Spr, steps)).Should().Be(expected);

    // 6.2.1.1.4: the GoodCRC shows who spoke. A dual-role sink may answer Get_Source_Cap with a list.
    [Theory]
    [InlineData("A010", "8100", "violation power-role-bit-wrong")] // Source_Capabilities from Sink to Sink
    [InlineData("A010", "A101", "")] // from Sink to Source: the sink's own list
    [InlineData("AA10", "8100", "violation power-role-bit-wrong")] // EPR_Mode Enter Succeeded
    [InlineData("8211", "A101", "note power-role-bit-wrong")] // Request from Source to Source
    [InlineData("8710", "8100", "")] // a message of either role: which of the two is wrong is not known
    public void RoleBit_IsHeldAgainstTheGoodCrc(string header, string goodCrc, string expected)
    {
        string message = header[..2] switch { "A0" => $"A1{header[2..]}2C910108", "AA" => $"{header}00000003", "82" => $"{header}2C910410", _ => $"{header[..2]}00" };
        Findings(Acknowledged(message, goodCrc)).Should().Be(expected);
    }

    // The same of each message that only a source, or only a sink, sends (Tables 6.5, 6.50, 6.53 and 6.67).
    [Theory]
    [InlineData("AA1000000002", "violation power-role-bit-wrong")] // EPR_Mode Enter Acknowledged
    [InlineData("AA1000000004", "violation power-role-bit-wrong")] // Enter Failed
    [InlineData("AA1000000005", "")] // Exit: of either
    [InlineData("AA1000000001", "")] // Enter: the sink's, as it says
    [InlineData("AB1041414100", "violation power-role-bit-wrong")] // Source_Info
    [InlineData("ACA00480FFFFFF000000", "violation power-role-bit-wrong")] // PPS_Status
    [InlineData("B09002800400", "violation power-role-bit-wrong")] // Extended_Control EPR_KeepAlive_Ack
    [InlineData("B09002800300", "")] // EPR_KeepAlive: the sink's
    [InlineData("B1A004802C9101080000", "violation power-role-bit-wrong")] // EPR_Source_Capabilities
    [InlineData("B190008C0000", "")] // a request for one of its chunks: the sink's
    public void RoleBitOfWhatOneRoleSends_IsHeldAgainstTheGoodCrc(string message, string expected) =>
        Findings(Acknowledged(message, "8100")).Should().Be(expected);

    // 6.2.1.1.6: the source begins as DFP, the sink as UFP. Two of one role are the fault of the one whose role that is not; a source's is
    // never proven, as the capture may begin after a swap of what came before.
    [Theory]
    [InlineData("8121", "8210", "caution data-roles-equal")]
    [InlineData("A121", "8210", "")]
    [InlineData("A121", "A210", "note data-roles-equal")]
    public void TwoOfOneDataRole_BlameTheOneThatBeganWrong(string list, string request, string expected) => Findings(Whole(
        Spr, $"attach;raw source {list} 2C910108 2CD10200;raw sink {request} 2CB10410;raw source {Role(list, "A303")};raw source {Role(list, "A605")};"
        + $"raw sink {Role(request, "8702")};raw source {Role(list, "A407")}")).Should().Be(expected);

    // 6.2.1.2: what a chunk shows of itself, and what only the chunks around it show. A Status of 7 bytes, or one said to be longer.
    [Theory]
    [InlineData("raw source A2B7 0780 21010000020000 000000", "")]
    [InlineData("raw source A2B7 0780 21010000020000 000001", "violation chunk-missing")] // padding
    [InlineData("raw source A287 0708 21010000020000", "violation chunk-missing, violation unchunked-without-agreement")] // unchunked, with a number
    [InlineData("raw source A2F7 0581 ZEROS", "violation chunk-missing")] // Data Size 261
    [InlineData("raw source A2F7 1E80 ZEROS;raw sink 8294 008C 0000;raw source A2A9 1E88 00000000 0000", "")]
    [InlineData("raw source A2F7 1E80 ZEROS;raw sink 8294 008C 0000;raw source A2A9 1F88 0000000000 00", "violation chunk-missing")] // another size
    [InlineData("raw source A2F7 1E80 ZEROS;raw source A2A9 1E88 00000000 0000", "violation chunk-missing")] // not asked for
    [InlineData("raw source A2F7 1E80 ZEROS;raw sink 8294 058C 0000", "note chunk-missing")] // a request with a Data Size
    public void Chunk_IsAsTheClauseHasIt(string steps, string expected) => Findings(Script(
        Spr, "send sink Get_Status;" + steps.Replace("ZEROS", new string('0', 52), StringComparison.Ordinal), tail: "send sink DR_Swap;reject;" + Tail)).Should().Be(expected);

    // A request has one verdict (6.4.2).
    [Theory]
    [InlineData("request 2 at 3A;accept;reject", "violation unexpected-message")]
    [InlineData("request 2 at 3A;accept;wait", "violation unexpected-message")]
    [InlineData("request 2 at 3A;accept;accept;ready", "violation unexpected-message")]
    [InlineData("request 2 at 3A;accept;ready;send sink DR_Swap;reject", "")]
    [InlineData("send sink VCONN_Swap;accept;reject", "violation unexpected-message")]
    [InlineData("send sink VCONN_Swap;reject", "")]
    public void Verdict_IsGivenOnce(string steps, string expected) => Findings(Script(Spr, steps)).Should().Be(expected);

    // 6.7.1: Soft_Reset always has MessageID 0, and resets both counters.
    [Theory]
    [InlineData("soft-reset source;advertise;contract 1 at 3A", "")]
    [InlineData("raw source AD07;raw sink 8300;advertise;contract 1 at 3A", "violation message-id-not-reset")]
    [InlineData("raw sink 8D04;raw source A301;advertise;contract 1 at 3A", "note message-id-not-reset")]
    [InlineData("raw sink 8D00;raw source A303;advertise;contract 1 at 3A", "violation message-id-not-reset")]
    [InlineData("raw source AD01;raw sink 8302;advertise;contract 1 at 3A", "note message-id-not-reset")]
    public void SoftReset_BeginsAt0(string steps, string expected) => Findings(Script(Spr, steps)).Should().Be(expected);

    // tReceive is 0.9 ms at least: a GoodCRC of another MessageID that begins later may be that of a message which the capture misses.
    [Theory]
    [InlineData(150, "5", "caution goodcrc-id-wrong")]
    [InlineData(700, "5", "caution goodcrc-id-wrong")]
    [InlineData(1_100, "5", "")]
    [InlineData(150, "1", "")]
    public void GoodCrcOfAnotherId_IsToldWhereNoMessageHadRoom(int afterUs, string id, string expected)
    {
        string goodCrc = id == "5" ? "A10B" : "A103";
        string capture =
            $$"""
            {"capture":1,"time_of":"start","resolution_us":1,"edition":"R3.2"}
            {"t":0,"sop":"SOP","hex":"9202"}
            {"t":{{FrameUs("9202") + afterUs}},"sop":"SOP","hex":"{{goodCrc}}"}
            """;
        Findings(capture).Should().Be(expected);
    }

    [Theory]
    [InlineData("attach;send source Vendor_Defined 0xFF00A001;send sink Vendor_Defined 0xFF00A081;advertise;contract 1 at 3A", "caution vdm-before-contract")]
    [InlineData("attach;advertise;send source Vendor_Defined 0xFF00A001;send sink Vendor_Defined 0xFF00A081;advertise;contract 1 at 3A", "caution vdm-before-contract")]
    [InlineData("attach;advertise;contract 1 at 3A;hard-reset;send source Vendor_Defined 0xFF00A001;send sink Vendor_Defined 0xFF00A081;advertise;contract 1 at 3A", "caution vdm-before-contract, note hard-reset-seen")]
    [InlineData("attach;send sink Vendor_Defined 0xFF00A001;send source Vendor_Defined 0xFF00A081;advertise;contract 1 at 3A", "")] // the sink's
    [InlineData("attach;send source Vendor_Defined 0x12340000;advertise;contract 1 at 3A", "")] // unstructured
    [InlineData("attach;discover-cable 5A detachable;advertise;contract 1 at 3A", "")] // on SOP'
    [InlineData("attach;advertise;contract 1 at 3A;send source Vendor_Defined 0xFF00A001;send sink Vendor_Defined 0xFF00A081", "")]
    [InlineData("advertise;send source Vendor_Defined 0xFF00A001;send sink Vendor_Defined 0xFF00A081;advertise;contract 1 at 3A", "")] // no attach is shown
    public void Vdm_WaitsForTheContract(string steps, string expected) => Findings(Whole(Spr, steps)).Should().Be(expected);

    // tDataReset, 250 ms (Table 6.68), and attempts that may be lost; 200 ms for VCONN_Swap, from memory. Which port completes
    // VCONN_Swap is not in the headers; Data_Reset is the DFP's to complete, and the source is DFP here.
    [Theory]
    [InlineData("send sink Data_Reset;accept;pause 230ms;get-sink-cap", "")]
    [InlineData("send sink Data_Reset;accept;pause 270ms;get-sink-cap", "caution completion-missing")]
    [InlineData("send sink Data_Reset;accept;pause 200ms;send source Data_Reset_Complete;pause 300ms", "")]
    [InlineData("send sink Data_Reset;accept;send sink PS_RDY;pause 200ms;send source Data_Reset_Complete;pause 300ms", "")]
    [InlineData("send sink Data_Reset;accept;send sink PS_RDY;pause 270ms;get-sink-cap", "caution completion-missing")]
    [InlineData("send sink Data_Reset;reject;pause 1s", "")]
    [InlineData("send source VCONN_Swap;send sink Accept;pause 30ms;send sink PS_RDY;pause 1s", "")]
    [InlineData("send source VCONN_Swap;send sink Accept;pause 30ms;send source PS_RDY;pause 1s", "")]
    [InlineData("send source VCONN_Swap;send sink Accept;pause 180ms;get-sink-cap", "")]
    [InlineData("send source VCONN_Swap;send sink Accept;pause 230ms;get-sink-cap", "caution completion-missing")]
    [InlineData("send sink VCONN_Swap;accept;pause 230ms;get-sink-cap", "caution completion-missing")]
    public void Completion_IsAwaited(string steps, string expected) => Findings(Script(Spr, steps)).Should().Be(expected);

    // 6.5.15.1: in SPR mode only as the answer to EPR_Get_Source_Cap.
    [Theory]
    [InlineData("contract 4 at 5A epr;send source EPR_Source_Capabilities 2C918108", "violation unexpected-message")]
    [InlineData("contract 4 at 5A epr;get-epr-source-cap", "")]
    [InlineData("contract 4 at 5A epr;enter-epr at 140W;contract 8 at 5A epr;advertise;contract 8 at 5A epr", "")]
    public void EprList_IsAskedForInSprMode(string steps, string expected) =>
        Findings(Script(Epr, steps, hasEpr: steps.Contains("enter", StringComparison.Ordinal))).Should().Be(expected);

    // 6.4.4.4, from memory: any message may interrupt a structured VDM. One that nothing interrupts is owed its answer.
    [Theory]
    [InlineData("send sink Vendor_Defined 0xFF00A001;send source Get_Sink_Cap;send sink Sink_Capabilities 0x0001912C", "")]
    [InlineData("send sink Vendor_Defined 0xFF00A001;advertise with gap 14ms;contract 1 at 3A with gap 14ms", "")]
    [InlineData("send sink Vendor_Defined 0xFF00A001;pause 40ms", "violation answer-missing")]
    public void StructuredVdm_MayBeInterrupted(string steps, string expected) => Findings(Script(Spr, steps, tail: "send sink DR_Swap;reject;" + Tail)).Should().Be(expected);

    // After an attach one message and its GoodCRC.
    private static string Acknowledged(string message, string goodCrc) =>
        $$"""
        {"capture":1,"time_of":"start","resolution_us":1,"edition":"R3.2"}
        {"t":0,"event":"attach"}
        {"t":170000,"sop":"SOP","hex":"{{message}}"}
        {"t":{{170000 + FrameUs(message) + 150}},"sop":"SOP","hex":"{{goodCrc}}"}
        """;

    // The same header with the data role, bit 5, of another one.
    private static string Role(string ofHeader, string header)
    {
        int bit = Convert.ToInt32(ofHeader[..2], 16) & 0x20;
        return $"{(Convert.ToInt32(header[..2], 16) & ~0x20) | bit:X2}{header[2..]}";
    }

    private static int FrameUs(string hex) => ((64 + 20 + (10 * ((hex.Length / 2) + 4)) + 5) * 10) / 3;

    private static string Findings(string capture) => string.Join(", ", CaptureRun.Told(capture).Findings
        .Where(finding => Ours.Contains(finding.Rule))
        .Select(finding => $"{finding.Severity.ToString().ToLowerInvariant()} {finding.Rule}").Order(StringComparer.Ordinal));

    private static string Script(string source, string steps, bool hasEpr = false, string tail = Tail) => Whole(
        source, $"attach;advertise;{(source == Epr || source.Contains("28V", StringComparison.Ordinal) ? "" : "contract 1 at 3A;pause 40ms;")}{steps};"
        + (hasEpr ? "keep-alive;keep-alive;keep-alive" : tail));

    private static string Whole(string source, string steps) => Encoding.UTF8.GetString(Synthesised.Bytes(
        $"edition: R3.2\ncable: EPR captive\nsource: [{source}]\nsink: [5V 3A]\nsteps:\n"
        + string.Concat(steps.Split(';', StringSplitOptions.RemoveEmptyEntries).Select(step => $"  - {step}\n"))));
}
