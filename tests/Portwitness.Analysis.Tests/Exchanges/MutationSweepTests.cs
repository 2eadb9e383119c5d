using System.Text;
using Portwitness.Analysis.Catalogue;
using Portwitness.Analysis.Evidence;
using Portwitness.Analysis.Findings;
using Portwitness.Analysis.Rules;
using Xunit.Abstractions;

namespace Portwitness.Analysis.Tests.Exchanges;

/// <summary>
/// Whoever breaks one clause in a conversation that keeps to all others is told so, for that clause alone. What the test device
/// breaks is a note.
/// </summary>
public class MutationSweepTests(ITestOutputHelper output)
{
    private const string Status = "send source Status 21060000020000";
    private const string Again = "advertise;contract 2 at 3A";
    private const string EnterEpr = "contract 4 at 5A epr;enter-epr at 140W;contract 8 at 5A epr";
    private const string Chunk0 = "send sink Extended_Control 0100;raw source B1F7 2480 2C91 8108 2CD1 0200 2CB1 0400 F441 0600 F4B1 04E0 0000 0000 0000";

    // Rule, what it says, the editions' beginnings in which the steps make sense, and the steps.
    private static readonly (string Rule, Severity Severity, string Editions, string Steps)[] Mutators =
    [
        ("crc-wrong", Severity.Caution, "R3", $"send sink Get_Status with bad-crc 3;soft-reset sink;{Again}"),
        ("crc-wrong", Severity.Note, "R3", $"send sink Get_Status with bad-crc 2;{Status}"),
        ("goodcrc-missing", Severity.Violation, "R3", $"send sink Get_Status with drop-goodcrc 3;soft-reset sink;{Again}"),
        ("goodcrc-missing", Severity.Violation, "R3", $"send sink Get_Status with drop-goodcrc 3;hard-reset;{Again}"),
        ("goodcrc-missing", Severity.Note, "R3", $"send source Alert 0x10000000 with drop-goodcrc 3;soft-reset source;{Again}"),
        ("goodcrc-id-wrong", Severity.Caution, "R", "send sink Get_Source_Cap with wrong-goodcrc;advertise;contract 2 at 3A"),
        ("message-id-not-reset", Severity.Violation, "R3", $"raw source AD07;raw sink 8300;{Again}"),
        ("message-id-not-reset", Severity.Violation, "R3", $"raw sink 8D00;raw source A307;{Again}"),
        ("message-id-not-reset", Severity.Note, "R3", $"raw sink 8D04;raw source A301;{Again}"),
        ("message-id-not-advanced", Severity.Violation, "R3", $"send sink Get_Status;{Status} with same-id"),
        ("message-id-not-advanced", Severity.Note, "R3", $"send sink Get_Status;{Status};send sink Get_Status with same-id;{Status}"),
        ("retries-exceeded", Severity.Violation, "R", $"send source Get_Sink_Cap with extra-retries 1;soft-reset source;{Again}"),
        ("retries-exceeded", Severity.Note, "R", $"send sink Get_Source_Cap with extra-retries 2;soft-reset sink;{Again}"),
        ("answer-missing", Severity.Caution, "R", $"send sink Get_Source_Cap;pause 27ms;soft-reset sink;{Again}"),
        ("answer-missing", Severity.Violation, "R", $"send sink Get_Source_Cap;pause 30ms;send sink DR_Swap;reject"),
        ("answer-missing", Severity.Violation, "R", $"request 3 at 3A;accept;pause 490ms;hard-reset;{Again}"),
        ("answer-missing", Severity.Caution, "R", $"request 3 at 3A;pause 29ms;hard-reset;{Again}"),
        ("unexpected-message", Severity.Violation, "R", "pause 5ms;accept"),
        ("unexpected-message", Severity.Violation, "R", "pause 5ms;ready after 3ms"),
        ("unexpected-message", Severity.Violation, "R3", "send sink Get_Revision;accept"),
        ("unexpected-message", Severity.Note, "R3.2", $"{EnterEpr};send sink Request 0x2004B12C;reject;keep-alive"),
        ("unexpected-message", Severity.Violation, "R3", "send source Get_PPS_Status"),
        ("unexpected-message", Severity.Violation, "R3.2", "send source Request 0x1004B12C"),
        ("unexpected-message", Severity.Violation, "R3.2", "send source EPR_Mode 0x018C0000"),
        ("unexpected-message", Severity.Violation, "R3.2", $"{EnterEpr};send source Source_Capabilities 0x0801912C 0x0002D12C"),
        ("unexpected-message", Severity.Note, "R3.2", "send sink EPR_Request 0x2004B12C 0x0002D12C;reject"),
        ("unexpected-message", Severity.Violation, "R", "request 3 at 3A;accept;reject"),
        ("unexpected-message", Severity.Violation, "R3.2", "contract 4 at 5A epr;send source EPR_Source_Capabilities 2C918108"),
        ("power-role-bit-wrong", Severity.Violation, "R3", $"hard-reset;raw source A110 2C91 0108;{Again}"),
        ("power-role-bit-wrong", Severity.Note, "R3", "raw sink 8215 2C91 0410;accept;ready"),
        ("data-roles-equal", Severity.Violation, "R3", "raw source 8807;send sink Sink_Capabilities 0x0001912C"),
        ("data-roles-equal", Severity.Note, "R3", "raw sink B202;send source Status 21010000020000"),
        ("vdm-before-contract", Severity.Caution, "R", $"hard-reset;send source Vendor_Defined 0xFF00A001;send sink Vendor_Defined 0xFF00A081;{Again}"),
        ("vdm-version-inconsistent", Severity.Caution, "R3", "send sink Vendor_Defined 0xFF00A001;send source Vendor_Defined 0xFF00A881"),
        ("epr-entered-with-epr-bit-clear", Severity.Violation, "R3.2", "contract 4 at 5A;enter-epr at 140W;contract 8 at 5A epr"),
        ("epr-left-under-epr-contract", Severity.Caution, "R3.2", $"{EnterEpr};keep-alive;exit-epr source;{Again};soft-reset source;{Again}"),
        ("unchunked-without-agreement", Severity.Violation, "R3", "send sink Get_Status;raw source A287 0700 2101 0000 0200 00"),
        ("completion-missing", Severity.Caution, "R3", "send sink Data_Reset;accept;pause 300ms"),
        ("completion-missing", Severity.Caution, "R", "send sink VCONN_Swap;accept;pause 300ms"),
        ("mandatory-answer-not-supported", Severity.Violation, "R3", "send sink Get_Source_Cap;not-supported source"),
        ("mandatory-answer-not-supported", Severity.Violation, "R3", "send sink Request 0x2004B12C;not-supported source"),
        ("mandatory-answer-not-supported", Severity.Note, "R3", "send source Get_Sink_Cap;not-supported sink"),
        ("mandatory-answer-not-supported", Severity.Violation, "R3.2", "send sink Extended_Control 0100;not-supported source"),
        ("mandatory-answer-not-supported", Severity.Violation, "R3.2", $"{EnterEpr};send sink Extended_Control 0300;not-supported source"),
        ("chunk-missing", Severity.Violation, "R3", $"{Chunk0};raw sink 9194 008C 0000;send source Get_Revision;send sink Revision 0x32110000"),
        ("revision-changed-under-contract", Severity.Violation, "R3", "raw source 6807;send sink Sink_Capabilities 0x0001912C"),
        ("hard-reset-seen", Severity.Note, "R", $"hard-reset;{Again}"),
        ("reset-loop", Severity.Caution, "R", $"hard-reset;advertise;hard-reset;advertise;hard-reset;{Again}"),
        ("goodcrc-late", Severity.Violation, "R3", $"send sink Get_Status with late-goodcrc 500us;{Status}"),
        ("goodcrc-late", Severity.Note, "R3", $"send sink Get_Status;{Status} with late-goodcrc 500us"),
        ("retry-mistimed", Severity.Violation, "R3", $"send sink Get_Status;{Status} with retry-gap 500us"),
        ("retry-mistimed", Severity.Violation, "R3", $"send sink Get_Status;{Status} with retry-gap 1800us"),
        ("response-late", Severity.Violation, "R3", $"send sink Get_Status;{Status} with gap 22ms"),
        ("response-late", Severity.Note, "R3", "send source Get_Sink_Cap;send sink Sink_Capabilities 0x0001912C with gap 22ms"),
        ("vdm-response-late", Severity.Violation, "R3", "send sink Vendor_Defined 0xFF00A001;send source Vendor_Defined 0xFF00A081 with gap 22ms"),
        ("chunk-late", Severity.Violation, "R3.2", $"{Chunk0};raw sink 9194 008C 0000;raw source B1B9 2488 0000 F4C1 0800 8C96 30D2 with gap 22ms"),
        ("chunk-late", Severity.Note, "R3.2", $"{Chunk0};raw sink 9194 008C 0000 with gap 22ms;raw source B1B9 2488 0000 F4C1 0800 8C96 30D2"),
        ("first-capabilities-late", Severity.Violation, "R", "soft-reset source;pause 290ms;advertise;contract 2 at 3A"),
        ("capabilities-mistimed", Severity.Violation, "R3", "hard-reset;advertise with drop-goodcrc 3;advertise with gap 60ms;contract 2 at 3A"),
        ("capabilities-mistimed", Severity.Violation, "R3", "hard-reset;advertise with drop-goodcrc 3;advertise with gap 240ms;contract 2 at 3A"),
        ("source-transition-late", Severity.Violation, "R3.2", "request 3 at 3A;accept;ready after 400ms"),
        ("source-transition-late", Severity.Violation, "R3", "request 3 at 3A;accept;send source PS_RDY with gap 15ms"),
        ("ps-transition-late", Severity.Violation, "R3.0", "request 3 at 3A;accept;ready after 600ms"),
        ("pps-transition-late", Severity.Violation, "R3", "contract P at 9V 3A;request P at 9.4V 3A;accept;ready after 60ms"),
        ("pps-transition-late", Severity.Violation, "R3", "contract P at 9V 3A;request P at 5V 3A;accept;ready after 300ms"),
        ("avs-transition-late", Severity.Violation, "R3.2", "contract 5 at 9V 3A;request 5 at 9.8V 3A;accept;ready after 90ms"),
        ("request-after-wait-early", Severity.Note, "R3", "request 3 at 3A;wait;send sink Request 0x2004B12C with gap 50ms;accept;ready"),
        ("pps-keep-alive-late", Severity.Violation, "R3", "contract P at 9V 3A;pause 16s;request P at 9V 3A;accept;ready"),
        ("pps-keep-alive-late", Severity.Note, "R3", "contract P at 9V 3A;pause 11.5s;request P at 9V 3A;accept;ready"),
        ("epr-keep-alive-late", Severity.Violation, "R3.2", $"{EnterEpr};pause 1.2s;keep-alive;keep-alive"),
        ("epr-keep-alive-late", Severity.Note, "R3.2", $"{EnterEpr};pause 700ms;keep-alive;keep-alive"),
        ("epr-entry-late", Severity.Violation, "R3.2", "contract 4 at 5A epr;send sink EPR_Mode 0x018C0000;send source EPR_Mode 0x02000000;send source EPR_Mode 0x04010000 with gap 600ms"),
        ("swap-mistimed", Severity.Violation, "R", "send source DR_Swap;send sink Wait;send source DR_Swap with gap 60ms;send sink Reject"),
        ("soft-reset-late", Severity.Violation, "R3", $"send source Get_Sink_Cap with drop-goodcrc 3;pause 30ms;soft-reset source;{Again}"),
        ("hard-reset-mistimed", Severity.Violation, "R3", $"send source Soft_Reset with drop-goodcrc 3;pause 20ms;hard-reset;{Again}"),
    ];

    private static readonly HashSet<string> Ours =
        [.. CaptureRules.Descriptions.Where(rule => rule.Category is RuleCategory.Sequence or RuleCategory.Timing).Select(rule => rule.Name)];

    [Fact]
    public void EveryRule_HasAMutator() => Mutators.Select(mutator => mutator.Rule).Append("capabilities-never-answered").Distinct()
        .Should().BeEquivalentTo(Ours);

    [Fact]
    public void BrokenClause_IsToldAndNoOther()
    {
        int cases = 0;
        List<string> wrong = [];
        foreach ((string rule, Severity severity, string editions, string steps) in Mutators)
        {
            foreach (string edition in new[] { "R2.0", "R3.0", "R3.2" }.Where(name => name.StartsWith(editions, StringComparison.Ordinal)))
            {
                for (int seed = 2; seed < 12; seed++)
                {
                    // A stated edition, so that it is settled; even seeds state it.
                    string script = CompliantScript.Of(2 * seed, edition) + Ending(steps, edition);
                    wrong.AddRange(Misjudged(rule, severity, script, edition, endStamps: seed % 4 == 3, isTold: seed == 2));
                    cases++;
                }
            }
        }

        output.WriteLine($"{cases} conversations with one clause broken");
        wrong.Should().BeEmpty();
        cases.Should().BeGreaterThan(700);
    }

    // After a Hard Reset MessageIDs begin anew, so that messages written as bytes fit; what follows shows that nothing was missed.
    private static string Ending(string steps, string edition)
    {
        string position = edition switch { "R3.0" => "4", _ => "6" };
        string all = $"hard-reset;{Again};pause 40ms;{steps.Replace(" P ", $" {position} ", StringComparison.Ordinal)}";
        string tail = steps.Contains("EPR_Mode", StringComparison.Ordinal) || steps.Contains("enter-epr", StringComparison.Ordinal)
            ? "pause 40ms;keep-alive;keep-alive;keep-alive"
            : "pause 40ms;get-sink-cap;send sink DR_Swap;reject;get-sink-cap;send sink DR_Swap;reject";
        return string.Concat($"{all};{tail}".Split(';').Select(step => $"  - {step}\n"));
    }

    private static IEnumerable<string> Misjudged(string rule, Severity severity, string script, string edition, bool endStamps, bool isTold)
    {
        string capture = Encoding.UTF8.GetString(Synthesised.Bytes(script));
        if (endStamps)
        {
            capture = string.Join('\n', capture.Split('\n').Select(Degraded.StampEnd));
        }

        Finding[] findings = [.. (isTold ? CaptureRun.Told(capture) : CaptureRun.Text(capture)).Findings.Where(finding => Ours.Contains(finding.Rule))];

        // What only R3.2 was read for is a caution in R2.0.
        bool isFound = findings.Any(finding => finding.Rule == rule
            && (finding.Severity == severity || (edition == "R2.0" && finding.Severity == Severity.Caution)));
        if (!isFound)
        {
            yield return $"{rule} {severity} is not told in {edition}: {string.Join(" | ", findings.Select(Describe))} {script.Split("steps:")[0]}";
        }

        // Whoever has to be asked too often has not acknowledged either.
        string[] related = rule == "retries-exceeded" ? [rule, "goodcrc-missing"] : [rule];
        foreach (Finding other in findings.Where(finding => finding.Severity == Severity.Violation && !related.Contains(finding.Rule)))
        {
            yield return $"{rule} in {edition}: also {Describe(other)}";
        }
    }

    private static string Describe(Finding finding) => $"{finding.Rule} {finding.Severity} at {finding.TimeUs}: {finding.Detail}";
}
