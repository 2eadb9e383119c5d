using Portwitness.Analysis.Phrases;

namespace Portwitness.Product.Energy;

/// <summary>Measured amounts as findings print them.</summary>
internal static class EnergyText
{
    /// <summary>µAh as "9876.5 mAh".</summary>
    public static Quantity Charge(long microampereHours) => new(microampereHours, QuantityUnit.MicroampereHours);

    /// <summary>µWh as "36.52 Wh".</summary>
    public static Quantity Energy(long microwattHours) => new(microwattHours, QuantityUnit.MicrowattHours);

    /// <summary>µV as "4.952 V".</summary>
    public static Quantity Volts(long microvolts) => new(microvolts, QuantityUnit.Microvolts);

    /// <summary>µA as "2.005 A".</summary>
    public static Quantity Amperes(long microamperes) => new(microamperes, QuantityUnit.Microamperes);

    /// <summary>Millionths as "83.2 %".</summary>
    public static Quantity Percent(long ppm) => new(ppm, QuantityUnit.PartsPerMillion);

    /// <summary>µs as "1 h 12 min 5 s", "5.2 s" or "18.7 ms".</summary>
    public static Duration Time(long us) => new(us, DurationForm.Log);

    /// <summary>"9800 mAh (9741 to 9859 mAh)".</summary>
    public static Phrase Between(MeasuredAmount amount, Func<long, Quantity> text) =>
        $"{text(amount.Value)} ({text(amount.Least)} to {(amount.Most is { } most ? Phrase.Of($"{text(most)}") : "an amount that is open")})";
}
