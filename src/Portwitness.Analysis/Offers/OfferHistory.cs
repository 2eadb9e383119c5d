using System.Globalization;
using Portwitness.Analysis.PdpRules;

namespace Portwitness.Analysis.Offers;

/// <summary>What a port offered one after the other, in words.</summary>
internal static class OfferHistory
{
    /// <summary>"45 W", or "65 W for 10 min 2 s, then 45 W" where more was offered before.</summary>
    public static string PowerText(PortOffer offer)
    {
        string last = PowerRules.Watts(offer.LargestPowerMilliwatts);
        int most = offer.MostPowerMilliwatts;
        if (most == offer.LargestPowerMilliwatts)
        {
            return last;
        }

        long forUs = offer.Earlier.Where(earlier => earlier.LargestPowerMilliwatts == most).Sum(static earlier => earlier.ForUs);
        return $"{PowerRules.Watts(most)} for {Duration(forUs)}, then {last}";
    }

    /// <summary>"502 ms", "12.5 s", "10 min 2 s", "3 h 5 min".</summary>
    public static string Duration(long microseconds) => microseconds switch
    {
        < 1_000_000 => string.Create(CultureInfo.InvariantCulture, $"{(microseconds + 500) / 1000} ms"),
        < 60_000_000 => string.Create(CultureInfo.InvariantCulture, $"{microseconds / 100_000 / 10m:0.#} s"),
        < 3_600_000_000 => string.Create(CultureInfo.InvariantCulture, $"{microseconds / 60_000_000} min {microseconds / 1_000_000 % 60} s"),
        _ => string.Create(CultureInfo.InvariantCulture, $"{microseconds / 3_600_000_000} h {microseconds / 60_000_000 % 60} min"),
    };
}
