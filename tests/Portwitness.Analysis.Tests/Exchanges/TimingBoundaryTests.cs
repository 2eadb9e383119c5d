using System.Text;
using Portwitness.Analysis.Evidence;

namespace Portwitness.Analysis.Tests.Exchanges;

/// <summary>
/// Both sides of each limit of R3.2v1.1, Tables 6.68 and 7.23. Stamps name the first bit in whole microseconds. A GoodCRC of 149
/// bits takes 451 to 552 us at 330 and 270 kbit/s and 497 us here, so that 56 us above a limit, and 47 us below one, prove
/// nothing. Two attempts that the capture misses take up to 2 x (1295 us + the frame) more; till then it cannot tell.
/// </summary>
public class TimingBoundaryTests
{
    private const string Status = "send sink Get_Status;send source Status 21060000020000";
    private const string Chunk0 = "send sink Extended_Control 0100;raw source B1F7 2480 2C91 8108 2CD1 0200 2CB1 0400 F441 0600 F4B1 04E0 0000 0000 0000;raw sink 9194 008C 0000";
    private const string Epr = "contract 4 at 5A epr;enter-epr at 140W;contract 8 at 5A epr";

    [Theory]
    [InlineData("source-transition-late", "request 3 at 3A;accept;ready after Tus", 325_056, 3_694)]
    [InlineData("pps-transition-late", "contract 6 at 9V 3A;request 6 at 9.5V 3A;accept;ready after Tus", 25_056, 3_694)]
    [InlineData("pps-transition-late", "contract 6 at 9V 3A;request 6 at 9.52V 3A;accept;ready after Tus", 275_056, 3_694)]
    [InlineData("avs-transition-late", "contract 5 at 9V 3A;request 5 at 10V 3A;accept;ready after Tus", 50_056, 3_694)]
    [InlineData("avs-transition-late", "contract 5 at 9V 3A;request 5 at 10.1V 3A;accept;ready after Tus", 700_056, 3_694)]
    [InlineData("avs-transition-late", "request 5 at 9V 3A;accept;ready after Tus", 700_056, 3_694)]
    [InlineData("source-transition-late", Epr + ";request 4 at 5A epr;accept;ready after Tus", 760_056, 3_694)]
    [InlineData("response-late", Status + " with gap Tus", 15_056, 4_584)]
    [InlineData("vdm-response-late", "send sink Vendor_Defined 0xFF00A001;send source Vendor_Defined 0xFF00A081 with gap Tus", 15_056, 3_990)]
    [InlineData("chunk-late", Chunk0 + ";raw source B1B9 2488 0000 F4C1 0800 8C96 30D2 with gap Tus", 15_056, 4_584)]
    [InlineData("first-capabilities-late", "soft-reset source;advertise with gap Tus;contract 2 at 3A", 250_056, 5_472)]
    [InlineData("first-capabilities-late", "soft-reset sink;advertise with gap Tus;contract 2 at 3A", 250_056, 5_472)]
    [InlineData("epr-entry-late", "contract 4 at 5A epr;send sink EPR_Mode 0x018C0000;send source EPR_Mode 0x02000000;send source EPR_Mode 0x04010000 with gap Tus", 546_779, 3_990)]
    [InlineData("pps-keep-alive-late", "contract 6 at 9V 3A;request 6 at 9V 3A with gap Tus;accept;ready", 15_000_056, 3_990)]
    [InlineData("epr-keep-alive-late", Epr + ";keep-alive with gap Tus", 1_000_056, 3_990)]
    [InlineData("soft-reset-late", "send source Get_Sink_Cap with drop-goodcrc 3;soft-reset source with gap Tus;advertise;contract 2 at 3A", 15_156, 3_694)]
    [InlineData("capabilities-mistimed", "hard-reset;advertise with drop-goodcrc 3;advertise with gap Tus;contract 2 at 3A", 199_145, 5_472)]
    public void TooLate_IsToldWhenNothingElseExplainsIt(string rule, string steps, long clean, long attempts)
    {
        Worst(rule, steps, clean).Should().BeNull();
        Worst(rule, steps, clean + 1).Should().Be(Severity.Caution);
        Worst(rule, steps, clean + attempts).Should().Be(Severity.Caution);
        Worst(rule, steps, clean + attempts + 1).Should().Be(Severity.Violation);
    }

    [Theory]
    [InlineData("goodcrc-late", "send sink Get_Status with late-goodcrc Tus;send source Status 21060000020000", 251)]
    [InlineData("retry-mistimed", "request 3 at 3A;accept with retry-gap Tus;ready", 1_351)]
    [InlineData("hard-reset-mistimed", "send source Soft_Reset with drop-goodcrc 3;pause Tus;hard-reset;advertise;contract 2 at 3A", 5_131)]
    [InlineData("ps-transition-late", "request 3 at 3A;accept;ready after Tus", 553_750, "R3.0")]
    public void TooLate_IsToldAtOnceWhereNoAttemptCanBeMissing(string rule, string steps, long clean, string edition = "R3.2")
    {
        Worst(rule, steps, clean, edition).Should().NotBe(Severity.Violation);
        Worst(rule, steps, clean + 1, edition).Should().Be(Severity.Violation);
    }

    [Theory]
    [InlineData("source-transition-late", "request 3 at 3A;accept;send source PS_RDY with gap Tus", 24_953, Severity.Violation)]
    [InlineData("retry-mistimed", "request 3 at 3A;accept with retry-gap Tus;ready", 853, Severity.Violation)]
    [InlineData("capabilities-mistimed", "hard-reset;advertise with drop-goodcrc 3;advertise with gap Tus;contract 2 at 3A", 92_908, Severity.Violation)]
    [InlineData("request-after-wait-early", "request 3 at 3A;wait;send sink Request 0x2004B12C with gap Tus;accept;ready", 99_306, Severity.Note)]
    [InlineData("swap-mistimed", "send source DR_Swap;send sink Wait;send source DR_Swap with gap Tus;send sink Reject", 99_306, Severity.Violation)]
    public void TooEarly_IsTold(string rule, string steps, long clean, Severity severity)
    {
        Worst(rule, steps, clean).Should().BeNull();
        Worst(rule, steps, clean - 1).Should().Be(severity);
    }

    // An instrument that stamps in milliseconds proves no limit of 195 us, and one of 325 ms only when it is well beyond.
    [Theory]
    [InlineData("goodcrc-late", "send sink Get_Status with late-goodcrc 700us;send source Status 21060000020000", null)]
    [InlineData("source-transition-late", "request 3 at 3A;accept;ready after 326ms", null)]
    [InlineData("source-transition-late", "request 3 at 3A;accept;ready after 340ms", Severity.Violation)]
    public void CoarseStamps_ProveWhatTheyCan(string rule, string steps, Severity? expected)
    {
        string[] lines = Script(steps, "R3.2").Split('\n', StringSplitOptions.RemoveEmptyEntries);
        string rounded = string.Join('\n', Degraded.Ways["in milliseconds"](lines, new Random(1)));

        Worst(rule, rounded).Should().Be(expected);
        Worst(rule, string.Join('\n', Degraded.Ways["in milliseconds, and said so"](lines, new Random(1)))).Should().Be(expected);
    }

    private static Severity? Worst(string rule, string steps, long time, string edition = "R3.2") => Worst(
        rule, Script(steps.Replace("Tus", $"{time}us", StringComparison.Ordinal), edition));

    private static Severity? Worst(string rule, string capture) => CaptureRun.Told(capture).Findings
        .Where(finding => finding.Rule == rule && (finding.Severity != Severity.Note || rule == "request-after-wait-early"))
        .Select(finding => (Severity?)finding.Severity).Min();

    private static string Script(string steps, string edition) => Encoding.UTF8.GetString(Synthesised.Bytes(
        $"""
        edition: {edition}
        cable: EPR captive
        source: [5V 3A epr, 9V 3A, 15V 3A, 20V 5A, SPR AVS 3A/5A, PPS 5-21V 5A, 28V 5A, EPR AVS 15-28V 140W]
        sink: [5V 3A]
        steps:

        """ + string.Concat($"attach;advertise;contract 2 at 3A;pause 40ms;{steps};{Tail(steps)}".Split(';').Select(step => $"  - {step}\n"))));

    private static string Tail(string steps) => steps.Contains("enter-epr", StringComparison.Ordinal)
        ? "keep-alive;keep-alive;keep-alive"
        : "get-sink-cap;send sink DR_Swap;reject;get-sink-cap;send sink DR_Swap;reject";
}
