using Portwitness.PowerDelivery.Framing;

namespace Portwitness.Captures.Waveforms;

/// <summary>Makes records of the frames of a line.</summary>
internal sealed class FrameRecords(ICaptureSink sink) : ILineFrameSink
{
    private const long PsPerUs = 1_000_000;
    private const long PsPerNs = 1_000;

    private long _timeUs;

    /// <summary>The line of the input that is being read; 0 when it has none.</summary>
    public long Line { get; set; }

    /// <summary>The steps in which the recording tells time, in picoseconds.</summary>
    public long ResolutionPs { get; set; }

    /// <summary>
    /// The next frame follows a hole in the recording. What was lost before it may be a part of it: its preamble and rate say nothing.
    /// </summary>
    public bool FollowsHole { get; set; }

    /// <summary>Frames so far, whole or broken.</summary>
    public long Frames { get; private set; }

    /// <inheritdoc/>
    public void OnFrame(in LineFrame frame)
    {
        Frames++;

        // Of a frame in the edges, the first bit may be found a little before the end of what came before.
        _timeUs = Math.Max(_timeUs, frame.StartPs / PsPerUs);
        FrameQuality quality = QualityOf(frame);
        FollowsHole = false;
        if (frame.IsMessage)
        {
            ReadOnlySpan<byte> crc = frame.Bytes[^MessageCrc.Length..];
            sink.OnMessage(new MessageRecord
            {
                TimeUs = _timeUs,
                Line = Line,
                Sop = OrderedSet.SopOf(frame.Set!.Value)!.Value,
                Bytes = frame.Message,
                Crc = System.Buffers.Binary.BinaryPrimitives.ReadUInt32LittleEndian(crc),
                CrcOk = frame.CrcIsRight,
                Quality = quality,
            });
        }
        else if (frame.Break == FrameBreak.None)
        {
            SignalKind kind = frame.Set == OrderedSetKind.HardReset ? SignalKind.HardReset : SignalKind.CableReset;
            sink.OnSignal(new SignalRecord(_timeUs, Line, kind) { Quality = quality });
        }
        else
        {
            sink.OnBrokenFrame(new BrokenFrameRecord(_timeUs, Line, frame.Break)
            {
                Bit = frame.BreakBit,
                BrokeAtUs = frame.BreakPs / PsPerUs,
                Sop = frame.Set is { } set ? OrderedSet.SopOf(set) : null,
                Part = [.. frame.Bytes],
                Quality = quality,
            });
        }
    }

    private FrameQuality QualityOf(in LineFrame frame)
    {
        LineQuality quality = frame.Quality;
        bool hasRate = quality.BitsPerSecond > 0 && !FollowsHole;
        bool isPreambleCertain = !FollowsHole && frame.IdleBefore && frame.StrayEdges == 0 && frame.Break != FrameBreak.PreambleMissing
            && (frame.Set is not null || frame.Break != FrameBreak.RecordingStopped);
        return new FrameQuality
        {
            BitsPerSecond = hasRate ? quality.BitsPerSecond : null,
            RateUncertainty = hasRate ? Uncertainty(quality) : null,
            DriftPpm = quality.FrameBitsPerSecond > 0 && hasRate ? quality.DriftPpm : null,
            JitterNs = hasRate ? (int)(JitterPs(quality) / PsPerNs) : null,
            PreambleBits = isPreambleCertain ? frame.PreambleBits : null,
            SetSymbols = frame.Set is null ? null : frame.MatchingSymbols,
            Glitches = frame.Glitches > 0 ? frame.Glitches : null,
        };
    }

    // Each end of the measured bits may be off by a step of time, and by the jitter of its edge; half a bit a second is lost to rounding.
    private int Uncertainty(LineQuality quality)
    {
        Int128 rate = quality.BitsPerSecond;
        Int128 ends = ResolutionPs + (2 * JitterPs(quality));
        return (int)Int128.Min((rate * rate * ends / (quality.RateBits * (Int128)1_000_000_000_000)) + 1, int.MaxValue);
    }

    private long JitterPs(LineQuality quality) => Math.Max(quality.WorstJitterPs - (2 * ResolutionPs), 0);
}
