using Portwitness.Captures;
using Portwitness.PowerDelivery.Limits;

namespace Portwitness.Analysis.Measuring;

/// <summary>Why something measured may be innocent. Without one it is a fault.</summary>
[Flags]
public enum Doubts
{
    /// <summary>Nothing excuses it.</summary>
    None = 0,

    /// <summary>The instrument's uncertainty may explain it.</summary>
    WithinAccuracy = 1,

    /// <summary>Too few samples show it.</summary>
    FewSamples = 2,

    /// <summary>The cable may have lost the voltage.</summary>
    NotAtSource = 4,

    /// <summary>The current is not known: the load may have taken more than it may.</summary>
    NoCurrent = 8,

    /// <summary>The load took more than it may at some time under the contract.</summary>
    LoadBeyondContract = 16,

    /// <summary>Messages are missing.</summary>
    MessagesMissing = 32,

    /// <summary>Nothing shows that the device was still attached.</summary>
    MayBeUnplugged = 64,

    /// <summary>Times are not known exactly enough.</summary>
    TimesNotStated = 128,

    /// <summary>The limit is not confirmed by a source that was read.</summary>
    FromMemory = 256,

    /// <summary>The source follows an edition whose limits are known from memory only.</summary>
    OldEdition = 512,

    /// <summary>The current flowed into the port.</summary>
    CurrentFlowsIn = 1024,
}

/// <summary>Collects doubts.</summary>
public static class SegmentDoubts
{
    /// <summary>Those that hold for whatever a segment shows.</summary>
    public static Doubts General(this VbusSegment segment) =>
        (segment.MessagesMissing ? Doubts.MessagesMissing : Doubts.None)
        | (segment.CurrentFlowsIn ? Doubts.CurrentFlowsIn : Doubts.None) | OfEdition(segment.Editions);

    /// <summary>Those of a voltage that is too low.</summary>
    public static Doubts OfLow(this VbusSegment segment, Run run) => segment.General()
        | (segment.Instrument.Point == MeasuringPoint.Source ? Doubts.None : Doubts.NotAtSource)
        | (run.MostMilliamperes is null ? Doubts.NoCurrent : Doubts.None)
        | (segment.Overload.Runs > 0 ? Doubts.LoadBeyondContract : Doubts.None);

    /// <summary>Those of a moment: of one sample only an instrument whose accuracy is stated is believed.</summary>
    public static Doubts OfMoment(this VbusSegment segment, Run run) =>
        run.Samples < 2 && !segment.Instrument.StatesVoltage ? Doubts.FewSamples : Doubts.None;

    /// <summary>What is known of R1.0 and R2.0 is from memory.</summary>
    public static Doubts OfEdition(Editions editions) => (editions & Editions.R3x) == 0 ? Doubts.OldEdition : Doubts.None;
}
