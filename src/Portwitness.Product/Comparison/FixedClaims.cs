using Portwitness.Analysis.PdpRules;
using Portwitness.Analysis.Phrases;
using Portwitness.Labels;
using Portwitness.PowerDelivery.Limits;
using Portwitness.PowerDelivery.PowerData;
using Portwitness.PowerDelivery.Units;
using Portwitness.Product.Offers;
using Portwitness.Product.Printed;

namespace Portwitness.Product.Comparison;

/// <summary>Holds a printed voltage and current against a list.</summary>
internal static class FixedClaims
{
    private const int HalfVoltageStep = 25;
    private const int CurrentStep = 10;
    private const int PrintedStep = 50;

    private const string BesideList = "the label prints a list of USB PD of its own, so another protocol may be meant";

    /// <summary>Judges one printed mode; the others of the port are known so that two modes of one voltage are told apart.</summary>
    public static Claim Judge(Claim claim, PrintedFixed printed, IReadOnlyList<PrintedFixed> all, PortOffer offer)
    {
        claim = claim with { Printed = $"{printed.Voltage} {printed.Current}", Offer = offer };
        if (!Protocols.IsPowerDelivery(printed.Protocol))
        {
            return claim.CannotTell(
                ClaimOutcome.NotAdvertised, $"printed for {printed.Protocol}, which is not USB PD", NextSteps.OtherProtocol);
        }

        // Where a voltage is offered twice, the object that comes nearest to the label is compared.
        OfferedObject? nearest = null;
        int distance = int.MaxValue;
        foreach (OfferedObject offered in offer.List.Objects)
        {
            if (offered.KindIsKnown && offered.Kind == PowerObjectKind.Fixed && !offered.IsZero
                && offered.HighestVoltage() is not null && offered.MaximumCurrent() is not null
                && Math.Abs(offered.AsSource().AsFixed().Voltage.Millivolts - printed.Voltage.Millivolts) <= HalfVoltageStep
                && Distance(offered, printed) < distance)
            {
                (nearest, distance) = (offered, Distance(offered, printed));
            }
        }

        if (nearest is { } found)
        {
            return JudgeCurrent(claim, printed, all, offer, found);
        }

        return Missing(claim, printed, all, offer) with { Observed = "no fixed object of this voltage" };
    }

    private static int Distance(OfferedObject offered, PrintedFixed printed) =>
        Math.Abs(offered.AsSource().AsFixed().MaximumCurrent.Milliamperes - printed.Current.Milliamperes);

    /// <summary>Whether an offered current is the printed one, as far as its digits, the 10 mA steps and the customs of rounding say.</summary>
    /// <param name="printed">The printed mode.</param>
    /// <param name="offeredMilliamperes">The offered current.</param>
    /// <param name="slack">By how much the offered current may be off, where it was rounded. Milliamperes.</param>
    internal static bool SameCurrent(PrintedFixed printed, int offeredMilliamperes, int slack = 0)
    {
        // "3A" is 3 A; "2.2A" may stand for 2.22 A. Rounding PDP / V down or up makes 10 mA (R3.2v1.1, 10.2).
        int digit = printed.CurrentStep.Milliamperes < 1000 ? printed.CurrentStep.Milliamperes / 2 : 0;
        int less = printed.Current.Milliamperes - offeredMilliamperes;
        return Math.Abs(less) <= Math.Max(CurrentStep, Math.Max(digit, slack)) || (less > 0 && IsRoundedUp(printed, offeredMilliamperes));
    }

    // "2.25A" for 2.22 A: a whole number of watts by the volts is offered, and printed is the next 50 mA (common practice, no source).
    private static bool IsRoundedUp(PrintedFixed printed, int offeredMilliamperes)
    {
        int watts = ((printed.Voltage.Millivolts * offeredMilliamperes / 1000) + 500) / 1000;
        bool isOfWholeWatts = Math.Abs((watts * 1_000_000 / Math.Max(1, printed.Voltage.Millivolts)) - offeredMilliamperes) <= CurrentStep;
        return isOfWholeWatts && printed.Current.Milliamperes % PrintedStep == 0 && printed.Current.Milliamperes - offeredMilliamperes < PrintedStep;
    }

    private static Claim JudgeCurrent(
        Claim claim, PrintedFixed printed, IReadOnlyList<PrintedFixed> all, PortOffer offer, OfferedObject offered)
    {
        int current = offered.AsSource().AsFixed().MaximumCurrent.Milliamperes;
        Phrase seen = $"object {offered.Position} is {offered} ({offer.Place})";
        claim = claim with { Observed = offered.ToPhrase(), Position = offered.Position, Evidence = seen };
        if (SameCurrent(printed, current, offer.CurrentSlackMilliamperes))
        {
            return claim;
        }

        bool less = current < printed.Current.Milliamperes;
        if (!less)
        {
            // The promise is kept. Within the half watt of printed powers nothing is left to say; beyond it the label tells less than is offered.
            Power promised = printed.Voltage * printed.Current;
            bool isRounded = (printed.Voltage * Current.FromMilliamperes(current)).Milliwatts - promised.Milliwatts <= PowerClaims.Tolerance(promised);
            return isRounded ? claim : claim with { Outcome = ClaimOutcome.CurrentDiffers };
        }

        if (OtherProtocolRatings.IsBesideList(printed, all))
        {
            return claim.CannotTell(ClaimOutcome.CurrentDiffers, $"{seen}; {BesideList}", NextSteps.OtherProtocol);
        }

        if (all.Any(other => other != printed && other.Voltage == printed.Voltage && SameCurrent(other, current, offer.CurrentSlackMilliamperes)))
        {
            return claim.CannotTell(
                ClaimOutcome.CurrentDiffers, $"{seen}, which is another printed mode of this voltage", NextSteps.OtherProtocol);
        }

        // 5 V above 3 A is printed for other protocols as a rule (common practice, no source).
        if (printed.Voltage.Millivolts == 5000 && printed.Current.Milliamperes > PowerRules.PlainCableMilliamperes)
        {
            return claim.CannotTell(ClaimOutcome.CurrentDiffers, $"{seen}; more may need another protocol", NextSteps.OtherProtocol);
        }

        if (current == PowerRules.PlainCableMilliamperes && offer.CableMayHideCurrent)
        {
            return claim.CannotTell(
                ClaimOutcome.CurrentDiffers, $"{seen}; over a 3 A cable a source offers no more", offer.CableStep);
        }

        return offer.MayListMore
            ? claim.CannotTell(ClaimOutcome.CurrentDiffers, seen, offer.ContractStep)
            : claim.Fails(ClaimOutcome.CurrentDiffers, seen);
    }

    private static Claim Missing(Claim claim, PrintedFixed printed, IReadOnlyList<PrintedFixed> all, PortOffer offer)
    {
        int volts = printed.Voltage.Millivolts;
        Phrase seen = $"no object of {offer.Place} offers {printed.Voltage}";
        if (offer.HidesObjects)
        {
            return claim.CannotTell(ClaimOutcome.NotAdvertised, $"{seen}, but not all of it was shown", offer.WholeListStep);
        }

        if (Covering(printed, offer) is { } range && PowerRules.NormativeAbove(volts) is null)
        {
            return claim.CannotTell(
                ClaimOutcome.NotAdvertised, $"{seen} as a fixed supply; object {range.Position} ({range}) covers it",
                "Ask the maker whether the printed voltage means the adjustable range.");
        }

        if (OtherProtocolRatings.IsBesideList(printed, all))
        {
            return claim.CannotTell(ClaimOutcome.NotAdvertised, $"{seen}; {BesideList}", NextSteps.OtherProtocol);
        }

        if (printed.Current.Milliamperes > PowerRules.ConnectorMilliamperes || !IsStandard(volts))
        {
            return claim.CannotTell(
                ClaimOutcome.NotAdvertised, $"{seen}; USB PD has no such fixed supply, so another protocol may be meant",
                NextSteps.OtherProtocol);
        }

        // 12 V was optional before R3.2 and is not allowed since (R3.2v1.1, 10.2.3.1).
        if (volts == 12000 && (offer.Editions & Editions.R32) != 0)
        {
            return claim.CannotTell(
                ClaimOutcome.NotAdvertised, $"{seen}; R3.2 has no 12 V, so another protocol may be meant", NextSteps.OtherProtocol);
        }

        if (volts > 20000 && offer.MayHideEpr)
        {
            return claim.CannotTell(ClaimOutcome.NotAdvertised, $"{seen}; EPR was not captured", NextSteps.EprCable);
        }

        return offer.MayListMore
            ? claim.CannotTell(ClaimOutcome.NotAdvertised, seen, offer.ContractStep)
            : claim.Fails(ClaimOutcome.NotAdvertised, seen);
    }

    private static bool IsStandard(int millivolts) =>
        millivolts is 5000 or 9000 or 12000 or 15000 or 20000 or 28000 or 36000 or 48000;

    private static OfferedObject? Covering(PrintedFixed printed, PortOffer offer)
    {
        foreach (OfferedObject offered in offer.List.Objects)
        {
            if (offered.KindIsKnown && offered.Kind.IsAugmented()
                && offered.LowestVoltage() <= printed.Voltage && offered.HighestVoltage() >= printed.Voltage
                && offered.MaximumCurrent() is { } current && current >= printed.Current)
            {
                return offered;
            }
        }

        return null;
    }
}
