using System.Collections.Immutable;
using Portwitness.Analysis.Evidence;
using Portwitness.Analysis.Phrases;
using Portwitness.Labels;
using Portwitness.PowerDelivery.PowerData;
using Portwitness.Product.Energy;
using Portwitness.Product.Offers;
using Portwitness.Product.Printed;
using Portwitness.Product.Signalling;

namespace Portwitness.Product.Comparison;

/// <summary>A label held against everything that was captured: its claims, and what was offered without being printed.</summary>
public sealed record LabelComparison
{
    /// <summary>Claims in the order of the label.</summary>
    public required ImmutableArray<Claim> Claims { get; init; }

    /// <summary>Objects of ports that print modes, which none of the modes names.</summary>
    public required ImmutableArray<UnprintedOffer> Unprinted { get; init; }

    /// <summary>The label.</summary>
    public required Label Label { get; init; }

    /// <summary>What ports answer to besides USB PD.</summary>
    public ImmutableArray<PortSignalling> Signalling { get; init; } = [];

    /// <summary>Printed ratings that USB PD does not back, tied to what could; empty where no signalling was recorded.</summary>
    public ImmutableArray<RatingBacking> Backings { get; init; } = [];

    /// <summary>Holds a label against offers and signalling, its inputs against what the ports take, its battery against cells and logs.</summary>
    public static LabelComparison Of(
        Label label, IReadOnlyList<PortOffer> offers, IReadOnlyList<PortIntake> intakes, ImmutableArray<PortSignalling> signalling,
        ProductEnergy energy, StatedCells? cells)
    {
        OfferGroups groups = new(offers);
        List<Claim> claims = [.. InputClaims.Of(label, intakes, energy.Logs), .. new BatteryClaims(energy, cells).All()];
        List<UnprintedOffer> unprinted = [];
        foreach (PrintedOutput output in label.Outputs)
        {
            PortOffer? alone = groups.Alone(output.Port);
            claims.AddRange(ClaimsOf(output, alone));
            if (alone is not null && !output.Fixed.IsEmpty)
            {
                bool isOpen = output.Incomplete || label.IsDoubtful(output.At.Line);
                unprinted.AddRange(alone.Earlier.Append(alone).SelectMany(offer => UnprintedOf(output, offer, isOpen))
                    .DistinctBy(static one => one.Offered.ToPhrase()));
            }
        }

        UncheckedOffers photos = new(offers);
        CombinationClaims together = new(groups, label);
        foreach (PrintedCombination combination in label.Combinations)
        {
            claims.AddRange(together.Of(combination));
        }

        if (label.Total is { } total)
        {
            claims.Add(together.Of(total));
        }

        (ImmutableArray<Claim> tied, ImmutableArray<RatingBacking> backings) = RatingBacking.Tie(label, [.. claims], signalling, offers);
        HalfRead halfRead = new(label);
        Claim[] ambiguous =
        [
            .. label.Ambiguous.Select(either => AmbiguousClaims.Of(either, reading => together.Of(reading).Select(claim => photos.Settle(Settle(label, halfRead, claim))))),
        ];
        return new LabelComparison
        {
            Label = label,
            Claims = [.. tied.Concat(ambiguous).Select(claim => photos.Settle(Settle(label, halfRead, claim))).OrderBy(claim => claim.At.Line).ThenBy(claim => claim.At.Column)],
            Unprinted = [.. unprinted],
            Signalling = signalling,
            Backings = backings,
        };
    }

    /// <summary>The label without the splits that hold or fail in each of their readings: nothing is left to ask of these.</summary>
    public Label WithoutSettled() => Label.UnfitSplits.IsEmpty ? Label : Label with
    {
        UnfitSplits = [.. Label.UnfitSplits.Where(unfit => !AmbiguousClaims.IsSettled(Claims, unfit.At))],
    };

    // What rests on characters that were guessed, or is read in part, accuses nobody.
    private static Claim Settle(Label label, HalfRead halfRead, Claim claim)
    {
        if (claim.Verdict != Verdict.Fails)
        {
            return claim;
        }

        int? line = label.IsDoubtful(claim.At.Line) ? claim.At.Line
            : label.FindOutput(claim.Port) is { } output && label.IsDoubtful(output.At.Line)
                ? output.At.Line : null;
        return line is { } doubtful ? claim.CannotTell(claim.Outcome, claim.Evidence, NextSteps.ConfirmLine(label, doubtful))
            : halfRead.Is(claim.At) ? claim.CannotTell(claim.Outcome, $"{claim.Evidence}; what is printed right behind it was not read", NextSteps.ReadLine(claim.At.Line))
            : claim;
    }

    private static IEnumerable<Claim> ClaimsOf(PrintedOutput output, PortOffer? offer)
    {
        foreach (PrintedFixed mode in output.Fixed)
        {
            Claim claim = Begin(ClaimKind.Fixed, output.Port, mode.At, $"{output.Port} gives {mode.Voltage} {mode.Current}");
            yield return offer is null
                ? NotCaptured(claim, output.Port, [output.Port])
                : ClaimOverTime.Judge(claim, offer, (one, seen) => FixedClaims.Judge(one, mode, output.Fixed, seen));
        }

        foreach (PrintedRange range in output.Ranges)
        {
            Phrase kind = range.Kind is null ? "" : Phrase.Of($" ({range.Kind})");
            Claim claim = Begin(
                ClaimKind.Range, output.Port, range.At,
                $"{output.Port} gives {range.Minimum} to {range.Maximum} {range.Current}{kind}");
            yield return offer is null
                ? NotCaptured(claim, output.Port, [output.Port])
                : ClaimOverTime.Judge(claim, offer, (one, seen) => RangeClaims.Judge(one, range, seen));
        }

        if (output.Maximum is { } maximum)
        {
            Claim claim = Begin(ClaimKind.Power, output.Port, maximum.At, $"{output.Port} gives up to {maximum.Power}");
            yield return offer is null
                ? NotCaptured(claim, output.Port, [output.Port])
                : ClaimOverTime.Judge(claim, offer, (one, seen) => PowerClaims.Judge(one, maximum.Power, seen, output));
        }

        foreach (PrintedMaximum own in output.ProtocolMaxima)
        {
            Claim claim = Begin(ClaimKind.Power, output.Port, own.At, $"{output.Port} gives up to {own.Power} ({own.Protocol})");
            yield return !Protocols.IsPowerDelivery(own.Protocol)
                ? claim.CannotTell(ClaimOutcome.NotAdvertised, $"printed for {own.Protocol}, which is not USB PD", NextSteps.OtherProtocol)
                : offer is null ? NotCaptured(claim, output.Port, [output.Port])
                : ClaimOverTime.Judge(claim, offer, (one, seen) => PowerClaims.Judge(one, own.Power, seen));
        }
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

    internal static Claim Begin(ClaimKind kind, string port, Place at, Phrase text) =>
        new() { Kind = kind, Port = port, At = at, Text = text };

    internal static Claim NotCaptured(Claim claim, string port, ImmutableArray<string> inUse) => claim.CannotTell(
        ClaimOutcome.NotCaptured,
        NextSteps.HasCcLine(port)
            ? Phrase.Of($"not captured: {port}{(inUse.Length > 1 ? Phrase.Of($" with {Phrase.JoinNames(" and ", inUse)} in use") : " alone")}")
            : $"{port} has no CC line, on which USB PD is captured",
        NextSteps.Capture(port, inUse));
}

/// <summary>An object that is offered and not printed.</summary>
/// <param name="Port">The port as printed.</param>
/// <param name="At">Where the port's statement begins.</param>
/// <param name="Offer">The list that it is in.</param>
/// <param name="Offered">The object.</param>
/// <param name="MayBePrinted">Some of what is printed for the port could not be read, so it may be there.</param>
public sealed record UnprintedOffer(string Port, Place At, PortOffer Offer, OfferedObject Offered, bool MayBePrinted);
