using Portwitness.Analysis.Bench;
using Portwitness.Analysis.Phrases;
using Portwitness.Captures;
using Portwitness.Following.Links;
using Portwitness.PowerDelivery.Framing;
using Portwitness.PowerDelivery.Headers;
using Portwitness.PowerDelivery.Messages;

namespace Portwitness.Analysis.Conversation;

/// <summary>Keeps what came before each list of the port that may say why it changed: of each kind the last.</summary>
internal sealed class ForewarningFollower(CaptureContext context) : ICaptureFollower
{
    private const int Most = 4000;

    private readonly Dictionary<ForewarningKind, Forewarning> _pending = [];
    private readonly List<Forewarning> _kept = [];

    /// <inheritdoc/>
    public bool HearsGoodCrcs => false;

    /// <summary>In the order in which they came.</summary>
    public IReadOnlyList<Forewarning> Kept => _kept;

    /// <inheritdoc/>
    public void OnMessage(in HeardMessage message)
    {
        if (message.Sop != SopKind.Sop || message.CrcOk == false || !message.Known.IsEmpty || !context.Role.IsCertain)
        {
            return;
        }

        bool isPartners = context.Role.IsPartners(message.View.Header, message.HeaderKnown);
        if (message.Kind == MessageKind.GetSourceCap)
        {
            if (isPartners)
            {
                Add(ForewarningKind.Request, message, $"{message.Kind.Name}");
            }
        }
        else if (isPartners)
        {
            return;
        }
        else if (message.Kind.IsSourceList)
        {
            Keep();
        }
        else if (message.Kind == MessageKind.Alert && message.View is { CompleteObjects: 1, ClaimedObjects: 1 })
        {
            Alert(message, new AlertObject(message.View.ObjectAt(0)));
        }
        else if (message.Kind == MessageKind.SourceInfo && message.View is { CompleteObjects: 1, ClaimedObjects: 1 }
            && new SourceInfoObject(message.View.ObjectAt(0)) is var info && info.PresentPdp < info.MaximumPdp)
        {
            Add(ForewarningKind.SourceInfo, message, $"a Source_Info with {info.PresentPdp} of {info.MaximumPdp} at present");
        }
    }

    /// <inheritdoc/>
    public void OnSignal(SignalRecord signal)
    {
        if (signal.Kind == SignalKind.HardReset)
        {
            _pending[ForewarningKind.HardReset] = new Forewarning(ForewarningKind.HardReset, signal.TimeUs, "a Hard Reset");
        }
    }

    /// <inheritdoc/>
    public void Complete()
    {
        // What no list followed has changed none.
    }

    private void Alert(in HeardMessage message, AlertObject alert)
    {
        string[] names = [.. AlertObject.Events.Where(one => one.IsSet(alert.Raw)).Select(static one => one.Name)];
        if (names.Length > 0)
        {
            Add(ForewarningKind.Alert, message, $"an Alert ({Phrase.JoinNames(", ", names)})");
        }
    }

    private void Add(ForewarningKind kind, in HeardMessage message, Phrase words) =>
        _pending[kind] = new Forewarning(kind, message.TimeUs, $"{words} in message {message.Index}");

    private void Keep()
    {
        if (_pending.Count > 0 && _kept.Count < Most)
        {
            _kept.AddRange(_pending.Values.OrderBy(static one => one.TimeUs));
        }

        _pending.Clear();
    }
}
