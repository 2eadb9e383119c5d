using Portwitness.Captures;
using Portwitness.Text;

namespace Portwitness.Synthesis;

/// <summary>Reads the text of one step: a verb, what it needs, then "with" a mishap and "every" a repetition.</summary>
/// <param name="sources">The source's lists by name.</param>
/// <param name="sinks">The sink's lists by name.</param>
internal sealed class StepReader(
    IReadOnlyDictionary<string, CapabilitySet> sources, IReadOnlyDictionary<string, CapabilitySet> sinks)
{
    /// <summary>The verbs, for a message and for the page that describes them.</summary>
    public static IReadOnlyList<string> Verbs { get; } =
    [
        "attach", "detach", "discover-cable", "advertise", "request", "accept", "reject", "wait", "not-supported", "no-answer",
        "ready", "contract", "get-source-cap", "get-epr-source-cap", "get-sink-cap", "soft-reset", "hard-reset", "cable-reset",
        "enter-epr", "exit-epr", "keep-alive", "measure", "load-on", "load-off", "rp", "line", "pause", "send", "raw",
    ];

    /// <summary>Reads one step.</summary>
    /// <exception cref="ScriptFault">It is not understood.</exception>
    public (Action<Dialogue> Play, Mishap? Mishap, Repetition? Times) Read(string text)
    {
        ScriptWords words = new(text);
        string verb = words.ExpectWord("a step").ToLowerInvariant();
        Action<Dialogue> play = Power(verb, words) ?? Lists(verb, words) ?? Bench(verb, words)
            ?? throw ScriptFault.Unknown(
                $"\"{verb}\" is no step.{(NearestName.Of(verb, Verbs) is { } nearest ? $" Did you mean \"{nearest}\"?" : "")} "
                + $"The steps are {string.Join(", ", Verbs)} and repeat");
        Mishap? mishap = words.Take("with") ? Mishap.Read(words) : null;
        Repetition? times = words.Next == "every" ? Repetition.Read(words) : null;
        words.End();
        return (play, mishap, times);
    }

    // What port partners say about power, and resets.
    private static Action<Dialogue>? Power(string verb, ScriptWords words)
    {
        switch (verb)
        {
            case "request":
                RequestWords request = RequestWords.Read(words);
                return talk => talk.Request(request);
            case "contract":
                RequestWords contract = RequestWords.Read(words);
                return talk => talk.Contract(contract);
            case "ready":
                long? after = words.Take("after") ? Time(words) : null;
                return talk => talk.Ready(after);
            case "soft-reset":
                Sender resetting = Port(words, Sender.Sink);
                return talk => talk.SoftReset(resetting);
            case "exit-epr":
                Sender leaving = Port(words, Sender.Sink);
                return talk => talk.ExitEpr(leaving);
            case "not-supported":
                Sender refusing = Port(words, Sender.Source);
                return talk => talk.Say(refusing, PowerDelivery.Headers.MessageKind.NotSupported);
            case "hard-reset":
                bool alone = words.Take("alone");
                return talk => talk.HardReset(alone);
            default:
                return verb switch
                {
                    "accept" => talk => talk.Accept(),
                    "reject" => talk => talk.Say(Sender.Source, PowerDelivery.Headers.MessageKind.Reject),
                    "wait" => talk => talk.Wait(),
                    "no-answer" => talk => talk.NoAnswer(),
                    "keep-alive" => talk => talk.KeepAlive(),
                    "cable-reset" => talk => talk.CableReset(),
                    _ => null,
                };
        }
    }

    // What names a list.
    private Action<Dialogue>? Lists(string verb, ScriptWords words)
    {
        switch (verb)
        {
            case "advertise":
                CapabilitySet advertised = List(words, sources, "source");
                return talk => talk.Advertise(advertised);
            case "get-source-cap":
                CapabilitySet? answer = words.Next is { } next && sources.ContainsKey(next) ? List(words, sources, "source") : null;
                return talk => talk.GetSourceCap(answer);
            case "get-epr-source-cap":
                CapabilitySet epr = List(words, sources, "source");
                return talk => talk.GetEprSourceCap(epr);
            case "get-sink-cap":
                CapabilitySet needs = List(words, sinks, "sink");
                return talk => talk.GetSinkCap(needs);
            case "enter-epr":
                return EnterEpr(words);
            default:
                return null;
        }
    }

    // What happens at the bench, and messages that no other step sends.
    private static Action<Dialogue>? Bench(string verb, ScriptWords words)
    {
        switch (verb)
        {
            case "attach" or "detach":
                string? port = Name(words);
                return verb == "attach" ? talk => talk.Attach(port) : talk => talk.Detach(port);
            case "load-on" or "load-off":
                string happened = verb == "load-on" ? CaptureEvents.LoadOn : CaptureEvents.LoadOff;
                return talk => talk.Happen(happened);
            case "rp" or "line":
                string value = words.ExpectWord(verb == "rp" ? "default, 1.5A or 3A" : "what the data lines show");
                string? where = Name(words);
                return talk => talk.Happen(verb == "rp" ? CaptureEvents.Rp : CaptureEvents.DataLine, where, value);
            case "pause":
                long time = Time(words);
                return talk => talk.Pause(time);
            case "discover-cable":
                CableMarker? cable = IsEnd(words) ? null : CableMarker.Read(words);
                return talk => talk.DiscoverCable(cable);
            case "measure":
                return Measure(words);
            case "send":
                return FreeMessage.Read(words);
            case "raw":
                return FreeMessage.ReadRaw(words);
            default:
                return null;
        }
    }

    private Action<Dialogue> EnterEpr(ScriptWords words)
    {
        CapabilitySet set = List(words, sources, "source");
        if (!words.Take("at"))
        {
            throw ScriptFault.Value($"\"at\" and the sink's power were expected in \"{words.Text}\", for example enter-epr at 140W");
        }

        int milliwatts = words.Expect(AmountWords.Milliwatts, "the sink's power in whole watts, up to 255W,");
        if (milliwatts % 1000 != 0 || milliwatts is < 0 or > 255_000)
        {
            throw ScriptFault.Value($"\"{words.Text}\": whole watts up to 255W are coded");
        }

        int? failure = words.Take("fails") ? words.ExpectNumber(255, "a reason of 0 to 255") : null;
        return talk => talk.EnterEpr(set, milliwatts / 1000, failure);
    }

    private static Action<Dialogue> Measure(ScriptWords words)
    {
        int? volts = words.Try(AmountWords.Millivolts);
        int? amperes = words.Try(AmountWords.Milliamperes);
        return (volts ?? amperes) is null
            ? throw ScriptFault.Value($"a voltage, a current or both were expected in \"{words.Text}\", for example measure 9.02V 2.96A")
            : talk => talk.Measure(volts, amperes);
    }

    private static CapabilitySet List(ScriptWords words, IReadOnlyDictionary<string, CapabilitySet> lists, string member)
    {
        if (words.Next is { } next && lists.TryGetValue(next, out CapabilitySet? named))
        {
            words.ExpectWord("a list");
            return named;
        }

        return lists.TryGetValue("", out CapabilitySet? only) ? only : throw ScriptFault.Value(
            lists.Count == 0
                ? $"\"{words.Text}\" needs a list; write one under \"{member}:\""
                : $"\"{words.Text}\" names no list of \"{member}:\"; there are {string.Join(", ", lists.Keys)}");
    }

    private static Sender Port(ScriptWords words, Sender usual) =>
        words.Take("source") ? Sender.Source : words.Take("sink") ? Sender.Sink : usual;

    private static string? Name(ScriptWords words) => IsEnd(words) ? null : words.ExpectWord("a port");

    private static bool IsEnd(ScriptWords words) => words.Next is null or "with" or "every";

    private static long Time(ScriptWords words) => words.Expect(AmountWords.Microseconds, "a time such as 126ms");
}
