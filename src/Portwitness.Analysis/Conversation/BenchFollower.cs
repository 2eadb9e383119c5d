using Portwitness.Analysis.Bench;
using Portwitness.Captures;
using Portwitness.Following.Links;
using Portwitness.Labels;

namespace Portwitness.Analysis.Conversation;

/// <summary>Keeps what happens at the bench, for what is judged of several captures together.</summary>
internal sealed class BenchFollower(CaptureContext context) : ICaptureFollower
{
    /// <summary>Of each kind so many are kept.</summary>
    public const int Most = 1000;

    private readonly List<PortEvent> _events = [];
    private readonly List<PortSignal> _signals = [];
    private readonly List<VbusEvent> _vbus = [];
    private long _endUs;
    private long _unlisted;
    private bool _measuresVbus;

    /// <summary>Events, signals and interruptions beyond <see cref="Most"/>.</summary>
    public long Unlisted => _unlisted + context.Interruptions.Unlisted;

    /// <inheritdoc/>
    public void OnMessage(in HeardMessage message) => _endUs = message.TimeUs;

    /// <inheritdoc/>
    public void OnSignal(SignalRecord signal) => _endUs = signal.TimeUs;

    /// <inheritdoc/>
    public void OnMeasurement(MeasurementRecord measurement)
    {
        _endUs = measurement.TimeUs;
        _measuresVbus |= measurement.VbusMillivolts is not null;
    }

    /// <inheritdoc/>
    public void OnEvent(EventRecord happened)
    {
        _endUs = happened.TimeUs;
        string port = happened.Port ?? context.Port;
        switch (happened.Name)
        {
            case CaptureEvents.Attach or CaptureEvents.Detach:
                Add(_events, new PortEvent(happened.TimeUs, port, happened.Name == CaptureEvents.Attach));
                break;
            case CaptureEvents.VbusOn or CaptureEvents.VbusOff when happened.Port is null || PortNames.Same(happened.Port, context.Port):
                Add(_vbus, new VbusEvent(happened.TimeUs, happened.Name == CaptureEvents.VbusOn));
                break;
            case CaptureEvents.DataLine when happened.Value is { Length: > 0 } word:
                Signal(happened.TimeUs, port, word);
                break;

            // Under an explicit contract Rp says who may begin to speak (R3.2v1.1, Table 5.13).
            case CaptureEvents.Rp when happened.Value is { Length: > 0 } current && (happened.Port is not null || context.Contracts.Granted is null):
                Signal(happened.TimeUs, port, $"type-c-{current}");
                break;
        }
    }

    /// <inheritdoc/>
    public void Complete()
    {
    }

    /// <summary>All that was kept.</summary>
    public BenchRecord ToRecord() => new()
    {
        Started = context.Header?.Started,
        EndUs = _endUs,
        Spans = [.. context.Arrangement.Spans],
        Events = [.. _events],
        Signals = [.. _signals],
        Interruptions = [.. context.Interruptions.Interruptions],
        MeasuresVbus = _measuresVbus,
        VbusEvents = [.. _vbus],
        Forewarnings = [.. context.Forewarnings.Kept],
    };

    private void Signal(long timeUs, string port, string word)
    {
        if (!_signals.Exists(seen => seen.Port == port && seen.Word == word && seen.InUse.SequenceEqual(context.Arrangement.InUse)))
        {
            Add(_signals, new PortSignal(timeUs, port, word, context.Arrangement.InUse));
        }
    }

    private void Add<T>(List<T> list, T item)
    {
        if (list.Count < Most)
        {
            list.Add(item);
        }
        else
        {
            _unlisted++;
        }
    }
}
