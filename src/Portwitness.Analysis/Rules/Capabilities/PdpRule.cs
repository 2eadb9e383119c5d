using Portwitness.Analysis.Comparison;
using Portwitness.Analysis.Findings;
using Portwitness.Analysis.PdpRules;
using Portwitness.Analysis.Profile;
using Portwitness.PowerDelivery.Limits;
using Portwitness.PowerDelivery.Units;

namespace Portwitness.Analysis.Rules.Capabilities;

/// <summary>A rule that reads one kind of breach off the comparison of a list with the power rules.</summary>
public abstract class PdpRule : CapabilityRule
{
    /// <summary>How to learn whether a port is managed.</summary>
    internal const string ManagedNextStep =
        "Capture Source_Info, and on beyond the first contract: a managed port may list less than its maximum.";

    private const string RoundedNextStep =
        "Capture Source_Info or Source_Capabilities_Extended: the printed watts may be rounded, and the port's own are not.";

    private protected abstract PowerBreachKind Kind { get; }

    /// <inheritdoc/>
    public override void Check(in CapabilityList list, IHitSink hits)
    {
        if (list.Power.Breaches is not { } breaches)
        {
            return;
        }

        foreach (PowerBreach breach in breaches)
        {
            // The power rules of EPR were read in R3.2v1.1 only.
            Verdict? verdict = breach.IsEpr ? list.Evidence.SettleEpr(Editions.R32) : Verdict.Fails;
            if (breach.Kind != Kind || verdict is not { } settled)
            {
                continue;
            }

            bool mayBeRounded = MayBeRounded(list.Power, breach);
            bool open = list.Power.ManagedOnly || breach.HiddenByCable || mayBeRounded;
            hits.Report(this, Describe(list, breach) with
            {
                Verdict = open ? Verdict.CannotTell : settled,
                Position = breach.Position == 0 ? null : breach.Position,
                NextStep = breach.HiddenByCable ? NextSteps.FiveAmpereCable
                    : mayBeRounded ? RoundedNextStep
                    : open ? ManagedNextStep
                    : settled == Verdict.CannotTell ? SourceEvidence.EditionNextStep : null,
            });
        }
    }

    // What is printed is a rounded figure; an excess within the rounding is none for sure.
    private static bool MayBeRounded(PowerFit power, PowerBreach breach) =>
        breach is { Kind: PowerBreachKind.BeyondPdp, Millivolts: > 0 } && power.Basis == SourceEvidence.Printed
        && (long)breach.Millivolts * breach.Observed / 1000 <= power.PdpMilliwatts + PowerClaims.Tolerance(Power.FromMilliwatts(power.PdpMilliwatts));

    private protected abstract Hit Describe(in CapabilityList list, PowerBreach breach);
}
