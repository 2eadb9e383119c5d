using Portwitness.Analysis.Evidence;
using Portwitness.Analysis.Measuring;
using Portwitness.Analysis.Phrases;

namespace Portwitness.Analysis.Rules.Vbus;

/// <summary>Turns doubts into verdict, reason and next step.</summary>
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
