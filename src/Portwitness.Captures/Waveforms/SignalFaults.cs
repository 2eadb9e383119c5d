using Portwitness.Captures.Input;

namespace Portwitness.Captures.Waveforms;

/// <summary>Faults of one of several signals, of which most have no frames.</summary>
/// <param name="faults">Where they go; null for nowhere, where another signal tells the same.</param>
internal sealed class SignalFaults(FaultLog? faults) : ICaptureSink
{
    public void OnFault(CaptureFault fault)
    {
        if (fault.Code != FaultCodes.WaveformWithoutFrames)
        {
            faults?.Report(fault.Line, fault.Column, fault.Code, fault.Detail);
        }
    }

    public void OnHeader(CaptureHeader header)
    {
    }

    public void OnMessage(in MessageRecord message)
    {
    }

    public void OnSignal(SignalRecord signal)
    {
    }

    public void OnMeasurement(MeasurementRecord measurement)
    {
    }

    public void OnEvent(EventRecord happened)
    {
    }
}
