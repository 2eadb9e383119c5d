using System.Collections.Immutable;
using Portwitness.Analysis.Phrases;
using Portwitness.Analysis.Rules;
using Portwitness.PowerDelivery.PowerData;
using Portwitness.Product.Offers;

namespace Portwitness.Product.Arrangements;

/// <summary>How an object of a port changes between being alone and being one of several.</summary>
public enum OfferChangeKind
{
    /// <summary>It is not offered any more.</summary>
    Lost,

    /// <summary>It is offered with less current or power.</summary>
    Reduced,

    /// <summary>It is offered with more.</summary>
    Raised,

    /// <summary>It was not offered alone.</summary>
    Added,
}

/// <summary>One object that is not offered as it is alone.</summary>
/// <param name="Kind">What became of it.</param>
/// <param name="Alone">As offered alone; empty when it was not.</param>
/// <param name="Now">As offered now; empty when it is not.</param>
public sealed record OfferChange(OfferChangeKind Kind, string Alone, string Now)
{
    /// <summary>What became of each object, in the order of the list of the port alone.</summary>
    public static ImmutableArray<OfferChange> Between(PortOffer alone, PortOffer now)
    {
        List<OfferChange> changes = [];
        foreach (OfferedObject before in Shown(alone))
        {
            OfferedObject[] after = [.. Shown(now).Where(offered => IsSame(offered, before))];
            if (after.Length == 0)
            {
                changes.Add(new OfferChange(OfferChangeKind.Lost, before.ToText(), ""));
            }
            else if (Compare(after[0], before) is not 0 and int difference)
            {
                changes.Add(new OfferChange(
                    difference < 0 ? OfferChangeKind.Reduced : OfferChangeKind.Raised, before.ToText(), after[0].ToText()));
            }
        }

        changes.AddRange(Shown(now).Where(after => !Shown(alone).Any(before => IsSame(after, before)))
            .Select(after => new OfferChange(OfferChangeKind.Added, "", after.ToText())));
        return [.. changes];
    }

    private static IEnumerable<OfferedObject> Shown(PortOffer offer) =>
        offer.List.Objects.Where(offered => offered is { KindIsKnown: true, IsZero: false } && offered.HighestVoltage() is not null);

    // SPR AVS goes as high as its currents say, and is the same supply all the same.
    private static bool IsSame(OfferedObject left, OfferedObject right) => left.Kind == right.Kind
        && (left.Kind == PowerObjectKind.SprAvs || (left.HighestVoltage() == right.HighestVoltage() && left.LowestVoltage() == right.LowestVoltage()));

    private static int Compare(OfferedObject left, OfferedObject right) => Amount(left).CompareTo(Amount(right));

    private static long Amount(OfferedObject offered) => offered.Kind switch
    {
        PowerObjectKind.Battery => offered.AsSource().AsBattery().MaximumPower.Milliwatts,
        PowerObjectKind.EprAvs => offered.AsSource().AsEprAvs().Pdp.Milliwatts,
        PowerObjectKind.SprAvs => ((long)offered.AsSource().AsSprAvs().MaximumCurrentTo15V.Milliamperes << 20)
            + offered.AsSource().AsSprAvs().MaximumCurrentTo20V.Milliamperes,
        _ => offered.MaximumCurrent()?.Milliamperes ?? 0,
    };
}
