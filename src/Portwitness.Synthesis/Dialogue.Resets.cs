using Portwitness.Captures;
using Portwitness.PowerDelivery.Framing;
using Portwitness.PowerDelivery.Headers;

namespace Portwitness.Synthesis;

// Resets (R3.2v1.1, 6.8).
internal sealed partial class Dialogue
{
    /// <summary>Soft_Reset with MessageID 0, and Accept.</summary>
    public void SoftReset(Sender sender)
    {
        Say(sender, MessageKind.SoftReset);
        Say(sender == Sender.Source ? Sender.Sink : Sender.Source, MessageKind.Accept);
        (_wanted, _acceptedUs, _unansweredCapabilitiesUs) = (null, -1, -1);
    }

    /// <summary>Hard Reset: VBUS falls, comes back, and everything begins anew. Alone, what VBUS does is left to other steps.</summary>
    public void HardReset(bool alone)
    {
        long recover = _eprMode ? Gaps.SrcRecoverEpr : Gaps.SrcRecoverSpr;
        _line.Signal(SignalKind.HardReset);
        Forget();
        _acceptedUs = -1;
        if (alone)
        {
            return;
        }

        Pause(Gaps.PSHardReset);
        Happen(CaptureEvents.VbusOff);
        Pause(Gaps.Safe0V);
        Happen(CaptureEvents.VbusSafe0V);
        Pause(recover);
        Happen(CaptureEvents.VbusOn);
        _nextGapUs = Gaps.FirstSourceCap;
    }

    /// <summary>Cable Reset: the cable's counters begin anew.</summary>
    public void CableReset()
    {
        _line.Signal(SignalKind.CableReset);
        _line.ResetMessageIds(SopKind.SopPrime);
        _line.ResetMessageIds(SopKind.SopDoublePrime);
    }
}
