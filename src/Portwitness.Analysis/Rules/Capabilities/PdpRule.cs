using Portwitness.Analysis.Comparison;
using Portwitness.Analysis.Findings;
using Portwitness.Analysis.PdpRules;
using Portwitness.Analysis.Profile;
using Portwitness.PowerDelivery.Limits;

namespace Portwitness.Analysis.Rules.Capabilities;

/// <summary>A rule that reads one kind of breach off the comparison of a list with the power rules.</summary>
public abstract class PdpRule : CapabilityRule
{
    /// <summary>How to learn whether a port is managed.</summary>
    internal const string ManagedNextStep =
        "Capture Source_Info, and on beyond the first contract: a managed port may list less than its maximum.";

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

            bool open = list.Power.ManagedOnly || breach.HiddenByCable;
            hits.Report(this, Describe(list, breach) with
            {
                Verdict = open ? Verdict.CannotTell : settled,
                Position = breach.Position == 0 ? null : breach.Position,
                NextStep = breach.HiddenByCable ? NextSteps.FiveAmpereCable
                    : open ? ManagedNextStep
                    : settled == Verdict.CannotTell ? SourceEvidence.EditionNextStep : null,
            });
        }
    }

    private protected abstract Hit Describe(in CapabilityList list, PowerBreach breach);
}
