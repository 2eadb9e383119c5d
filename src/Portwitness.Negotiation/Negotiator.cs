using System.Collections.Immutable;
using Portwitness.Analysis.Evidence;
using Portwitness.PowerDelivery.Limits;
using Portwitness.PowerDelivery.PowerData;
using Portwitness.PowerDelivery.Units;

namespace Portwitness.Negotiation;

/// <summary>Works out what a device asks a source for, and why for nothing else.</summary>
public static class Negotiator
{
    private const string ComparePhoto = "Compare what was read off the photo with it before you rely on it; or type it.";

    /// <summary>The negotiation of a device with a source.</summary>
    public static SinkNegotiation Of(SourceOffer offer, SinkDescription described, SinkPolicy policy)
    {
        // A source whose cable is its own knows what that cable carries, and has listed no more (R3.2v1.1, 6.4.10.1).
        SinkDescription sink = offer.HasCaptiveCable ? described with { Cable = CableEvidence.Epr } : described;
        (OfferOutcome Outcome, string Why)? noEpr = WhyNoEpr(offer, sink);
        OfferUses finder = new(offer, sink, noEpr);
        OfferUse[] uses = [.. InForce(offer, noEpr is null).Select(finder.Find)];
        SinkRequest? best = policy.Choose(uses.Select(static use => use.Possible).OfType<SinkRequest>(), sink);
        bool mismatch = !uses.Any(use => use.Possible?.Reaches(sink.Wish) == true);
        ImmutableArray<string> steps = mismatch ? NextSteps(offer, sink, best?.Power ?? Power.Zero) : [];
        steps = offer.IsUnchecked ? [ComparePhoto, .. steps] : steps;
        Verdict open = steps.IsEmpty ? Verdict.Fails : Verdict.CannotTell;
        bool isEnough = best is not null && best.Power >= (sink.Minimum ?? Power.Zero);
        return new SinkNegotiation
        {
            Offer = offer,
            Sink = described,
            Policy = policy,
            Start = Send(FirstOf(offer, finder, policy, sink), inEprMode: false),
            Best = Send(best, inEprMode: noEpr is null),
            CapabilityMismatch = mismatch,
            Uses = [.. uses.Select(use => Settle(use, best, finder, sink, policy))],
            GetsWish = !offer.IsUnchecked && best?.Reaches(sink.Wish) == true ? Verdict.Holds : open,
            GetsMinimum = !offer.IsUnchecked && isEnough ? Verdict.Holds : open,
            NextSteps = steps,
        };

        DeviceRequest? Send(SinkRequest? request, bool inEprMode) => request is null
            ? null
            : new DeviceRequest(request, request.ToRequest(mismatch, sink.UsesEpr), inEprMode);
    }

    private static ImmutableArray<OfferedObject> InForce(SourceOffer offer, bool inEprMode) =>
        inEprMode ? offer.Epr : [.. offer.Spr, .. offer.Epr.Skip(MessageLimits.MaxSprObjects)];

    // EPR mode is entered out of a contract of SPR mode (R3.2v1.1, 6.4.10.1). That PPS and AVS are gone to from a fixed supply is
    // common practice, no source.
    private static SinkRequest? FirstOf(SourceOffer offer, OfferUses finder, SinkPolicy policy, SinkDescription sink)
    {
        SinkRequest[] possible =
        [
            .. offer.Spr.Where(static offered => offered.Position <= MessageLimits.MaxSprObjects && offered.Kind != PowerObjectKind.EprAvs)
                .Select(offered => finder.Find(offered).Possible).OfType<SinkRequest>(),
        ];
        return policy.Choose(possible.Where(static request => !request.Kind.IsAugmented()), sink) ?? policy.Choose(possible, sink);
    }

    // R3.2v1.1, 6.4.10.1: a device and a source of EPR, a contract, and a cable of 50 V and 5 A that is made for EPR.
    private static (OfferOutcome Outcome, string Why)? WhyNoEpr(SourceOffer offer, SinkDescription sink) =>
        !sink.UsesEpr ? (OfferOutcome.Mode, "the device does not enter EPR mode")
        : sink.Cable != CableEvidence.Epr ? (OfferOutcome.Cable, "the device's cable is not made for EPR")
        : offer.EprCapable == false ? (OfferOutcome.Mode, "EPR mode is not entered: the source's first object says that it cannot")
        : offer.Epr.IsEmpty ? (OfferOutcome.Mode, "EPR mode is not entered: no EPR list was seen")
        : null;

    private static OfferUse Settle(OfferUse use, SinkRequest? best, OfferUses finder, SinkDescription sink, SinkPolicy policy)
    {
        bool isBetter = use.Most > (best?.Power ?? Power.Zero);
        if (best is null || use.Possible is not { } possible)
        {
            return use with { IsBetter = isBetter };
        }

        if (possible == best)
        {
            return use with { Outcome = OfferOutcome.Chosen, Why = finder.Limit(possible) };
        }

        bool isLess = !possible.Reaches(sink.Wish) && possible.Power < best.Power;
        return use with
        {
            IsBetter = isBetter,
            Outcome = isLess ? OfferOutcome.LessPower : OfferOutcome.Policy,
            Why = isLess ? finder.Limit(possible) : $"{policy.Name} prefers object {best.Offered.Position}",
        };
    }

    // What may be offered without having been seen.
    private static ImmutableArray<string> NextSteps(SourceOffer offer, SinkDescription sink, Power best)
    {
        List<string> steps = [];
        if (offer.HidesObjects)
        {
            steps.Add(offer.IsPrinted
                ? $"Read by hand what of {offer.Port} could not be read on the label."
                : "Capture with an instrument that shows every object of the list.");
        }

        if (offer.CableMayHideCurrent && sink.Cable != CableEvidence.ThreeAmpere && CableMayHidePower(offer, sink, best))
        {
            steps.Add("Capture with a 5 A cable: over one of 3 A, or an unknown one, a source may offer less than it can.");
        }

        if (sink.UsesEpr && sink.Cable == CableEvidence.Epr && offer.Epr.IsEmpty && offer.EprCapable != false)
        {
            steps.Add("Capture EPR_Source_Capabilities with an EPR cable and a sink that enters EPR mode.");
        }

        if (offer.MayListMore)
        {
            steps.Add("Capture a contract: before its first one a port of several may offer less than it can.");
        }

        return [.. steps];
    }

    // Of the highest fixed voltage less than 3 A is all of the source's power (R3.2v1.1, Tables 10.2 and 10.3): a better cable brings
    // no more of it, but more current at lower voltages, and of PPS. A list that shows no fixed object leaves that power open.
    private static bool CableMayHidePower(SourceOffer offer, SinkDescription sink, Power best)
    {
        OfferedObject[] known =
            [.. offer.Spr.Where(static offered => offered.Is(PowerObjectKind.Fixed) && offered.HighestVoltage() is not null)];
        if (known.Length == 0)
        {
            return true;
        }

        OfferedObject top = known.MaxBy(static offered => offered.HighestVoltage());
        bool isWhole = top.MaximumCurrent() is { } current && current > Current.Zero && current < Electrical.UnmarkedCableMaximum;
        bool isPpsCut = !sink.Pps.IsEmpty
            && offer.Spr.Any(static offered => offered.Is(PowerObjectKind.Pps) && offered.MaximumCurrent() == Electrical.UnmarkedCableMaximum);
        return !isWhole || isPpsCut || best < top.HighestVoltage() * top.MaximumCurrent();
    }
}
