using System.Collections.Immutable;
using Portwitness.Analysis.Evidence;
using Portwitness.Analysis.PdpRules;
using Portwitness.Analysis.Profile;
using Portwitness.PowerDelivery.Limits;

namespace Portwitness.Analysis.Rules.Capabilities;

/// <summary>A rule that reads one kind of breach off the comparison of a list with the power rules.</summary>
public abstract class PdpRule : CapabilityRule
{
    // The fixed columns have been the same since R2.0v1.2 (public articles on PD 3.0 and on R2.0v1.2).
    private protected static readonly ImmutableArray<(Editions Editions, string Clause)> SinceR20 =
    [
        (Editions.R20, "R2.0v1.2 power rules, which are those of R3.2v1.1 Table 10.2"),
        (Editions.R30 | Editions.R31, "R3.0 and R3.1 power rules, the same since R2.0v1.2: R3.2v1.1 Tables 10.2 and 10.3"),
    ];

    /// <summary>How to learn whether a port is managed.</summary>
    internal const string ManagedNextStep =
        "Capture Source_Info, and on beyond the first contract: a managed port may list less than its maximum.";

    private const string RoundedNextStep =
        "Capture Source_Info or Source_Capabilities_Extended: the printed watts may be rounded, and the port's own are not.";

    private const string ProfileNextStep =
        "Find out which version of Revision 2.0 the source follows: the power rules begin with R2.0v1.2, before it profiles were the law.";

    private protected abstract PowerBreachKind Kind { get; }

    /// <inheritdoc/>
    public override void Check(in ListCase list, IHitSink hits)
    {
        if (list.Power.Breaches is not { } breaches)
        {
            return;
        }

        foreach (PowerBreach breach in breaches)
        {
            if (breach.Kind != Kind)
            {
                continue;
            }

            bool mayBeRounded = MayBeRounded(list.Power, breach);

            // The power rules of EPR were read in R3.2v1.1 only; before R2.0v1.2 there were none.
            bool profiles = !breach.IsEpr && list.Evidence.MayFollowProfiles && !ProfileRules.IsOfPowerRules(list.Objects);
            Verdict settled = breach.IsEpr ? list.Evidence.SettleEpr(Editions.R32) ?? Verdict.CannotTell
                : profiles ? Verdict.CannotTell : Verdict.Fails;
            bool open = list.Power.ManagedOnly || breach.HiddenByCable || mayBeRounded;
            hits.Report(this, Describe(list, breach) with
            {
                Clause = breach.IsEpr ? null : Description.ClauseFor(list.Evidence.Editions),
                Verdict = open ? Verdict.CannotTell : settled,
                Position = breach.Position == 0 ? null : breach.Position,
                NextStep = profiles ? ProfileNextStep
                    : breach.HiddenByCable ? CaptureSteps.FiveAmpereCableFor(list.IsReadOff)
                    : mayBeRounded ? RoundedNextStep
                    : open ? ManagedNextStep
                    : settled == Verdict.CannotTell ? list.EditionStep : null,
            });
        }
    }

    // What is printed is a rounded figure; an excess within the rounding is none for sure.
    private static bool MayBeRounded(PowerFit power, PowerBreach breach) =>
        breach is { Kind: PowerBreachKind.BeyondPdp, Millivolts: > 0 } && power.Basis == PdpBasis.Printed
        && (long)breach.Millivolts * breach.Observed / 1000 <= power.PdpMilliwatts + PowerRules.Rounding(power.PdpMilliwatts);

    private protected abstract Hit Describe(in ListCase list, PowerBreach breach);
}
