using Portwitness.Analysis.Rules;
using Portwitness.Captures;
using Portwitness.PowerDelivery.Framing;

namespace Portwitness.Analysis.Conversation;

/// <summary>How long the line was idle before a frame: the stamps of both first bits, and the length of the frame before.</summary>
internal sealed class FrameGaps
{
    private const long NanosecondsPerSecond = 1_000_000_000;
    private const long NanosecondsPerMicrosecond = 1_000;

    // After the preamble the rate may move by 0.25 % (R3.2v1.1, 5.8.1).
    private const int DriftDivisor = 400;

    private long _startUs;
    private long _lengthNs;
    private long _uncertaintyNs;
    private bool _isKnown;

    /// <summary>The gap before a frame that begins now; null when the frame before is not known.</summary>
    public FrameGap? Before(long timeUs) => !_isKnown ? null
        : new FrameGap(((timeUs - _startUs) * NanosecondsPerMicrosecond) - _lengthNs, _uncertaintyNs);

    /// <summary>A whole frame; the next one's gap is measured from its end.</summary>
    public void Keep(long timeUs, int bits, in FrameQuality quality, CaptureHeader? header)
    {
        Forget();
        if (header is not { TimeOf: MessageMoment.Start, ResolutionUs: { } resolutionUs }
            || quality is not { BitsPerSecond: > 0 and var rate, RateUncertainty: { } within, PreambleBits: { } preamble })
        {
            return;
        }

        // What was not heard of a preamble was not stamped either.
        long heard = bits - (FrameEncoder.PreambleBits - Math.Min(preamble, FrameEncoder.PreambleBits));
        (_startUs, _isKnown) = (timeUs, true);
        _lengthNs = heard * NanosecondsPerSecond / rate;
        _uncertaintyNs = (_lengthNs * within / rate) + (_lengthNs / DriftDivisor) + (2 * Math.Max(resolutionUs, 1) * NanosecondsPerMicrosecond);
    }

    /// <summary>Something else was on the line.</summary>
    public void Forget() => _isKnown = false;
}
