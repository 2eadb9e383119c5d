using System.Text;
using Portwitness.Analysis.Catalogue;
using Portwitness.Analysis.Conversation;
using Portwitness.Analysis.Evidence;
using Portwitness.Analysis.Findings;
using Portwitness.Analysis.Rules;
using Portwitness.Captures;
using Portwitness.Captures.Formats;
using Portwitness.Captures.JsonLines;

namespace Portwitness.Analysis.Tests.Measuring;

/// <summary>One contract of a measured conversation.</summary>
/// <param name="Request">As a script writes it.</param>
/// <param name="Millivolts">What VBUS is then.</param>
/// <param name="Milliamperes">What the load takes.</param>
/// <param name="ReadyMs">PS_RDY after Accept.</param>
/// <param name="BeginMs">VBUS begins to move after Accept.</param>
internal sealed record Leg(string Request, int Millivolts, int Milliamperes, int ReadyMs = 320, int BeginMs = 30)
{
    public long AcceptUs { get; set; }

    public long ReadyUs { get; set; }
}

/// <summary>
/// A conversation with what an honest source and load do on VBUS, sampled. VBUS follows the messages in straight lines: 5 V
/// after the attach, each leg's voltage from its Accept to shortly before PS_RDY, nothing after a detach.
/// </summary>
internal sealed class Bench : ICaptureSink
{
    private readonly List<(long At, int Millivolts)> _knots = [(0, 0)];
    private readonly string _script;
    // Only while it runs.
    private CaptureWriter _writer = null!;
    private long _sampleUs;
    private ulong _noise = 1;

    public Bench(string header, IReadOnlyList<Leg> legs, string tail = "pause 1s", bool startsLate = false)
    {
        Legs = legs;
        StringBuilder steps = new();
        foreach (Leg leg in legs)
        {
            steps.Append(leg.Request.StartsWith("- ", StringComparison.Ordinal)
                ? $"  {leg.Request}\n"
                : $"  - request {leg.Request}\n  - accept\n  - ready after {leg.ReadyMs}ms\n  - pause 1s\n");
        }

        _script = $"{header}\nsteps:\n{(startsLate ? "" : "  - attach\n")}  - discover-cable\n  - advertise\n{steps}  - {tail}\n";
        Plan(Synthesised.Of(_script));
    }

    public IReadOnlyList<Leg> Legs { get; }

    /// <summary>Time between samples.</summary>
    public long EveryUs { get; init; } = 5_000;

    /// <summary>Largest noise of either sign, in mV.</summary>
    public int NoiseMillivolts { get; init; }

    /// <summary>What goes wrong: a sample as it is after one as it should be.</summary>
    public Func<Reading, Reading> Spoil { get; set; } = sample => sample;

    public long EndUs { get; private set; }

    public CaptureAnalysis Run()
    {
        using MemoryStream text = new();
        using CaptureWriter writer = new(text);
        _writer = writer;
        CaptureReader reader = new(this);
        reader.Write(Synthesised.Bytes(_script));
        reader.Complete();
        Sample(EndUs + 1);
        writer.Flush();
        CaptureAnalyzer analyzer = new(new CaptureOptions { File = "bench" });
        analyzer.Write(text.ToArray());
        return analyzer.Complete();
    }

    /// <summary>Rules of cable and VBUS that accuse, in order of name.</summary>
    public static string[] Accusing(CaptureAnalysis analysis) =>
    [
        .. analysis.Findings.Where(finding => finding.Severity is Severity.Violation or Severity.Mismatch)
            .Where(IsOurs).Select(finding => finding.Rule).Distinct().Order(StringComparer.Ordinal),
    ];

    public static bool IsOurs(Finding finding) => CaptureRules.Descriptions
        .Single(rule => rule.Name == finding.Rule).Category is RuleCategory.Cables or RuleCategory.Vbus;

    void ICaptureSink.OnHeader(CaptureHeader header) => _writer.OnHeader(header);

    void ICaptureSink.OnMessage(in MessageRecord message)
    {
        Sample(message.TimeUs);
        _writer.OnMessage(message);
    }

    void ICaptureSink.OnSignal(SignalRecord signal)
    {
        Sample(signal.TimeUs);
        _writer.OnSignal(signal);
    }

    void ICaptureSink.OnMeasurement(MeasurementRecord measurement) => throw new NotSupportedException();

    void ICaptureSink.OnEvent(EventRecord happened)
    {
        Sample(happened.TimeUs);
        _writer.OnEvent(happened);
    }

    void ICaptureSink.OnFault(CaptureFault fault) => Assert.Fail($"{fault}");

    private void Plan(Synthesised capture)
    {
        List<(long At, string What)> marks =
        [
            .. capture.Events.Where(happened => happened.Port is null or "C1").Select(happened => (happened.TimeUs, happened.Name)),
            .. capture.Signals.Select(signal => (signal.TimeUs, "hard-reset")),
            .. capture.Spoken.Select(message => (message.EndUs, message.Name)),
        ];
        int leg = -1;
        bool requested = false;
        foreach ((long at, string what) in marks.OrderBy(mark => mark.At))
        {
            EndUs = Math.Max(EndUs, at);
            switch (what)
            {
                case "vbus-on":
                    _knots.Add((Math.Max(at - 50_000, _knots[^1].At), 0));
                    _knots.Add((at, 5_080));
                    break;
                case "Request" or "EPR_Request":
                    leg = NextLeg(leg);
                    requested = true;
                    break;
                case "Accept" when requested:
                    Legs[leg].AcceptUs = at;
                    _knots.Add((at + (1_000 * Legs[leg].BeginMs), _knots[^1].Millivolts));
                    _knots.Add((at + (1_000 * Math.Min(Legs[leg].ReadyMs - 2, 312)), Legs[leg].Millivolts));
                    break;
                case "PS_RDY" when requested:
                    (Legs[leg].ReadyUs, requested) = (at, false);
                    break;
                case "hard-reset" or "detach":
                    _knots.Add((at + 30_000, _knots[^1].Millivolts));
                    _knots.Add((at + 200_000, 0));
                    break;
            }
        }

        // What the last pause leaves.
        EndUs += 1_000_000;
    }

    private int NextLeg(int leg)
    {
        do
        {
            leg++;
        }
        while (Legs[leg].Request.StartsWith("- ", StringComparison.Ordinal));

        return leg;
    }

    private void Sample(long untilUs)
    {
        for (; _sampleUs <= untilUs; _sampleUs += EveryUs)
        {
            Leg? leg = Legs.LastOrDefault(candidate => candidate.ReadyUs > 0 && candidate.ReadyUs < _sampleUs);
            int volts = At(_sampleUs);
            int current = leg is null || volts < 3_000 || Legs.Any(next => next.AcceptUs <= _sampleUs && _sampleUs <= next.ReadyUs) ? 0 : leg.Milliamperes;
            Reading sample = Spoil(new Reading(_sampleUs, volts + Noise(), current));
            _writer.OnMeasurement(new MeasurementRecord(_sampleUs, 0, sample.Millivolts, sample.Milliamperes));
        }
    }

    private int At(long us)
    {
        int next = _knots.FindIndex(knot => knot.At > us);
        if (next <= 0)
        {
            return _knots[^1].Millivolts;
        }

        ((long from, int low), (long to, int high)) = (_knots[next - 1], _knots[next]);
        return low + (int)((high - low) * (us - from) / (to - from));
    }

    private int Noise()
    {
        _noise = (_noise * 6364136223846793005) + 1442695040888963407;
        return NoiseMillivolts == 0 ? 0 : (int)((_noise >> 33) % (ulong)((2 * NoiseMillivolts) + 1)) - NoiseMillivolts;
    }

    /// <summary>A sample that may be spoilt.</summary>
    internal sealed record Reading(long TimeUs, int Millivolts, int? Milliamperes);
}
