using Portwitness.Analysis.Phrases;
using Portwitness.Labels;
using Portwitness.PowerDelivery.PowerData;
using Portwitness.PowerDelivery.Units;
using Portwitness.Product.Offers;
using Portwitness.Product.Printed;

namespace Portwitness.Product.Comparison;

/// <summary>Holds a printed range of voltage against a list.</summary>
internal static class RangeClaims
{
    private const int HalfVoltageStep = 50;
    private const int CurrentStep = 50;

    /// <summary>Judges one printed range.</summary>
    public static Claim Judge(Claim claim, PrintedRange printed, PortOffer offer)
    {
        claim = claim with { Printed = $"{printed.Minimum} to {printed.Maximum} {printed.Current}", Offer = offer };
        if (!Protocols.IsPowerDelivery(printed.Kind))
        {
            return claim.CannotTell(
                ClaimOutcome.NotAdvertised, $"printed for {printed.Kind}, which is not USB PD", NextSteps.OtherProtocol);
        }

        // Where several objects cover the range, the one that comes nearest to the label is compared.
        (OfferedObject Offered, Current Current)? nearest = null;
        foreach (OfferedObject offered in offer.List.Objects)
        {
            if (CurrentOver(offered, printed) is { } current && (nearest is null || Distance(current) < Distance(nearest.Value.Current)))
            {
                nearest = (offered, current);
            }
        }

        return nearest is { } found ? JudgeCurrent(claim, printed, offer, found.Offered, found.Current) : Missing(claim, printed, offer);

        int Distance(Current current) => Math.Abs(current.Milliamperes - printed.Current.Milliamperes);
    }

    // The current of an adjustable object over the whole printed range; null when it does not cover it.
    private static Current? CurrentOver(OfferedObject offered, PrintedRange printed)
    {
        if (!offered.KindIsKnown || !IsMeant(offered.Kind, printed.Kind)
            || offered.LowestVoltage() is not { } low || offered.HighestVoltage() is not { } high
            || low.Millivolts > printed.Minimum.Millivolts + HalfVoltageStep
            || high.Millivolts < printed.Maximum.Millivolts - HalfVoltageStep)
        {
            return null;
        }

        return CurrentAt(offered, printed.Maximum);
    }

    // "PPS" and "AVS" mean their own objects; a range without a name, or of "PD", may be either.
    private static bool IsMeant(PowerObjectKind offered, string? printed) => offered switch
    {
        PowerObjectKind.Pps => printed?.Contains("AVS", StringComparison.OrdinalIgnoreCase) != true,
        PowerObjectKind.SprAvs or PowerObjectKind.EprAvs => printed?.Contains("PPS", StringComparison.OrdinalIgnoreCase) != true,
        _ => false,
    };

    private static Claim JudgeCurrent(
        Claim claim, PrintedRange printed, PortOffer offer, OfferedObject offered, Current current)
    {
        Phrase seen = $"object {offered.Position} is {offered} ({offer.Place})";
        claim = claim with { Observed = offered.ToPhrase(), Position = offered.Position, Evidence = seen };

        // A printed 2.22 A is coded as 2.20 A: steps of 50 mA, rounded down (R3.2v1.1, 10.2).
        // Below its upper end an AVS object may give more than its current there.
        int more = current.Milliamperes - printed.Current.Milliamperes;
        bool isWider = offered.Kind != PowerObjectKind.Pps
            && offered.HighestVoltage()!.Value.Millivolts > printed.Maximum.Millivolts + HalfVoltageStep;
        int digit = printed.CurrentStep.Milliamperes < 1000 ? printed.CurrentStep.Milliamperes / 2 : 0;
        int slack = offer.CurrentSlackMilliamperes;
        if (more > -CurrentStep - slack && (isWider || more <= Math.Max(CurrentStep, digit) + slack))
        {
            return claim;
        }

        if (more > 0)
        {
            // The promise is kept. A supply of limited power gives at its upper end what is printed, and more below it: there is nothing to say.
            return IsOfLimitedPower(offered, printed) ? claim : claim with { Outcome = ClaimOutcome.CurrentDiffers };
        }

        if (HoldsInPart(offer, printed) is { } part)
        {
            return claim.CannotTell(
                ClaimOutcome.CurrentDiffers, $"{seen}; object {part.Position}, {part}, gives {printed.Current} over part of the range",
                "Ask the maker whether the printed current holds over the whole range.");
        }

        if (current.Milliamperes == 3000 && offer.CableMayHideCurrent)
        {
            return claim.CannotTell(
                ClaimOutcome.CurrentDiffers, $"{seen}; over a 3 A cable a source offers no more", offer.CableStep);
        }

        return offer.MayListMore
            ? claim.CannotTell(ClaimOutcome.CurrentDiffers, seen, offer.ContractStep)
            : claim.Fails(ClaimOutcome.CurrentDiffers, seen);
    }

    // R3.2v1.1, 6.4.1.2.4.1: the PPS Power Limited bit. Where it was not shown, watts that are printed with the range say the same.
    private static bool IsOfLimitedPower(OfferedObject offered, PrintedRange printed) => offered.Kind == PowerObjectKind.Pps
        && (offered.Knows(PpsSourceSupply.PowerLimitedField)
            ? offered.AsSource().AsPps().PowerLimited
            : printed.Power is { } power && (printed.Maximum * printed.Current).Milliwatts <= power.Milliwatts + PowerClaims.Tolerance(power));

    // An object that gives the printed current somewhere in the printed range: at the lower end of AVS, or another PPS object.
    private static OfferedObject? HoldsInPart(PortOffer offer, PrintedRange printed)
    {
        foreach (OfferedObject offered in offer.List.Objects)
        {
            if (offered.KindIsKnown && IsMeant(offered.Kind, printed.Kind)
                && offered.LowestVoltage() is { } low && offered.HighestVoltage() is { } high && low < printed.Maximum && high > printed.Minimum)
            {
                Voltage from = low > printed.Minimum ? low : printed.Minimum;
                if (CurrentAt(offered, from)?.Milliamperes > printed.Current.Milliamperes - CurrentStep)
                {
                    return offered;
                }
            }
        }

        return null;
    }

    // The most current of an adjustable object at a voltage of its range.
    private static Current? CurrentAt(OfferedObject offered, Voltage volts) => offered.Kind switch
    {
        PowerObjectKind.Pps => offered.MaximumCurrent(),
        PowerObjectKind.SprAvs => volts.Millivolts <= 15000 + HalfVoltageStep
            ? offered.AsSource().AsSprAvs().MaximumCurrentTo15V
            : offered.AsSource().AsSprAvs().MaximumCurrentTo20V,

        // R3.2v1.1, 6.4.2.8: the smaller of 5 A and PDP / V, rounded down to 50 mA.
        PowerObjectKind.EprAvs => Current.FromMilliamperes(Math.Min(
            5000, offered.AsSource().AsEprAvs().Pdp.Milliwatts * 20 / Math.Max(volts.Millivolts, 1) * 50)),
        _ => null,
    };

    private static Claim Missing(Claim claim, PrintedRange printed, PortOffer offer)
    {
        Phrase seen = $"no object of {offer.Place} covers {printed.Minimum} to {printed.Maximum}";
        claim = claim with { Observed = "no object covers this range" };
        if (offer.HidesObjects || (offer.MayHideSprAvs && MayBeSprAvs(printed)))
        {
            return claim.CannotTell(ClaimOutcome.NotAdvertised, $"{seen}, but not all of it was shown", offer.WholeListStep);
        }

        if (printed.Kind is null && !IsPpsRange(printed))
        {
            return claim.CannotTell(
                ClaimOutcome.NotAdvertised, $"{seen}; the label does not say which protocol", NextSteps.OtherProtocol);
        }

        if (printed.Maximum.Millivolts > 21000 && offer.MayHideEpr)
        {
            return claim.CannotTell(ClaimOutcome.NotAdvertised, $"{seen}; EPR was not captured", NextSteps.EprCable);
        }

        return offer.MayListMore
            ? claim.CannotTell(ClaimOutcome.NotAdvertised, seen, offer.ContractStep)
            : claim.Fails(ClaimOutcome.NotAdvertised, seen);
    }

    // R3.2v1.1, 6.4.1.2.4.2: from 9 V to 15 V or 20 V.
    private static bool MayBeSprAvs(PrintedRange printed) => IsMeant(PowerObjectKind.SprAvs, printed.Kind)
        && printed.Minimum.Millivolts >= 9000 - HalfVoltageStep && printed.Maximum.Millivolts <= 20000 + HalfVoltageStep;

    // The ranges that PPS has or had (R3.2v1.1, Table 10.11; before: from 3.3 V or 3.0 V).
    private static bool IsPpsRange(PrintedRange printed) =>
        printed.Minimum.Millivolts is 3000 or 3300 or 5000 && printed.Maximum.Millivolts is 5900 or 11000 or 16000 or 21000;
}
