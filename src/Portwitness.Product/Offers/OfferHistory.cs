using Portwitness.Analysis.PdpRules;
using Portwitness.Analysis.Phrases;
using Portwitness.PowerDelivery.Units;

namespace Portwitness.Product.Offers;

/// <summary>What a port offered one after the other, in words.</summary>
internal static class OfferHistory
{
    /// <summary>"45 W", or "65 W for 10 min 2 s, then 45 W" where more was offered before.</summary>
    public static Phrase PowerText(PortOffer offer)
    {
        Power last = PowerRules.Watts(offer.LargestPowerMilliwatts);
        int most = offer.MostPowerMilliwatts;
        if (most == offer.LargestPowerMilliwatts)
        {
            return $"{last}";
        }

        long forUs = offer.Earlier.Where(earlier => earlier.LargestPowerMilliwatts == most).Sum(static earlier => earlier.ForUs);
        return $"{PowerRules.Watts(most)} for {Duration(forUs)}, then {last}";
    }

    /// <summary>"502 ms", "12.5 s", "10 min 2 s", "3 h 5 min".</summary>
    public static Duration Duration(long microseconds) => new(microseconds, DurationForm.Offer);
}
