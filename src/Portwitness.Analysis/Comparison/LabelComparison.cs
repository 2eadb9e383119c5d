using System.Collections.Immutable;
using Portwitness.Analysis.Findings;
using Portwitness.Analysis.Profile;
using Portwitness.Labels;
using Portwitness.PowerDelivery.PowerData;

namespace Portwitness.Analysis.Comparison;

/// <summary>A label held against everything that was captured: its claims, and what was offered without being printed.</summary>
public sealed record LabelComparison
{
    /// <summary>Claims in the order of the label.</summary>
    public required ImmutableArray<Claim> Claims { get; init; }

    /// <summary>Objects of ports that print modes, which none of the modes names.</summary>
    public required ImmutableArray<UnprintedOffer> Unprinted { get; init; }

    /// <summary>Holds a label against offers, and its inputs against what the ports take.</summary>
    public static LabelComparison Of(Label label, IReadOnlyList<PortOffer> offers, IReadOnlyList<PortIntake> intakes)
    {
        OfferIndex index = new(offers);
        List<Claim> claims = [.. PortIntake.ClaimsOf(label, intakes)];
        List<UnprintedOffer> unprinted = [];
        foreach (PrintedOutput output in label.Outputs)
        {
            PortOffer? alone = index.Alone(output.Port);
            claims.AddRange(ClaimsOf(output, alone));
            if (alone is not null && !output.Fixed.IsEmpty)
            {
                unprinted.AddRange(UnprintedOf(output, alone, output.Incomplete || label.IsDoubtful(output.At.Line)));
            }
        }

        foreach (PrintedCombination combination in label.Combinations)
        {
            claims.AddRange(ClaimsOf(combination, index));
        }

        if (label.Total is { } total)
        {
            claims.Add(ClaimOf(label, total, index));
        }

        return new LabelComparison
        {
            Claims = [.. claims.Select(claim => Settle(label, claim)).OrderBy(claim => claim.At.Line).ThenBy(claim => claim.At.Column)],
            Unprinted = [.. unprinted],
        };
    }

    // What rests on characters that were guessed accuses nobody.
    private static Claim Settle(Label label, Claim claim)
    {
        int? line = label.IsDoubtful(claim.At.Line) ? claim.At.Line
            : label.FindOutput(claim.Port) is { } output && label.IsDoubtful(output.At.Line)
                ? output.At.Line : null;
        return claim.Verdict == Verdict.Fails && line is { } doubtful
            ? claim.CannotTell(claim.Outcome, claim.Evidence, NextSteps.ConfirmLine(doubtful))
            : claim;
    }

    private static IEnumerable<Claim> ClaimsOf(PrintedOutput output, PortOffer? offer)
    {
        foreach (PrintedFixed mode in output.Fixed)
        {
            Claim claim = Begin(ClaimKind.Fixed, output.Port, mode.At, $"{output.Port} gives {mode.Voltage} {mode.Current}");
            yield return offer is null
                ? NotCaptured(claim, output.Port, [output.Port])
                : FixedClaims.Judge(claim, mode, output.Fixed, offer);
        }

        foreach (PrintedRange range in output.Ranges)
        {
            string kind = range.Kind is null ? "" : $" ({range.Kind})";
            Claim claim = Begin(
                ClaimKind.Range, output.Port, range.At,
                $"{output.Port} gives {range.Minimum} to {range.Maximum} {range.Current}{kind}");
            yield return offer is null
                ? NotCaptured(claim, output.Port, [output.Port])
                : RangeClaims.Judge(claim, range, offer);
        }

        if (output.Maximum is { } maximum)
        {
            Claim claim = Begin(ClaimKind.Power, output.Port, maximum.At, $"{output.Port} gives up to {maximum.Power}");
            yield return offer is null
                ? NotCaptured(claim, output.Port, [output.Port])
                : PowerClaims.Judge(claim, maximum.Power, offer);
        }

        foreach (PrintedMaximum own in output.ProtocolMaxima)
        {
            Claim claim = Begin(ClaimKind.Power, output.Port, own.At, $"{output.Port} gives up to {own.Power} ({own.Protocol})");
            yield return !Protocols.IsPowerDelivery(own.Protocol)
                ? claim.CannotTell(ClaimOutcome.NotAdvertised, $"printed for {own.Protocol}, which is not USB PD", NextSteps.OtherProtocol)
                : offer is null ? NotCaptured(claim, output.Port, [output.Port])
                : PowerClaims.Judge(claim, own.Power, offer);
        }
    }

    private static IEnumerable<Claim> ClaimsOf(PrintedCombination combination, OfferIndex offers)
    {
        ImmutableArray<string> ports = combination.Ports;
        string together = string.Join("+", ports);
        string arrangement = OfferIndex.Arrangement(ports);
        foreach (PrintedShare share in combination.Split)
        {
            PortOffer? offer = offers.Find(share.Port, arrangement);
            if (PortNames.IsPad(share.Port))
            {
                yield return Begin(ClaimKind.Power, share.Port, combination.At, $"{together}: {share.Port} gives {share.Power}")
                    .CannotTell(ClaimOutcome.NotCaptured, "a wireless pad is no port of USB PD", NextSteps.Pad);
                continue;
            }

            if (share.Power is { } power)
            {
                Claim claim = Begin(ClaimKind.Power, share.Port, combination.At, $"{together}: {share.Port} gives {power}");
                yield return offer is null ? NotCaptured(claim, share.Port, ports) : PowerClaims.Judge(claim, power, offer);
            }

            foreach (PrintedFixed mode in share.Fixed)
            {
                Claim claim = Begin(
                    ClaimKind.Fixed, share.Port, mode.At, $"{together}: {share.Port} gives {mode.Voltage} {mode.Current}");
                yield return offer is null
                    ? NotCaptured(claim, share.Port, ports)
                    : FixedClaims.Judge(claim, mode, share.Fixed, offer);
            }

            foreach (PrintedRange range in share.Ranges)
            {
                Claim claim = Begin(
                    ClaimKind.Range, share.Port, range.At,
                    $"{together}: {share.Port} gives {range.Minimum} to {range.Maximum} {range.Current}");
                yield return offer is null ? NotCaptured(claim, share.Port, ports) : RangeClaims.Judge(claim, range, offer);
            }
        }

        foreach (PrintedPool pool in combination.Pools)
        {
            if ((pool.Power ?? (pool.Voltage is { } volts && pool.Current is { } amperes ? volts * amperes : null)) is { } power)
            {
                Claim claim = Begin(
                    ClaimKind.Power, "", combination.At, $"{together}: {string.Join(" and ", pool.Ports)} share {power}");
                yield return Sum(claim, power, pool.Ports, ports, offers);
            }
        }

        if (combination.Total is { } total)
        {
            Claim claim = Begin(ClaimKind.Power, "", combination.At, $"{together} give {total} together");
            yield return Sum(claim, total, ports, ports, offers);
        }
    }

    // A total is the most of any arrangement: the largest sum that was seen is compared, and less fails only when none is left to see.
    private static Claim ClaimOf(Label label, PrintedTotal total, OfferIndex offers)
    {
        Claim claim = Begin(ClaimKind.Power, "", total.At, $"the product gives up to {total.Power} in total");
        ImmutableArray<string> all = [.. label.Outputs.Select(output => output.Port)];
        ImmutableArray<string>[] arrangements =
        [
            .. label.Outputs.Select(ImmutableArray<string> (output) => [output.Port]),
            .. label.Combinations.Select(combination => combination.Ports.Where(port => !PortNames.IsPad(port)).ToImmutableArray()),
            .. all.Length > 1 ? new[] { all } : [],
        ];
        Claim[] claims = [.. arrangements.Where(ports => !ports.IsEmpty).Select(ports => Sum(claim, total.Power, ports, ports, offers))];
        Claim found = claims.FirstOrDefault(one => one.Outcome == ClaimOutcome.More)
            ?? claims.FirstOrDefault(one => one.Verdict == Verdict.Holds)
            ?? claims.LastOrDefault(one => one.Outcome == ClaimOutcome.NotCaptured)
            ?? claims.LastOrDefault(one => one.Verdict == Verdict.CannotTell)
            ?? claims.LastOrDefault()
            ?? NotCaptured(claim, "the product", all);

        // "Max output 65W" may be the most of one port.
        return found is { Verdict: Verdict.Fails, Outcome: ClaimOutcome.More } && total.Scope != "product"
            ? found.CannotTell(found.Outcome, found.Evidence, $"Ask whether \"{total.Text}\" is the product's total or the most of one port.")
            : found;
    }

    private static Claim Sum(
        Claim claim, PowerDelivery.Units.Power printed, ImmutableArray<string> ports, ImmutableArray<string> inUse,
        OfferIndex offers)
    {
        List<PortOffer> found = [];
        string arrangement = OfferIndex.Arrangement(inUse);
        string? missing = null;
        foreach (string port in ports)
        {
            if (offers.Find(port, arrangement) is { } offer)
            {
                found.Add(offer);
            }
            else
            {
                missing ??= port;
            }
        }

        // What some of the ports offer may be too much already.
        Claim sum = PowerClaims.JudgeSum(claim, printed, found);
        return missing is null || sum.Outcome == ClaimOutcome.More ? sum : NotCaptured(claim, missing, inUse);
    }

    private static IEnumerable<UnprintedOffer> UnprintedOf(PrintedOutput output, PortOffer offer, bool isOpen)
    {
        foreach (OfferedObject offered in offer.List.Objects)
        {
            if (!offered.KindIsKnown || offered.IsZero || offered.Kind == PowerObjectKind.Reserved)
            {
                continue;
            }

            bool printed = offered.Kind == PowerObjectKind.Fixed
                ? output.Fixed.Any(mode => offered.HighestVoltage() is null || mode.Voltage == offered.HighestVoltage())
                : output.Ranges.Any(range => range.Minimum < (offered.HighestVoltage() ?? range.Maximum)
                    && range.Maximum > (offered.LowestVoltage() ?? range.Minimum));
            if (!printed)
            {
                yield return new UnprintedOffer(output.Port, output.At, offer, offered, isOpen);
            }
        }
    }

    private static Claim Begin(ClaimKind kind, string port, Place at, string text) =>
        new() { Kind = kind, Port = port, At = at, Text = text };

    private static Claim NotCaptured(Claim claim, string port, ImmutableArray<string> inUse) => claim.CannotTell(
        ClaimOutcome.NotCaptured, $"not captured: {port}{(inUse.Length > 1 ? $" with {string.Join(" and ", inUse)} in use" : " alone")}",
        NextSteps.Capture(port, inUse));
}

/// <summary>An object that is offered and not printed.</summary>
/// <param name="Port">The port as printed.</param>
/// <param name="At">Where the port's statement begins.</param>
/// <param name="Offer">The list that it is in.</param>
/// <param name="Offered">The object.</param>
/// <param name="MayBePrinted">Some of what is printed for the port could not be read, so it may be there.</param>
public sealed record UnprintedOffer(string Port, Place At, PortOffer Offer, OfferedObject Offered, bool MayBePrinted);
