using Portwitness.Analysis.Rules;
using Portwitness.Captures;
using Portwitness.Following.Links;
using Portwitness.PowerDelivery.Framing;

namespace Portwitness.Analysis.Conversation;

/// <summary>
/// Has the rules about the line judge every frame whose recording shows it. A frame waits until it is known whether a neighbour broke:
/// where a recorder loses samples, it loses those of several frames, and what is left of them is not what was sent.
/// </summary>
internal sealed class LineFollower(CaptureContext context) : ICaptureFollower
{
    /// <summary>A frame that broke so near by is a neighbour (common practice, no source): a frame and its retry are no farther apart.</summary>
    private const long NearUs = 2_000;

    // As many frames as such a time has room for, both sides of it; a file may say what it likes.
    private const int MaxWaiting = 16;

    private readonly List<Waiting> _waiting = [];
    private readonly FrameGaps _gaps = new();
    private long _brokeUs = long.MinValue;
    private long _index;

    /// <inheritdoc/>
    public void OnMessage(in HeardMessage message)
    {
        _index = message.Index;
        Settle(message.TimeUs);
        if (message.CrcOk == false)
        {
            Broke(message.TimeUs, message.TimeUs);
        }
        else if (message.Quality.IsStated && message.CrcOk == true)
        {
            int bits = message.FrameBits;
            Add(
                new SentFrame(message.Quality, FrameBreak.None, Sender(message.Sop, message.FromSourceOrPlug))
                {
                    Gap = _gaps.Before(message.TimeUs),
                },
                message.TimeUs, message.TimeUs + BitRate.MostUs(bits));
            _gaps.Keep(message.TimeUs, bits, message.Quality, context.Header);
            return;
        }

        _gaps.Forget();
    }

    /// <inheritdoc/>
    public void OnSignal(SignalRecord signal)
    {
        Settle(signal.TimeUs);
        _gaps.Forget();
        if (signal.Quality.IsStated)
        {
            Add(new SentFrame(signal.Quality, FrameBreak.None, FrameSender.Unknown), signal.TimeUs, signal.TimeUs);
        }
    }

    /// <inheritdoc/>
    public void OnBrokenFrame(BrokenFrameRecord frame)
    {
        // A header without a CRC behind it is no evidence of who sent it.
        Settle(frame.TimeUs);
        _gaps.Forget();
        long endUs = Math.Max(frame.TimeUs, frame.BrokeAtUs ?? 0);
        bool isNear = Broke(frame.TimeUs, endUs);
        Add(new SentFrame(frame.Quality, frame.Why, FrameSender.Unknown) { Bit = frame.Bit }, frame.TimeUs, endUs, isNear);
    }

    /// <inheritdoc/>
    public void Complete() => Settle(long.MaxValue);

    private static FrameSender Sender(SopKind sop, bool sourceOrPlug) => sop != SopKind.Sop
        ? FrameSender.Unknown
        : sourceOrPlug ? FrameSender.Source : FrameSender.Sink;

    // A frame broke: those before it are its neighbours. Whether one broke before it.
    private bool Broke(long startUs, long endUs)
    {
        for (int at = 0; at < _waiting.Count; at++)
        {
            _waiting[at] = _waiting[at] with { NeighbourBroke = _waiting[at].NeighbourBroke || _waiting[at].EndUs >= startUs - NearUs };
        }

        bool isNear = IsNear(startUs);
        _brokeUs = Math.Max(_brokeUs, endUs);
        return isNear;
    }

    private bool IsNear(long startUs) => _brokeUs >= startUs - NearUs;

    private void Add(in SentFrame frame, long timeUs, long endUs) => Add(frame, timeUs, endUs, IsNear(timeUs));

    private void Add(in SentFrame frame, long timeUs, long endUs, bool neighbourBroke)
    {
        if (_waiting.Count == MaxWaiting)
        {
            Judge(_waiting[0]);
            _waiting.RemoveAt(0);
        }

        _waiting.Add(new Waiting(frame, timeUs, endUs, _index, neighbourBroke));
    }

    // Nothing that comes from now on is near what ended long before.
    private void Settle(long nowUs)
    {
        while (_waiting.Count > 0 && _waiting[0].EndUs < nowUs - NearUs)
        {
            Judge(_waiting[0]);
            _waiting.RemoveAt(0);
        }
    }

    private void Judge(in Waiting waiting)
    {
        context.FindAt(waiting.TimeUs, waiting.Index);
        foreach (LineRule rule in context.Rules.Line)
        {
            if (!waiting.NeighbourBroke || rule.HoldsBesideBrokenFrames)
            {
                rule.Check(waiting.Frame, context.Findings);
            }
        }
    }

    private readonly record struct Waiting(SentFrame Frame, long TimeUs, long EndUs, long Index, bool NeighbourBroke);
}
