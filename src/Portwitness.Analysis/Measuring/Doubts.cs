using Portwitness.Analysis.Findings;
using Portwitness.Analysis.Phrases;
using Portwitness.Analysis.Rules;
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

/// <summary>Collects doubts, and turns them into verdict, reason and next step.</summary>
public static class DoubtReasons
{
    private static readonly (Doubts Doubt, Phrase Reason, Phrase? NextStep)[] Reasons =
    [
        (Doubts.MessagesMissing, "messages are missing from the capture, so that another contract may have been in force",
            "Capture again: messages are missing, as MessageIDs show."),
        (Doubts.CurrentFlowsIn, "the measured current flows into the port, so that either the port took power and VBUS was its partner's, or the "
            + "meter counts the other way and nothing that depends on the load can be judged",
            "Measure with a positive current out of the port, or capture the port that gives the power."),
        (Doubts.OldEdition, "the limits of R2.0 are known from memory only", null),
        (Doubts.FromMemory, "the limit is known from memory only", null),
        (Doubts.NotAtSource, "it was not measured at the source, and the cable may have lost that much",
            "Measure at the port's own connector, and state \"measured_at\":\"source\" in the header."),
        (Doubts.NoCurrent, "the current was not measured with it, and a load beyond the contract would excuse it",
            "Measure the current with the voltage."),
        (Doubts.LoadBeyondContract, "the load took more than the contract allows", "Capture again with a load within the contract."),
        (Doubts.MayBeUnplugged, "the device may have been unplugged",
            "Record attach and detach as events, and go on recording after the end."),
        (Doubts.WithinAccuracy, "the instrument's uncertainty may explain it",
            "Measure more accurately, or state the instrument's accuracy in the header."),
        (Doubts.FewSamples, "too few samples show it", "Sample VBUS more often, at least every 5 ms."),
        (Doubts.TimesNotStated, "how exact times are is not stated", "State \"resolution_us\" in the header."),
    ];

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

    /// <summary>A case with its verdict, the reasons for doubt behind its detail.</summary>
    public static VbusHit ToHit(this Doubts doubts, long timeUs, Phrase detail, Phrase expected, Phrase observed, int? position = null)
    {
        Phrase[] reasons = [.. Reasons.Where(reason => (doubts & reason.Doubt) != 0).Select(reason => reason.Reason)];
        Phrase? nextStep = Reasons.FirstOrDefault(reason => (doubts & reason.Doubt) != 0 && reason.NextStep is not null).NextStep;
        return new VbusHit(
            new Hit(
                doubts == Doubts.None ? Verdict.Fails : Verdict.CannotTell,
                reasons.Length == 0 ? detail : $"{detail} It cannot be told: {Phrase.Join("; ", reasons)}.")
            {
                Position = position, Expected = expected, Observed = observed, NextStep = nextStep,
            },
            timeUs);
    }
}
