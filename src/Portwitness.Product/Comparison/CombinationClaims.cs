using System.Collections.Immutable;
using Portwitness.Analysis.Evidence;
using Portwitness.Analysis.Phrases;
using Portwitness.Labels;
using Portwitness.PowerDelivery.PowerData;
using Portwitness.PowerDelivery.Units;
using Portwitness.Product.Offers;
using Portwitness.Product.Printed;

namespace Portwitness.Product.Comparison;

/// <summary>
/// Holds what is printed for several ports at once against what they offer at once. Offers of different attach orders are never
/// mixed: the printed order is judged first, and then every other one, since a label that names no order promises all of them.
/// </summary>
internal sealed class CombinationClaims(OfferGroups groups, Label label)
{
    /// <summary>The claims of a printed combination.</summary>
    public IEnumerable<Claim> Of(PrintedCombination combination)
    {
        ImmutableArray<string> ports = combination.Ports;
        string together = string.Join("+", ports);
        List<Claim> claims = [];
        foreach (PrintedShare share in combination.Split)
        {
            if (PortNames.IsPad(share.Port))
            {
                claims.Add(LabelComparison.Begin(ClaimKind.Power, share.Port, combination.At, $"{together}: {share.Port} gives {share.Power}")
                    .CannotTell(ClaimOutcome.NotCaptured, "a wireless pad is no port of USB PD", NextSteps.Pad));
                continue;
            }

            claims.AddRange(Of(share, together, combination));
        }

        foreach (PrintedPool pool in combination.Pools)
        {
            string sharing = string.Join(" and ", pool.Ports);
            if ((pool.Power ?? (pool.Voltage is { } volts && pool.Current is { } amperes ? volts * amperes : null)) is { } power)
            {
                // Watts of a printed voltage and current are computed, and said to be.
                Phrase shared = pool is { Voltage: { } at, Current: { } most } ? Phrase.Of($"{at} {most}, which is {power}") : $"{power}";
                Claim claim = LabelComparison.Begin(ClaimKind.Power, "", combination.At, $"{together}: {sharing} share {shared}");
                claims.Add(Sum(claim, power, pool.Ports, ports));
            }

            if (pool.Voltage is { } only)
            {
                claims.AddRange(pool.Ports.Where(port => !PortNames.IsPad(port)).Select(port => Judge(
                    LabelComparison.Begin(ClaimKind.Fixed, port, combination.At, $"{together}: {port} gives no more than {only}"), port, ports,
                    (claim, offer) => Highest(claim, offer, [only]))).Where(static claim => claim.Outcome != ClaimOutcome.NotCaptured));
            }
        }

        if (combination.Total is { } total)
        {
            claims.Add(Sum(LabelComparison.Begin(ClaimKind.Power, "", combination.At, $"{together} give {total} together"), total, ports, ports));
        }

        return claims.Select(claim => claim with { Combination = combination });
    }

    /// <summary>
    /// The claim of the product's total, which is the most of any arrangement: that none is offered more, and that one is offered so
    /// much. Less fails only when no arrangement is left to see.
    /// </summary>
    public Claim Of(PrintedTotal total)
    {
        Claim claim = LabelComparison.Begin(ClaimKind.Power, "", total.At, $"the product gives up to {total.Power} in total");
        ImmutableArray<string> ports = [.. label.Outputs.Select(output => output.Port)];
        if (ports.IsEmpty)
        {
            return LabelComparison.NotCaptured(claim, "the product", ports);
        }

        bool isOfSeveral = PrintedPowers.IsOfPortsTogether(label, total);
        Claim[] seen = [.. groups.All.Where(group => !isOfSeveral || group.InUse.Length > 1).OrderByDescending(static group => group.SumMilliwatts).Select(group => Judge(claim, total.Power, group))];
        ImmutableArray<string>[] arrangements =
        [
            ports, .. label.Combinations.Select(combination => Without(combination.Ports)),
            .. isOfSeveral ? [] : ports.Select(ImmutableArray<string> (port) => [port]),
        ];
        Claim found = Array.Find(seen, static one => one.Outcome is ClaimOutcome.More or ClaimOutcome.OverBudget)
            ?? Array.Find(seen, static one => one.Verdict == Verdict.Holds)
            ?? arrangements.Where(static some => !some.IsEmpty).Select(some => Missing(claim, some, some)).FirstOrDefault(static one => one is not null)
            ?? Array.Find(seen, static one => one.Verdict == Verdict.CannotTell)
            ?? seen.FirstOrDefault() ?? LabelComparison.NotCaptured(claim, "the product", ports);

        // "Max output 65W" may be the most of one port.
        return found is { Verdict: Verdict.Fails, Outcome: not ClaimOutcome.Less } && total.Scope != "product"
            ? found.CannotTell(found.Outcome, found.Evidence, $"Ask whether \"{total.Text}\" is the product's total or the most of one port.")
            : found;

        // What some of the ports in use offer may be too much already, and is not the whole of it otherwise.
        Claim Judge(Claim claim, Power printed, OfferGroup group)
        {
            Claim sum = PowerClaims.JudgeSum(claim, printed, group.Offers, label);
            return sum.Outcome == ClaimOutcome.More && ports.Length > 1
                ? (sum with { Offer = group.Offers[0] }).Fails(ClaimOutcome.OverBudget, $"with {group.Text}, {sum.Evidence}")
                : group.IsComplete || sum.Outcome == ClaimOutcome.More ? sum
                : Missing(claim, group.InUse, group.InUse) ?? sum;
        }
    }

    private static ImmutableArray<string> Without(ImmutableArray<string> ports) => [.. ports.Where(static port => !PortNames.IsPad(port))];

    private IEnumerable<Claim> Of(PrintedShare share, string together, PrintedCombination combination)
    {
        if (share.Power is { } power)
        {
            yield return Judge(
                LabelComparison.Begin(ClaimKind.Power, share.Port, combination.At, $"{together}: {share.Port} gives {power}"),
                share.Port, combination.Ports, (claim, offer) => ClaimOverTime.JudgeShared(
                    claim, offer, (one, seen) => PowerClaims.Judge(one, power, seen, label.FindOutput(share.Port))));
        }

        foreach (PrintedFixed mode in share.Fixed)
        {
            yield return Judge(
                LabelComparison.Begin(ClaimKind.Fixed, share.Port, mode.At, $"{together}: {share.Port} gives {mode.Voltage} {mode.Current}"),
                share.Port, combination.Ports, (claim, offer) => ClaimOverTime.JudgeShared(claim, offer, (one, seen) => FixedClaims.Judge(one, mode, share.Fixed, seen)));
        }

        foreach (PrintedRange range in share.Ranges)
        {
            yield return Judge(
                LabelComparison.Begin(
                    ClaimKind.Range, share.Port, range.At, $"{together}: {share.Port} gives {range.Minimum} to {range.Maximum} {range.Current}"),
                share.Port, combination.Ports, (claim, offer) => ClaimOverTime.JudgeShared(claim, offer, (one, seen) => RangeClaims.Judge(one, range, seen)));
        }

        // What a label lists for a combination is all that it promises there.
        if (!share.Fixed.IsEmpty && share.Power is null)
        {
            Claim more = Judge(
                LabelComparison.Begin(
                    ClaimKind.Fixed, share.Port, combination.At,
                    $"{together}: {share.Port} gives no more than {Listed(share.Fixed.Select(static mode => mode.Voltage))}"),
                share.Port, combination.Ports, (claim, offer) => Highest(claim, offer, [.. share.Fixed.Select(mode => mode.Voltage)]));
            if (more.Verdict == Verdict.Fails)
            {
                yield return more;
            }
        }
    }

    private static Phrase Listed(IEnumerable<Voltage> voltages) => Phrase.Join(", ", voltages.Select(static voltage => Phrase.Of($"{voltage}")));

    private static Claim Highest(Claim claim, PortOffer offer, ImmutableArray<Voltage> printed)
    {
        OfferedObject[] supplies = [.. offer.List.Objects.Where(offered => offered.Is(PowerObjectKind.Fixed) && offered.HighestVoltage() is not null)];
        if (supplies.Length == 0)
        {
            return claim.CannotTell(ClaimOutcome.NotCaptured, $"no fixed supply of {offer.Place} was shown", NextSteps.WholeList);
        }

        OfferedObject highest = supplies.MaxBy(offered => offered.HighestVoltage()!.Value.Millivolts);
        claim = claim with
        {
            Offer = offer, Printed = Listed(printed), Observed = highest.ToPhrase(),
            Evidence = $"the highest voltage is that of object {highest.Position}, {highest} ({offer.Place})",
        };
        return highest.HighestVoltage() is { } volts && volts > printed.Max()
            ? claim.Fails(ClaimOutcome.OtherVoltage, claim.Evidence) with { Position = highest.Position }
            : claim;
    }

    // The printed order first; of the others only what fails is told.
    private Claim Judge(Claim claim, string port, ImmutableArray<string> ports, Func<Claim, PortOffer, Claim> judge)
    {
        List<(Claim, Phrase)> judged = [];
        foreach (OfferGroup group in groups.Find(ports))
        {
            if (group.OfferOf(port) is { } offer)
            {
                judged.Add((judge(claim, offer), group.Text));
            }
        }

        return judged.Count == 0 ? LabelComparison.NotCaptured(claim, port, ports) : Worst(judged);
    }

    private Claim Sum(Claim claim, Power printed, ImmutableArray<string> ports, ImmutableArray<string> inUse)
    {
        List<(Claim Claim, Phrase Order)> judged = [];
        foreach (OfferGroup group in groups.Find(inUse))
        {
            PortOffer[] offers = [.. ports.Select(group.OfferOf).OfType<PortOffer>()];

            // What some of the ports offer may be too much already.
            if (offers.Length > 0 && PowerClaims.JudgeSum(claim, printed, offers, label) is { } sum
                && (offers.Length == ports.Length || sum.Outcome == ClaimOutcome.More))
            {
                judged.Add((sum, group.Text));
            }
        }

        return judged.Count > 0 ? Worst(judged) : Missing(claim, ports, inUse)!;
    }

    // Null when all of the ports were captured in one attach order.
    private Claim? Missing(Claim claim, ImmutableArray<string> ports, ImmutableArray<string> inUse)
    {
        IReadOnlyList<OfferGroup> alike = groups.Find(inUse);
        if (ports.FirstOrDefault(port => alike.All(group => group.OfferOf(port) is null)) is { } missing)
        {
            return LabelComparison.NotCaptured(claim, missing, inUse);
        }

        return alike.Any(group => ports.All(port => group.OfferOf(port) is not null)) ? null : claim.CannotTell(
            ClaimOutcome.NotCaptured, $"{Phrase.JoinNames(" and ", ports)} were captured in different attach orders only", NextSteps.CaptureInOrder(inUse));
    }

    private static Claim Worst(List<(Claim Claim, Phrase Order)> judged)
    {
        (Claim first, Phrase order) = judged[0];
        if (first.Verdict == Verdict.Fails || judged.FirstOrDefault(entry => entry.Claim.Verdict == Verdict.Fails) is not { Claim: { } other } failing)
        {
            return first;
        }

        Phrase inFirst = first.Verdict == Verdict.Holds ? Phrase.Of($"; attached {order}, it holds") : "";
        return other with
        {
            Outcome = other.Outcome == ClaimOutcome.OtherVoltage ? ClaimOutcome.OtherVoltage : ClaimOutcome.OtherOrder,
            Evidence = $"attached {failing.Order}: {other.Evidence}{inFirst}",
        };
    }
}
