using Portwitness.Analysis.Evidence;
using Portwitness.Analysis.PdpRules;
using Portwitness.Analysis.Phrases;
using Portwitness.Analysis.Profile;
using Portwitness.PowerDelivery.Limits;
using Portwitness.PowerDelivery.PowerData;

namespace Portwitness.Analysis.Rules.Capabilities;

/// <summary>A normative PPS range, and what a list offers of it.</summary>
/// <param name="End">Where the range ends, in mV.</param>
/// <param name="Minimum">The least current, in mA.</param>
/// <param name="Best">The object that covers the range with the most current; null when none covers it.</param>
internal readonly record struct PpsRange(int End, int Minimum, OfferedObject? Best)
{
    /// <summary>The least current over a cable, in mA (R3.2v1.1, 4.4).</summary>
    public int MinimumOver(CableEvidence cable) =>
        cable == CableEvidence.ThreeAmpere ? Math.Min(Minimum, PowerRules.PlainCableMilliamperes) : Minimum;
}

/// <summary>
/// A rule about the PPS ranges that a PDP makes normative (R3.2v1.1, Table 10.10). The tables of R3.0 and R3.1 are the same from
/// memory: what a source of these lacks is a caution.
/// </summary>
public abstract class PpsRule : CapabilityRule
{
    /// <summary>What is left to do under an edition that was not read.</summary>
    internal const string UnreadNextStep = "Compare with Table 10.10 in the text of that edition: R3.2v1.1 was read.";

    /// <inheritdoc/>
    public override void Check(in ListCase list, IHitSink hits)
    {
        if (!list.IsSource || !list.Power.HoldsInFull || !OffersPps(list)
            || list.Evidence.SettleAmong(list.IsEpr ? Editions.WithEpr : Editions.R3x, Editions.R32) is not { } settled)
        {
            return;
        }

        // A managed port may list less before its first contract (6.4.11); after it, a power that only the list shows may be
        // any figure that rounds to the list's currents.
        bool managed = list.Evidence.Sharing != PowerSharing.None;
        bool derived = managed && list.Power.Basis == PdpBasis.Derived;
        int lowest = derived ? PowerFitter.LowestPower(list.Objects) : list.Power.PdpMilliwatts;

        // Counted, not enumerated: a list without faults costs no garbage.
        for (int index = 0; index < AdjustableRanges.PpsFrom5V.Count; index++)
        {
            VoltageRange range = AdjustableRanges.PpsFrom5V[index];
            int prog = range.Nominal.Millivolts;
            if (PpsRules.MinimumFor(prog, list.Power.PdpMilliwatts, list.InEprMode == true) is { } minimum)
            {
                bool sure = (!managed || list.AfterContract) && PpsRules.MinimumFor(prog, lowest, list.InEprMode == true) == minimum;
                int end = range.Maximum.Millivolts;
                Check(list, new PpsRange(end, minimum, Best(list.Objects, end)), sure ? settled : Verdict.CannotTell, hits);
            }
        }
    }

    private protected abstract void Check(in ListCase list, in PpsRange range, Verdict verdict, IHitSink hits);

    private protected static Phrase? NextStep(in ListCase list, Verdict verdict) => verdict == Verdict.Fails ? null
        : (list.Evidence.Editions & Editions.R32) == 0 ? UnreadNextStep
        : list.Evidence.Editions != Editions.R32 ? list.EditionStep
        : PdpRule.ManagedNextStep;

    // A list with a PPS object of which something was not shown says too little.
    private static bool OffersPps(in ListCase list)
    {
        bool any = false;
        foreach (OfferedObject offered in list.Objects)
        {
            if (!offered.KindIsKnown || (offered.Kind == PowerObjectKind.Pps
                && (offered.HighestVoltage() is null || offered.MaximumCurrent() is null)))
            {
                return false;
            }

            any |= offered.Kind == PowerObjectKind.Pps;
        }

        return any;
    }

    private static OfferedObject? Best(ReadOnlySpan<OfferedObject> objects, int end)
    {
        OfferedObject? best = null;
        foreach (OfferedObject offered in objects)
        {
            if (offered.Kind == PowerObjectKind.Pps && offered.HighestVoltage()?.Millivolts >= end
                && (best is not { } other || offered.MaximumCurrent() > other.MaximumCurrent()))
            {
                best = offered;
            }
        }

        return best;
    }
}
