namespace Portwitness.Analysis.Tests.Exchanges;

/// <summary>
/// Scripts of conversations that keep the standard, with VBUS where it has to be: vSafe5V 4.75 to 5.5 V, a fixed voltage within
/// 5 % and its transitions, vSafe0V for tSrcRecover after a Hard Reset (R3.2v1.1, Tables 6.68 and 7.23).
/// </summary>
internal static class MeasuredConversations
{
    public const string Head =
        """
        edition: R3.2
        cable: EPR captive
        measured_at: source
        source: [5V 3A epr, 9V 3A, 15V 3A, 20V 5A, SPR AVS 3A/5A, PPS 5-21V 5A, 28V 5A, EPR AVS 15-28V 140W]
        sink: [5V 3A]
        steps:
          - attach
          - measure 5V 0A
          - advertise

        """;

    public static IReadOnlyDictionary<string, string> All { get; } = new Dictionary<string, string>
    {
        ["up and down"] = Lines(
            "contract 1 at 3A", "measure 5.02V 1A every 10ms for 200ms", "request 4 at 5A", "accept", "pause 80ms", "measure 12V 0A",
            "pause 100ms", "ready after 300ms", "pause 20ms", "measure 20.1V 3A every 20ms for 2s", "request 2 at 3A", "accept", "pause 60ms",
            "measure 14V 0A", "pause 200ms", "ready after 300ms", "pause 50ms", "measure 9.05V 2A every 20ms for 1s"),
        ["pps and back"] = Lines(
            "contract 1 at 3A", "pause 200ms", "measure 5V 1A every 10ms for 100ms", "contract 6 at 9V 3A", "pause 100ms", "measure 9V 2A every 50ms for 6s",
            "contract 6 at 9V 3A", "measure 9V 2A every 50ms for 6s", "contract 1 at 3A", "pause 400ms", "measure 5V 1A every 500ms for 30s"),
        ["epr and back"] = Lines(
            "request 4 at 5A epr", "accept", "ready after 300ms", "pause 50ms", "measure 20V 1A every 20ms for 400ms", "enter-epr at 140W", "contract 8 at 5A",
            "pause 400ms", "keep-alive every 400ms for 2s", "measure 28V 4A", "request 4 at 5A", "accept", "ready after 400ms", "pause 10ms",
            "keep-alive", "measure 20V 1A", "exit-epr sink", "advertise", "contract 4 at 5A", "pause 300ms", "measure 20V 1A every 500ms for 10s"),
        ["hard reset"] = Lines(
            "contract 2 at 3A", "pause 300ms", "measure 9V 2A every 20ms for 400ms", "hard-reset", "measure 5V 0A", "advertise",
            "contract 2 at 3A", "pause 300ms", "measure 9V 2A every 20ms for 400ms"),
        ["soft reset and swaps"] = Lines(
            "contract 2 at 3A", "pause 300ms", "measure 9V 2A every 20ms for 400ms", "soft-reset sink", "pause 100ms", "advertise", "contract 3 at 3A",
            "pause 400ms", "measure 15V 2A every 20ms for 400ms", "send sink DR_Swap", "reject", "send sink VCONN_Swap", "accept", "send source PS_RDY",
            "measure 15V 2A every 20ms for 400ms"),
        ["detach and attach"] = Lines(
            "contract 2 at 3A", "pause 300ms", "measure 9V 2A every 20ms for 400ms", "detach", "pause 100ms", "measure 0V 0A every 20ms for 1s", "attach",
            "measure 5V 0A", "advertise", "contract 1 at 3A", "pause 200ms", "measure 5V 2A every 20ms for 400ms"),
        ["data besides"] = Lines(
            "contract 4 at 5A", "pause 400ms", "measure 20V 3A every 50ms for 1s", "send sink Get_Status", "send source Status 21060000020000",
            "send sink Get_Source_Info", "send source Source_Info 0x808C8C64", "get-sink-cap", "send sink Get_Source_Cap", "advertise", "contract 4 at 5A",
            "pause 50ms", "measure 20V 3A every 50ms for 12s"),
    };

    private static string Lines(params string[] steps) => string.Concat(steps.Select(step => $"  - {step}\n"));
}
