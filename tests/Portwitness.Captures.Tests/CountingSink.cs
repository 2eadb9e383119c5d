namespace Portwitness.Captures.Tests;

/// <summary>Counts and keeps nothing, so that what a reader allocates can be told.</summary>
internal sealed class CountingSink : ICaptureSink
{
    public int Messages { get; private set; }

    public int Others { get; private set; }

    public int Faults { get; private set; }

    public void OnHeader(CaptureHeader header)
    {
    }

    public void OnMessage(in MessageRecord message) => Messages += message.Bytes.Length >= 2 ? 1 : 0;

    public void OnSignal(SignalRecord signal) => Others++;

    public void OnMeasurement(MeasurementRecord measurement) => Others++;

    public void OnEvent(EventRecord happened) => Others++;

    public void OnFault(CaptureFault fault) => Faults++;
}
