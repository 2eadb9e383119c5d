using Portwitness.Analysis.Rules;
using Portwitness.Captures;
using Portwitness.PowerDelivery.Framing;

namespace Portwitness.Analysis.Conversation;

/// <summary>Has the rules about the line judge every frame whose recording shows it.</summary>
internal sealed class LineFollower(CaptureContext context) : ICaptureFollower
{
    private long _index;

    /// <inheritdoc/>
    public void OnMessage(in HeardMessage message)
    {
        _index = message.Index;
        if (message.Quality.IsStated && message.CrcOk == true)
        {
            Check(new SentFrame(message.Quality, FrameBreak.None, Sender(message.Sop, message.FromSourceOrPlug)), message.TimeUs);
        }
    }

    /// <inheritdoc/>
    public void OnSignal(SignalRecord signal)
    {
        if (signal.Quality.IsStated)
        {
            Check(new SentFrame(signal.Quality, FrameBreak.None, FrameSender.Unknown), signal.TimeUs);
        }
    }

    /// <inheritdoc/>
    public void OnBrokenFrame(BrokenFrameRecord frame)
    {
        // A header without a CRC behind it is no evidence of who sent it.
        Check(new SentFrame(frame.Quality, frame.Why, FrameSender.Unknown) { Bit = frame.Bit }, frame.TimeUs);
    }

    /// <inheritdoc/>
    public void Complete()
    {
    }

    private static FrameSender Sender(SopKind sop, bool sourceOrPlug) => sop != SopKind.Sop
        ? FrameSender.Unknown
        : sourceOrPlug ? FrameSender.Source : FrameSender.Sink;

    private void Check(in SentFrame frame, long timeUs)
    {
        context.FindAt(timeUs, _index);
        foreach (LineRule rule in RuleCatalogue.Line)
        {
            rule.Check(frame, context.Findings);
        }
    }
}
