using System.Collections.Immutable;
using Portwitness.Analysis.Evidence;
using Portwitness.Analysis.Phrases;
using Portwitness.Labels;
using Portwitness.Product.Comparison;

namespace Portwitness.Product.Loads;

/// <summary>
/// Printed ratings that were drawn: what no capture shows holds when it was given within its limits under the printed load. What was given
/// outside them is a finding about the load (output-voltage-outside-tolerance), which contradicts the statement.
/// </summary>
internal static class LoadedRatings
{
    /// <summary>The claims in order, those that loads settle changed.</summary>
    public static ImmutableArray<Claim> Tie(Label label, ImmutableArray<Claim> claims, ImmutableArray<LoadEvidence> loads) =>
        loads.IsEmpty ? claims : [.. claims.Select(claim => Tie(label, claim, loads))];

    private static Claim Tie(Label label, Claim claim, ImmutableArray<LoadEvidence> loads)
    {
        if (claim is { Verdict: Verdict.CannotTell, Combination: { } combination })
        {
            return new LoadedCombinations(combination, loads).Tie(claim);
        }

        if (claim.Verdict != Verdict.CannotTell || label.FindOutput(claim.Port) is not { } output)
        {
            return claim;
        }

        LoadEvidence[] alone =
        [
            .. loads.Where(load => PortNames.Same(load.Port, claim.Port) && load.InUse.All(used => PortNames.Same(used, claim.Port))),
        ];
        if (claim.Kind == ClaimKind.Fixed && output.Fixed.FirstOrDefault(mode => mode.At == claim.At) is { } printed)
        {
            LoadEvidence[] atVoltage = [.. alone.Where(load => load.At == printed.Voltage)];
            return Settle(claim, atVoltage, load => load.Draws(printed.Current), $"{printed.Voltage} {printed.Current}", Phrase.Of($"{printed.Current}"));
        }

        if (claim.Kind == ClaimKind.Power && output.Maximum is { } most && most.At == claim.At)
        {
            long leastMicrowatts = (most.Power.Milliwatts - PowerClaims.Tolerance(most.Power)) * 1000L;
            return Settle(claim, alone, load => load.MostMicrowatts >= leastMicrowatts, $"{most.Power}", Phrase.Of($"{most.Power}"));
        }

        return claim;
    }

    private static Claim Settle(Claim claim, LoadEvidence[] loads, Func<LoadEvidence, bool> isDrawn, Phrase printed, Phrase amount)
    {
        LoadEvidence? best = loads.OrderByDescending(isDrawn).ThenByDescending(static load => load.IsWithin).ThenByDescending(static load => load.IsLong)
            .ThenByDescending(static load => load.TimeUs ?? 0).FirstOrDefault();
        if (best is null || best.LeftLimits)
        {
            return claim;
        }

        claim = claim with { Printed = printed, Observed = best.Text };
        return !isDrawn(best) ? Open(claim, $"measured: {best.Text}, which is less than the printed load", $"Load {claim.Port} with {amount}.")
            : !best.IsLong ? Open(claim, $"measured: {best.Text}, which is no time", $"Hold the load of {claim.Port} for ten minutes.")
            : !best.IsWithin ? Open(
                claim, $"measured: {best.Text}; the limit is nearer than the meter is exact (meter: {best.Meter.Text()})",
                "Measure at the port's own connector (measured_at: source), with a more exact meter.")
            : claim with
            {
                Verdict = Verdict.Holds, Outcome = ClaimOutcome.Agrees, NextStep = Phrase.Empty, MayBeOtherProtocol = false,
                Evidence = $"measured under load: {best.Text}",
            };
    }

    private static Claim Open(Claim claim, Phrase evidence, Phrase nextStep) => claim.CannotTell(claim.Outcome, evidence, nextStep);
}
