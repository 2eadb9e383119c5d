using System.Collections.Immutable;
using Portwitness.Analysis.Evidence;
using Portwitness.Analysis.Phrases;
using Portwitness.Labels;
using Portwitness.Product.Offers;
using Portwitness.Product.Printed;
using Portwitness.Product.Signalling;

namespace Portwitness.Product.Comparison;

/// <summary>What could give a printed rating that USB PD does not back.</summary>
public enum BackingOutcome
{
    /// <summary>A signalling with a published limit that is enough.</summary>
    Backed,

    /// <summary>A signalling that may give it; what it gives is not shown.</summary>
    Possible,

    /// <summary>What was seen gives less.</summary>
    TooLittle,

    /// <summary>Nothing that was seen could give it.</summary>
    Nothing,

    /// <summary>The port does not answer to the protocol that is printed for it.</summary>
    NotAnswered,

    /// <summary>Nothing was recorded of the port.</summary>
    NotRecorded,
}

/// <summary>One printed rating that USB PD does not back.</summary>
/// <param name="Port">The port.</param>
/// <param name="At">Where it is printed.</param>
/// <param name="Printed">The printed value.</param>
/// <param name="Outcome">What could give it.</param>
/// <param name="By">The signalling; empty without one.</param>
/// <param name="Source">Where its limit is from; empty where none is known.</param>
public sealed record RatingBacking(string Port, Place At, Phrase Printed, BackingOutcome Outcome, string By, string Source)
{
    private const int Usb = 5_000;

    /// <summary>
    /// Ties the claims that USB PD does not back to what the ports answer to: the claims in order, those that this settles changed.
    /// Where no signalling was recorded of any port, nothing changes.
    /// </summary>
    public static (ImmutableArray<Claim> Claims, ImmutableArray<RatingBacking> Backings) Tie(
        Label label, ImmutableArray<Claim> claims, ImmutableArray<PortSignalling> signalling, IReadOnlyList<PortOffer> offers)
    {
        List<RatingBacking> backings = [];
        if (signalling.IsEmpty)
        {
            return (claims, []);
        }

        HashSet<string> offering = [.. offers.Select(offer => PortNames.Key(offer.Port))];
        ImmutableArray<Claim> tied =
        [
            .. claims.Select(claim =>
            {
                if (claim.Combination is not null || !NeedsOther(claim, offering) || PrintedRating.Of(label, claim) is not { } rating
                    || (claim.Outcome == ClaimOutcome.NotCaptured && rating.NamesPowerDelivery))
                {
                    return claim;
                }

                RatingBacking backing = Of(claim, rating, signalling.FirstOrDefault(port => PortNames.Same(port.Port, claim.Port)));
                backings.Add(backing);
                return backing.Tied(claim);
            }),
        ];
        return (tied, [.. backings]);
    }

    // What a PD list contradicts stays as it is; a port that never showed a list, or a rating of another protocol, is looked at here.
    private static bool NeedsOther(Claim claim, HashSet<string> offering) => claim.Verdict != Verdict.Holds
        && (claim.MayBeOtherProtocol || claim.Outcome is ClaimOutcome.NotAdvertised or ClaimOutcome.CurrentDiffers
            || (claim.Outcome == ClaimOutcome.NotCaptured && !offering.Contains(PortNames.Key(claim.Port))));

    private static RatingBacking Of(Claim claim, PrintedRating rating, PortSignalling? port)
    {
        RatingBacking Result(BackingOutcome outcome, SignallingWord? by = null) =>
            new(claim.Port, claim.At, rating.Text, outcome, by?.ToString() ?? "", by?.Source ?? "");

        if (port is null)
        {
            return Result(BackingOutcome.NotRecorded);
        }

        bool isOther = !Protocols.IsPowerDelivery(rating.Protocol);
        if (isOther && port.Words.FirstOrDefault(word => word.IsOf(rating.Protocol!)) is { } own)
        {
            return Result(own.Denied ? BackingOutcome.NotAnswered : BackingOutcome.Possible, own);
        }

        SignallingWord[] seen = [.. port.Words.Where(word => !word.Denied)];
        SignallingWord[] limited = [.. seen.Where(word => word.Limit is not null && rating.Voltage?.Millivolts == Usb && rating.Current is not null)];
        if (limited.Where(word => word.Limit >= rating.Current).OrderBy(word => word.Basis).ThenBy(word => word.Limit!.Value.Milliamperes).FirstOrDefault() is { } enough)
        {
            // What no source confirms backs nothing.
            return Result(enough.Basis == LimitBasis.Confirmed ? BackingOutcome.Backed : BackingOutcome.Possible, enough);
        }

        // YD/T 1591 is of 5 V; what UFCS and non-public schemes give is not known.
        SignallingWord? may = seen.FirstOrDefault(word => word.Limit is null && (word.Kind is SignallingKind.Ufcs or SignallingKind.NonPublic
            || (word.Kind is SignallingKind.Ydt1591 or SignallingKind.Divider && rating.Voltage?.Millivolts == Usb)));
        return may is not null && !isOther ? Result(BackingOutcome.Possible, may)
            : limited.Length > 0 ? Result(BackingOutcome.TooLittle, limited.MaxBy(word => word.Limit!.Value.Milliamperes))
            : Result(BackingOutcome.Nothing);
    }

    // What PD itself contradicts stays contradicted; the rest is told by what the port answers to.
    private Claim Tied(Claim claim)
    {
        if (claim.Verdict == Verdict.Fails || Outcome == BackingOutcome.NotRecorded)
        {
            return claim;
        }

        Phrase limit = Source.Length > 0 ? Phrase.Of($" ({Source})") : "";
        Phrase before = claim.Outcome == ClaimOutcome.NotCaptured ? "no USB PD was captured of the port" : claim.Evidence;
        claim = claim with { Printed = Printed, Observed = By.Length > 0 ? Phrase.Of($"{By}") : "no such signalling" };
        return Outcome switch
        {
            BackingOutcome.Backed => claim with
            {
                Outcome = ClaimOutcome.Agrees, Verdict = Verdict.Holds, NextStep = Phrase.Empty,
                Evidence = $"{before}; the port answers to {By}, which is enough{limit}; what it gives was not measured",
            },
            BackingOutcome.Possible => claim with
            {
                Evidence = $"{before}; the port answers to {By}, which may give it",
                NextStep = $"Measure {Port} with a device of {By} at the printed voltage and current.",
            },
            BackingOutcome.NotAnswered => claim.Fails(ClaimOutcome.NotAnswered, $"{before}; the port was asked, and there is {By}") with { NextStep = Phrase.Empty },
            BackingOutcome.TooLittle => claim.CannotTell(
                ClaimOutcome.NothingBacks, $"{before}; the port answers to {By}, which is less{limit}", LookForMore),
            _ => claim.CannotTell(ClaimOutcome.NothingBacks, $"{before}; nothing that the port was seen to answer to could give it", LookForMore),
        };
    }

    private Phrase LookForMore =>
        $"Ask {Port} for BC 1.2, UFCS and what its label names, and state what answers and what does not (\"signalling:\", no-...).";
}
