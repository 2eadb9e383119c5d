using System.Globalization;
using System.Text;
using System.Text.RegularExpressions;
using Portwitness.Analysis.Catalogue;
using Portwitness.Analysis.Evidence;
using Portwitness.Analysis.Rules;

namespace Portwitness.Analysis.Tests.Exchanges;

/// <summary>
/// Legal conversations next to each breach of sequence, of which the capture misses one record, a message with its GoodCRC, or
/// two such pairs in a row: nobody is accused. Long pauses stand where a doubt must outlive them.
/// </summary>
public partial class SingleLossTests
{
    private const string Spr = "5V 3A dual-role-power, 9V 3A, 15V 3A";
    private const string Epr = "5V 3A epr, 9V 3A, 15V 3A, 20V 5A, SPR AVS 3A/5A, 28V 5A, EPR AVS 15-28V 140W";
    private const string End = "get-sink-cap;pause 12s;send sink Get_Status;send source Status 21010000020000;get-sink-cap;send sink DR_Swap;reject;get-sink-cap";
    private const string EprEnd = "keep-alive every 400ms for 12s;advertise;contract 8 at 5A epr;keep-alive;keep-alive";

    private static readonly HashSet<string> Ours =
        [.. CaptureRules.Descriptions.Where(rule => rule.Category == RuleCategory.Sequence).Select(rule => rule.Name)];

    [Theory]
    [InlineData("epr-left-under-epr-contract", Epr, $"contract 4 at 5A epr;enter-epr at 140W;contract 8 at 5A epr;keep-alive every 400ms for 12s;contract 4 at 5A epr;exit-epr source;advertise;contract 1 at 3A;{End}")]
    [InlineData("epr-left-under-epr-contract", Epr, $"contract 4 at 5A epr;enter-epr at 140W;contract 9 at 20V 5A epr;contract 4 at 5A epr;keep-alive every 400ms for 12s;exit-epr sink;advertise;contract 1 at 3A;{End}")]
    [InlineData("epr-entered-with-epr-bit-clear", Epr, $"contract 4 at 5A;contract 4 at 5A epr;pause 12s;enter-epr at 140W;contract 8 at 5A epr;{EprEnd}")]
    [InlineData("epr-entered-with-epr-bit-clear", Epr, $"contract 4 at 5A;enter-epr at 140W fails 3;contract 4 at 5A epr;enter-epr at 140W;contract 8 at 5A epr;{EprEnd}")]
    [InlineData("unchunked-without-agreement", "5V 3A unchunked, 9V 3A", $"contract 2 at 3A;contract 2 at 3A unchunked;pause 12s;send sink Get_Status;raw source A28B 0700 2101 0000 0200 00;{End}")]
    [InlineData("message-id-not-reset", Spr, $"contract 2 at 3A;soft-reset sink;advertise;contract 2 at 3A;pause 12s;soft-reset source;advertise;contract 1 at 3A;{End}")]
    [InlineData("message-id-not-reset", Spr, $"contract 2 at 3A;send sink Get_Status with drop-goodcrc 2;send source Status 21010000020000;pause 40ms;soft-reset sink;advertise;contract 2 at 3A;soft-reset sink;soft-reset source;advertise;contract 1 at 3A;{End}")]
    [InlineData("goodcrc-id-wrong", Spr, $"contract 2 at 3A;send sink Get_Status with drop-goodcrc 2;send source Status 21010000020000 with bad-crc 2;get-sink-cap;get-sink-cap;{End}")]
    [InlineData("unexpected-message", Spr, $"contract 2 at 3A;send sink DR_Swap;reject;request 3 at 3A;wait;pause 120ms;request 3 at 3A;accept;ready;send sink VCONN_Swap;reject;{End}")]
    [InlineData("unexpected-message", Epr, $"contract 4 at 5A epr;get-epr-source-cap;pause 12s;get-epr-source-cap;send sink Get_Source_Cap;advertise;contract 1 at 3A;{End}")]
    [InlineData("unexpected-message", Epr, $"contract 4 at 5A epr;pause 12s;enter-epr at 140W;contract 8 at 5A epr;{EprEnd}")]
    [InlineData("power-role-bit-wrong", Spr, $"contract 2 at 3A;send source Get_Source_Cap;send sink Source_Capabilities 0x2001912C;pause 12s;send source Get_Source_Cap;send sink Source_Capabilities 0x2001912C;{End}")]
    [InlineData("vdm-before-contract", Spr, $"contract 2 at 3A;send source Vendor_Defined 0xFF00A001;send sink Vendor_Defined 0xFF00A081;pause 12s;advertise;contract 1 at 3A;send source Vendor_Defined 0xFF00A001;send sink Vendor_Defined 0xFF00A081;{End}")]
    [InlineData("completion-missing", Spr, $"contract 2 at 3A;send sink Data_Reset;accept;pause 200ms;send source Data_Reset_Complete;pause 300ms;send source VCONN_Swap;send sink Accept;send sink PS_RDY;pause 12s;send sink VCONN_Swap;accept;send source PS_RDY;{End}")]
    [InlineData("answer-missing", Spr, $"contract 2 at 3A;send sink Vendor_Defined 0xFF00A001;advertise with gap 14ms;request 1 at 3A with gap 14ms;accept;ready;{End}")]
    public void LostRecords_AccuseNobody(string rule, string source, string steps) => AccusesNobody(rule, Whole(source, steps));

    // After an accepted DR_Swap both speak in the other role, and a Hard Reset gives them their own again (6.3.9, from memory).
    [Theory]
    [InlineData("send sink DR_Swap;accept;pause 5ms")]
    [InlineData("send source DR_Swap;send sink Accept;pause 12s")]
    public void LostDataRoleSwap_AccusesNobody(string swap) => AccusesNobody("data-roles-equal", string.Join(
        '\n', Swapped(Whole(Spr, $"contract 2 at 3A;{swap};{End};get-sink-cap;hard-reset;advertise;contract 2 at 3A;{End}").Split('\n'))));

    private static void AccusesNobody(string rule, string capture)
    {
        string[] lines = capture.Split('\n', StringSplitOptions.RemoveEmptyEntries);
        CaptureRun.Text(capture).Findings.Where(finding => Ours.Contains(finding.Rule) && finding.Severity < Severity.Note)
            .Should().BeEmpty("{0} is not broken in the whole conversation", rule);
        List<string> accused = [];
        int cases = 0;
        foreach (int count in new[] { 1, 2, 3, 4 })
        {
            for (int at = 1; at + count <= lines.Length; at++, cases++)
            {
                string lossy = string.Join('\n', lines.Where((_, index) => index < at || index >= at + count));
                accused.AddRange(CaptureRun.Text(lossy).Findings
                    .Where(finding => Ours.Contains(finding.Rule) && finding.Verdict == Verdict.Fails && finding.Severity < Severity.Note)
                    .Select(finding => $"without {count} from {at}: {finding.Rule} at {finding.TimeUs}: {finding.Detail}"));
            }
        }

        accused.Should().BeEmpty();
        cases.Should().BeGreaterThan(100);
    }

    // Bit 5 of every header on SOP after the Accept and its GoodCRC, until the Hard Reset (R3.2v1.1, Table 6.1).
    private static IEnumerable<string> Swapped(string[] lines)
    {
        const int GoodCrc = 1;
        const int Accept = 3;
        const int DataRoleSwap = 9;
        (bool isAsked, bool isAccepted, bool isSwapped) = (false, false, false);
        foreach (string line in lines)
        {
            Match header = Header().Match(line);
            int type = header.Success ? Raw(header) & 0xF01F : -1;
            isSwapped &= !line.Contains("hard-reset", StringComparison.Ordinal);
            yield return Crc().Replace(isSwapped && header.Success ? Header().Replace(line, Flipped) : line, "");
            isSwapped |= isAccepted && type == GoodCrc;
            isAccepted = isAsked && type == Accept;
            isAsked = type == DataRoleSwap || (isAsked && type == GoodCrc);
        }
    }

    private static int Raw(Match header) => int.Parse(header.Groups[2].Value + header.Groups[1].Value, NumberStyles.HexNumber, CultureInfo.InvariantCulture);

    private static string Flipped(Match header) => $"\"sop\":\"SOP\",\"hex\":\"{int.Parse(header.Groups[1].Value, NumberStyles.HexNumber, CultureInfo.InvariantCulture) ^ 0x20:X2}{header.Groups[2].Value}";

    private static string Whole(string source, string steps) => Encoding.UTF8.GetString(Synthesised.Bytes(
        $"edition: R3.2\ncable: EPR captive\nsource: [{source}]\nsink: [5V 3A]\nsteps:\n"
        + string.Concat($"attach;advertise;{steps}".Split(';').Select(step => $"  - {step}\n"))));

    [GeneratedRegex("\"sop\":\"SOP\",\"hex\":\"([0-9A-F]{2})([0-9A-F]{2})")]
    private static partial Regex Header();

    [GeneratedRegex(",\"crc\":\"[0-9A-F]{8}\"")]
    private static partial Regex Crc();
}
