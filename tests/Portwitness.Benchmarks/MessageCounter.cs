using Portwitness.Captures;

namespace Portwitness.Benchmarks;

/// <summary>Counts messages and faults and keeps nothing.</summary>
internal sealed class MessageCounter : ICaptureSink
{
    public long Messages { get; private set; }

    public long Faults { get; private set; }

    public void OnHeader(CaptureHeader header)
    {
    }

    public void OnMessage(in MessageRecord message) => Messages++;

    public void OnSignal(SignalRecord signal)
    {
    }

    public void OnMeasurement(MeasurementRecord measurement)
    {
    }

    public void OnEvent(EventRecord happened)
    {
    }

    public void OnFault(CaptureFault fault) => Faults++;
}
