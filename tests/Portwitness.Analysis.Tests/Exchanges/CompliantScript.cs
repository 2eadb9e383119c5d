using System.Globalization;

namespace Portwitness.Analysis.Tests.Exchanges;

/// <summary>
/// Conversations in which nobody breaks the standard: attaches, contracts, refusals, swaps, resets, retries, EPR mode. Times
/// are drawn from within R3.2v1.1 Tables 6.68 and 7.23, often exactly their ends.
/// </summary>
internal sealed class CompliantScript
{
    private readonly Random _random;
    private readonly List<string> _steps = [];
    private readonly string _edition;
    private readonly int _jitterUs;
    private bool _pps;
    private bool _epr;

    private CompliantScript(int seed, string edition)
    {
        (_random, _edition) = (new Random(seed), edition);
        _jitterUs = seed % 3 == 0 ? 1 + _random.Next(10_000) : 0;
    }

    private bool IsR2 => _edition == "R2.0";

    private bool HasEpr => _edition is "R3.1" or "R3.2";

    /// <summary>A script; every second one states its edition.</summary>
    public static string Of(int seed, string edition) => new CompliantScript(seed, edition).Write(seed);

    private string Write(int seed)
    {
        Begin();
        int length = 3 + _random.Next(8);
        for (int i = 0; i < length; i++)
        {
            Step();
        }

        string source = _edition switch
        {
            "R2.0" => "[5V 3A, 9V 3A, 15V 3A, 20V 3A]",
            "R3.0" => "[5V 3A, 9V 3A, 15V 3A, PPS 3.3-11V 3A]",
            "R3.1" => "[5V 3A epr, 9V 3A, 15V 3A, 20V 5A, PPS 3.3-21V 5A, 28V 5A, EPR AVS 15-28V 140W]",
            _ => "[5V 3A epr, 9V 3A, 15V 3A, 20V 5A, SPR AVS 3A/5A, PPS 5-21V 5A, 28V 5A, EPR AVS 15-28V 140W]",
        };
        string head = seed % 2 == 0 ? $"edition: {_edition}\n" : "";
        return head + string.Create(CultureInfo.InvariantCulture,
            $"""
            cable: EPR captive
            revision: {(IsR2 ? "2.0" : "3.x")}
            jitter_us: {_jitterUs}
            seed: {seed}
            source: {source}
            sink: [5V 3A]
            steps:

            """) + string.Concat(_steps.Select(step => $"  - {step}\n"));
    }

    private string Pick(params string[] of) => of[_random.Next(of.Length)];

    private void Do(params string[] steps) => _steps.AddRange(steps);

    // The largest that a limit allows; jitter comes on top.
    private string Most(int milliseconds) => $"{(_jitterUs > 0 ? milliseconds - 10 : milliseconds)}ms";

    // tReceiverResponse: at most 15 ms; retries after noise.
    private string Noise() => _random.Next(6) switch
    {
        0 => " with bad-crc",
        1 => " with drop-goodcrc 2",
        2 => " with gap 15ms", // without jitter
        3 => " with gap 30us",
        _ => "",
    };

    private void Begin()
    {
        Do("attach");
        for (int unheard = _random.Next(3); unheard > 0; unheard--)
        {
            Do($"advertise with drop-goodcrc {(IsR2 ? 4 : 3)}");
        }

        Do("advertise" + Pick("", " with bad-crc"));
        Contract(1 + _random.Next(3));
        Do($"pause {Pick("40ms", "300ms", "2s")}");
    }

    private void Contract(int position)
    {
        Do($"request {position} at 3A" + Noise(), "accept" + Noise(), $"ready after {Pick("25ms", "126ms", Most(285), Most(325))}");
        _pps = false;
    }

    private void Step()
    {
        if (_epr)
        {
            Epr();
            return;
        }

        int kind = _random.Next(IsR2 ? 9 : 16);
        if (_pps && _random.Next(2) == 0)
        {
            Do($"pause {Pick("1s", "5s", "9.5s")}");
            PpsStep();
            return;
        }

        Do($"pause {Pick("30us", "1ms", "60ms", "900ms")}");
        Take(kind);
    }

    private void Take(int kind)
    {
        switch (kind)
        {
            case 0:
                Contract(1 + _random.Next(3));
                break;
            case 1:
                Do("request 2 at 3A", "wait" + Noise(), "request 2 at 3A", "accept", "ready");
                _pps = false;
                break;
            case 2:
                Do("request 3 at 3A" + Noise(), "reject" + Noise());
                break;
            case 3:
                Do("send sink Get_Source_Cap", "advertise");
                Contract(2);
                break;
            case 4:
                Do("get-sink-cap" + Noise());
                break;
            case 5:
                Do($"soft-reset {Pick("source", "sink")}", "pause 100ms", "advertise");
                Contract(2);
                break;
            case 6:
                Do("hard-reset", "advertise");
                Contract(1 + _random.Next(3));
                break;
            case 7:
                Do($"send {Pick("source", "sink")} {Pick("DR_Swap", "VCONN_Swap")}");
                Do($"send {(_steps[^1].Contains("source", StringComparison.Ordinal) ? "sink" : "source")} {Pick("Reject", "Wait")}", "pause 110ms");
                break;
            case 8:
                Do("detach", "pause 700ms");
                Begin();
                break;
            default:
                OfR3(kind);
                break;
        }
    }

    private void OfR3(int kind)
    {
        switch (kind)
        {
            case 9:
                Do("send sink Get_Status" + Noise(), "send source Status 21010000020000" + Noise());
                break;
            case 10:
                Do("send sink Get_Revision" + Noise(), $"send source Revision {(_edition == "R3.2" ? "0x32110000" : _edition == "R3.1" ? "0x31180000" : "0x30200000")}");
                break;
            case 11:
                Do("send sink Get_Country_Codes", "not-supported source" + Noise());
                break;
            case 12:
                Do("send source Alert 0x10000000", "pause 5ms", "send sink Get_Status", "send source Status 21010000020000");
                break;
            case 13:
                Do("send sink Vendor_Defined 0xFF00A001" + Noise(), $"send source Vendor_Defined {Pick("0xFF00A081", "0xFF00A041 0x00000000 0x00000000 0x00000000")}");
                break;
            case 14 when HasEpr:
                Contract(4);
                _steps[^3] = "request 4 at 5A epr";
                Do("enter-epr at 140W", "contract 8 at 5A epr");
                _epr = true;
                break;
            default:
                Do($"contract {Pps} at 9V 3A");
                _pps = true;
                break;
        }
    }

    private int Pps => _edition switch { "R3.0" => 4, "R3.1" => 5, _ => 6 };

    // A step of 400 mV takes up to 25 ms, a larger one up to 275 ms.
    private void PpsStep() => Do(_random.Next(3) switch
    {
        0 => [$"request {Pps} at 9V 3A", "accept", $"ready after {Most(25)}", $"request {Pps} at 9.4V 3A", "accept", $"ready after {Pick("0ms", "10ms", Most(25))}"],
        1 => [$"request {Pps} at 5V 3A" + Noise(), "accept", $"ready after {Most(275)}", $"request {Pps} at 9V 3A", "accept", $"ready after {Most(275)}"],
        _ => [$"request {Pps} at 9V 3A", "accept" + Noise(), $"ready after {Most(25)}"],
    });

    private void Epr()
    {
        switch (_random.Next(6))
        {
            case 0:
                Do($"keep-alive every {Pick("300ms", "400ms", "450ms")} for 3s");
                break;
            case 1:
                Do("request 9 at 20V 5A epr", "accept" + Noise(), $"ready after {Pick(Most(50), Most(700))}", "request 9 at 20.5V 5A epr", "accept", $"ready after {Most(50)}");
                break;
            case 2:
                Do("request 8 at 5A epr", "accept", $"ready after {Pick("25ms", "400ms", Most(760))}");
                break;
            case 3:
                Do("advertise", "request 8 at 5A epr", "accept", "ready after 100ms");
                break;
            case 4:
                Do("hard-reset", "advertise");
                _epr = false;
                Contract(1);
                break;
            default:
                // EPR mode is left under a contract for an SPR object (6.4.10, from memory).
                Do("request 4 at 5A epr", "accept", "ready after 100ms", $"exit-epr {Pick("source", "sink")}", "advertise");
                _epr = false;
                Contract(1);
                break;
        }
    }
}
