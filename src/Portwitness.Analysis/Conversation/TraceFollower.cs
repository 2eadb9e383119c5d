using System.Collections.Immutable;
using Portwitness.Analysis.Plots;
using Portwitness.Captures;
using Portwitness.Following.Links;

namespace Portwitness.Analysis.Conversation;

/// <summary>Keeps VBUS and IBUS of a capture for its plot.</summary>
internal sealed class TraceFollower : ICaptureFollower
{
    private readonly Trace _trace = new();

    /// <summary>All that was kept.</summary>
    public ImmutableArray<TraceSpan> Spans => _trace.Spans;

    /// <inheritdoc/>
    public bool HearsGoodCrcs => false;

    /// <inheritdoc/>
    public void OnMessage(in HeardMessage message)
    {
    }

    /// <inheritdoc/>
    public void OnMeasurement(MeasurementRecord measurement)
    {
        if (measurement.VbusMillivolts is not null || measurement.IbusMilliamperes is not null)
        {
            _trace.Add(measurement.TimeUs, measurement.VbusMillivolts, measurement.IbusMilliamperes);
        }
    }

    /// <inheritdoc/>
    public void Complete()
    {
    }
}
