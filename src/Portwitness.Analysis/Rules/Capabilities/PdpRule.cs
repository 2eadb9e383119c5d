using Portwitness.Analysis.Comparison;
using Portwitness.Analysis.Findings;
using Portwitness.Analysis.PdpRules;
using Portwitness.Analysis.Profile;

namespace Portwitness.Analysis.Rules.Capabilities;

/// <summary>A rule that reads one kind of breach off the comparison of a list with the power rules.</summary>
public abstract class PdpRule : CapabilityRule
{
    private const string ManagedNextStep =
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
            if (breach.Kind == Kind)
            {
                bool open = list.Power.ManagedOnly || breach.HiddenByCable;
                hits.Report(this, Describe(list, breach) with
                {
                    Verdict = open ? Verdict.CannotTell : Verdict.Fails,
                    Position = breach.Position == 0 ? null : breach.Position,
                    NextStep = breach.HiddenByCable ? NextSteps.FiveAmpereCable : open ? ManagedNextStep : null,
                });
            }
        }
    }

    private protected abstract Hit Describe(in CapabilityList list, PowerBreach breach);
}
