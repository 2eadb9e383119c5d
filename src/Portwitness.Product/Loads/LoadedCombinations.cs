using System.Collections.Immutable;
using Portwitness.Analysis.Evidence;
using Portwitness.Analysis.Phrases;
using Portwitness.Labels;
using Portwitness.PowerDelivery.Units;
using Portwitness.Product.Comparison;
using Portwitness.Product.Offers;

namespace Portwitness.Product.Loads;

/// <summary>
/// Printed combinations that were drawn: what is printed for several ports at once holds when each of them was loaded with its part while all
/// were in use, each within its limits. Loads of one port alone say nothing of it.
/// </summary>
/// <param name="combination">The combination.</param>
/// <param name="loads">All loads there are.</param>
internal sealed class LoadedCombinations(PrintedCombination combination, ImmutableArray<LoadEvidence> loads)
{
    // The largest first.
    private readonly LoadEvidence[] _together =
    [
        .. loads.Where(load => !load.LeftLimits && OfferGroup.SetOf(load.InUse) == OfferGroup.SetOf(combination.Ports))
            .OrderByDescending(static load => load.MostMicrowatts),
    ];

    /// <summary>The claim, settled or left open with what is missing.</summary>
    public Claim Tie(Claim claim)
    {
        string[] ports = [.. combination.Ports.Where(static port => !PortNames.IsPad(port))];
        if (_together.Length == 0)
        {
            return claim;
        }

        if (ports.FirstOrDefault(port => !_together.Any(load => PortNames.Same(load.Port, port))) is { } missing)
        {
            return Open(claim, $"{missing} was not measured while the others were loaded", $"Load {missing} at the same time, and write what was read under \"loads:\" with the same \"in_use:\".");
        }

        if (Parts(claim, ports) is not { } parts)
        {
            return claim;
        }

        Phrase measured = Phrase.Join("; ", parts.Select(static part => Phrase.Of($"{part.Load.Port} gave {part.Load.Text}")));
        claim = claim with { Observed = measured };
        LoadEvidence[] used = [.. parts.Select(static part => part.Load)];
        return !parts.All(static part => part.IsDrawn)
                ? Open(claim, $"measured at once: {measured}, which is less than is printed", "Load each port with its printed part at the same time.")
            : !Array.TrueForAll(used, static load => load.IsLong) ? Open(claim, $"measured at once: {measured}, which is no time", "Hold the loads for ten minutes.")
            : !Array.TrueForAll(used, static load => load.IsWithin)
                ? Open(claim, $"measured at once: {measured}; a limit is nearer than the meter is exact", "Measure at the ports' own connectors (measured_at: source), with a more exact meter.")
            : claim with
            {
                Verdict = Verdict.Holds, Outcome = ClaimOutcome.Agrees, NextStep = Phrase.Empty, MayBeOtherProtocol = false,
                Evidence = $"measured under load at once: {measured}",
            };
    }

    private static Claim Open(Claim claim, Phrase evidence, Phrase nextStep) => claim.CannotTell(claim.Outcome, evidence, nextStep);

    // What was drawn of each port that the claim needs; null for a claim that loads do not settle.
    private (LoadEvidence Load, bool IsDrawn)[]? Parts(Claim claim, string[] ports)
    {
        if (claim.Kind == ClaimKind.Fixed && Share(claim.Port)?.Fixed.FirstOrDefault(mode => mode.At == claim.At) is { } mode)
        {
            return [.. ports.Select(port => PortNames.Same(port, claim.Port) ? Best(port, load => load.At == mode.Voltage && load.Draws(mode.Current)) : Best(port, IsPart))];
        }

        if (claim.Kind == ClaimKind.Power && claim.Port.Length > 0 && Share(claim.Port)?.Power is not null)
        {
            return [.. ports.Select(port => Best(port, IsPart))];
        }

        Power? sum = combination.Total ?? (combination.Pools is [{ } pool] && pool.Ports.Length == combination.Ports.Length ? pool.Power : null);
        if (claim.Kind != ClaimKind.Power || claim.Port.Length > 0 || sum is not { } total)
        {
            return null;
        }

        (LoadEvidence Load, bool)[] all = [.. ports.Select(port => Best(port, static _ => true))];
        bool isDrawn = all.Sum(static one => one.Load.MostMicrowatts) >= Least(total);
        return [.. all.Select(one => (one.Load, isDrawn))];
    }

    private PrintedShare? Share(string port) => combination.Split.FirstOrDefault(share => PortNames.Same(share.Port, port));

    // A port whose part is not printed gave something, which is all that is known of it.
    private bool IsPart(LoadEvidence load) => Share(load.Port) is not { } share
        || (share.Power is { } power ? load.MostMicrowatts >= Least(power)
            : share.Fixed.IsEmpty || share.Fixed.Any(mode => load.At == mode.Voltage && load.Draws(mode.Current)));

    private (LoadEvidence, bool) Best(string port, Func<LoadEvidence, bool> isDrawn)
    {
        LoadEvidence[] own = [.. _together.Where(load => PortNames.Same(load.Port, port))];
        return Array.Find(own, load => isDrawn(load)) is { } found ? (found, true) : (own[0], false);
    }

    private static long Least(Power power) => (power.Milliwatts - PowerClaims.Tolerance(power)) * 1000L;
}
