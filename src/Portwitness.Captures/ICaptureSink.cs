namespace Portwitness.Captures;

/// <summary>Receives what a reader finds, in the order of the input. Readers never judge.</summary>
public interface ICaptureSink
{
    /// <summary>Once, before anything else but faults.</summary>
    void OnHeader(CaptureHeader header);

    /// <summary>A message.</summary>
    void OnMessage(in MessageRecord message);

    /// <summary>A reset signal.</summary>
    void OnSignal(SignalRecord signal);

    /// <summary>A frame that broke. Whoever does not listen gets only what was read whole.</summary>
    void OnBrokenFrame(BrokenFrameRecord frame)
    {
    }

    /// <summary>A measurement.</summary>
    void OnMeasurement(MeasurementRecord measurement);

    /// <summary>An event.</summary>
    void OnEvent(EventRecord happened);

    /// <summary>A place that could not be used.</summary>
    void OnFault(CaptureFault fault);
}
