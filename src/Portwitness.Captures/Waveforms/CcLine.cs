using Portwitness.Captures.Input;
using Portwitness.PowerDelivery.Framing;

namespace Portwitness.Captures.Waveforms;

/// <summary>What a recording shows of the line at a time.</summary>
internal enum LineLevel
{
    /// <summary>Not known: before the first sample, or undefined.</summary>
    Unknown,

    /// <summary>Nobody drives it.</summary>
    Released,

    /// <summary>Low.</summary>
    Low,

    /// <summary>High.</summary>
    High,
}

/// <summary>The recorded CC line: makes edges of its levels, and records of the frames in them.</summary>
internal sealed class CcLine
{
    private readonly FrameRecords _records;
    private readonly LineReceiver _receiver;
    private LineLevel _last;
    private long _latestPs;

    /// <summary>A line whose frames go to a sink.</summary>
    /// <param name="sink">Receives header and records.</param>
    /// <param name="format">The format's name, for the header.</param>
    public CcLine(ICaptureSink sink, string format)
    {
        _records = new FrameRecords(sink);
        _receiver = new LineReceiver(_records);
        sink.OnHeader(new CaptureHeader { Format = format, TimeOf = MessageMoment.Start, ResolutionUs = 1 });
    }

    /// <summary>The line of the input that is being read.</summary>
    public long InputLine
    {
        set => _records.Line = value;
    }

    /// <summary>The steps in which the recording tells time, in picoseconds.</summary>
    public long ResolutionPs
    {
        set => _records.ResolutionPs = value;
    }

    /// <summary>Changes of level so far.</summary>
    public long Edges { get; private set; }

    /// <summary>Says when the recording begins, before any edge.</summary>
    public void BeginAt(long timePs)
    {
        _latestPs = timePs;
        _receiver.Interrupt(0, timePs);
    }

    /// <summary>Takes the level from a time on; times do not fall.</summary>
    /// <returns>Whether it is a change.</returns>
    public bool Set(LineLevel level, long timePs)
    {
        LineLevel before = _last;
        if (level == before || level == LineLevel.Unknown)
        {
            return false;
        }

        _last = level;

        // A line that is driven again has an edge, whatever it is driven to; one that is released shows none.
        if (before == LineLevel.Unknown || level == LineLevel.Released)
        {
            return false;
        }

        Edge(timePs);
        return true;
    }

    /// <summary>Takes a change of level.</summary>
    public void Edge(long timePs)
    {
        Edges++;
        _latestPs = timePs;
        _receiver.Edge(timePs);
    }

    /// <summary>Says that nothing is known of the line between two times.</summary>
    public void Interrupt(long timePs, long resumedPs)
    {
        _last = LineLevel.Unknown;
        _latestPs = resumedPs;
        _receiver.Interrupt(timePs, resumedPs);
        _records.FollowsHole = true;
    }

    /// <summary>Says that the recording ends.</summary>
    public void Complete(long timePs, FaultLog faults)
    {
        _receiver.Complete(Math.Max(timePs, _latestPs));
        if (_records.Frames == 0)
        {
            faults.Report(0, 0, FaultCodes.WaveformWithoutFrames, FaultText.WaveformWithoutFrames(Edges));
        }
    }
}
