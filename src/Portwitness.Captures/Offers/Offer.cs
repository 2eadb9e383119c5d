using System.Collections.Immutable;
using Portwitness.PowerDelivery.PowerData;
using Portwitness.PowerDelivery.Units;

namespace Portwitness.Captures.Offers;

/// <summary>One offer as people write it, taken apart; what its kind does not have is zero.</summary>
/// <param name="Text">As written.</param>
/// <param name="Kind">The kind of object.</param>
/// <param name="Minimum">Lowest voltage; of a fixed offer, its voltage.</param>
/// <param name="Maximum">Highest voltage.</param>
/// <param name="Current">Current; of SPR AVS, that up to 15 V.</param>
/// <param name="Current20V">Of SPR AVS, that up to 20 V.</param>
/// <param name="Power">Power of a battery, PDP of EPR AVS.</param>
public sealed record Offer(
    string Text, PowerObjectKind Kind, Voltage Minimum, Voltage Maximum, Current Current, Current Current20V, Power Power)
{
    /// <summary>Words behind the amounts, in order: flags and the like.</summary>
    public ImmutableArray<string> Rest { get; init; } = [];

    /// <summary>Decimals of its current, in amperes; null when it has none.</summary>
    public int? CurrentDecimals { get; init; }

    /// <summary>Reads one offer, as "9V 3A", "9.0V⎓2.22A", "PPS 3.3–11V 5A", "APDO2: 5~21V/3A", "SPR AVS 3A/5A" or "AVS 15-28V 140W".</summary>
    /// <exception cref="OfferFaultException">The text is none, or holds more than one.</exception>
    public static Offer Read(string text)
    {
        ArgumentNullException.ThrowIfNull(text);
        OfferReading reading = new(text);
        Offer offer = reading.Next();
        return reading.AtEnd ? offer : throw new OfferFaultException($"{reading.Found} was not understood; \"{reading.Text}\" should end before it");
    }

    /// <summary>Reads all offers of a text, one behind the other.</summary>
    /// <exception cref="OfferFaultException">One of them cannot be read.</exception>
    public static ImmutableArray<Offer> ReadAll(string text)
    {
        ArgumentNullException.ThrowIfNull(text);
        OfferReading reading = new(text);
        ImmutableArray<Offer>.Builder offers = ImmutableArray.CreateBuilder<Offer>();
        while (!reading.AtEnd)
        {
            offers.Add(reading.Next());
        }

        return offers.ToImmutable();
    }
}
