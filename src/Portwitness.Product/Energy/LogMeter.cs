using Portwitness.Analysis.Measuring;
using Portwitness.Analysis.Phrases;
using Portwitness.Captures;

namespace Portwitness.Product.Energy;

/// <summary>Where and how exactly a log was measured; what is not stated is taken to be poor, and said so.</summary>
public sealed class LogMeter
{
    private const int Millionths = 1_000_000;

    /// <summary>What the product file states.</summary>
    public LogMeter(MeasuringPoint point, MeasuringAccuracy? stated)
    {
        Point = point;
        States = stated is { StatesVoltage: true, StatesCurrent: true };
        Accuracy = Instrument.OrPoor(stated);
    }

    /// <summary>Where it was measured.</summary>
    public MeasuringPoint Point { get; }

    /// <summary>Whether the accuracy of both volts and amps is stated.</summary>
    public bool States { get; }

    /// <summary>What is reckoned with.</summary>
    public MeasuringAccuracy Accuracy { get; }

    /// <summary>A current that reads so may be so many µA more or less, rounded up.</summary>
    public long OfCurrent(long microamperes) =>
        (long)((((Int128)Math.Abs(microamperes) * (Accuracy.IbusPpm ?? 0)) + Millionths - 1) / Millionths)
        + ((Accuracy.IbusMilliamperes ?? 0) * 1000L);

    /// <summary>A voltage that reads so may be so many µV more or less, rounded up.</summary>
    public long OfVoltage(long microvolts) => (long)((((Int128)Math.Abs(microvolts) * (Accuracy.VbusPpm ?? 0)) + Millionths - 1) / Millionths) + Offset;

    /// <summary>What reads more than this is above a voltage for sure: r - offset - r·share is more than it. In µV.</summary>
    public long SurelyAbove(long microvolts)
    {
        long rest = Millionths - (Accuracy.VbusPpm ?? 0);
        return rest <= 0 ? long.MaxValue : (long)((((Int128)(microvolts + Offset) * Millionths) + rest - 1) / rest);
    }

    /// <summary>What reads less than this is below a voltage for sure: r + offset + r·share is less than it. In µV.</summary>
    public long SurelyBelow(long microvolts) =>
        (long)((Int128)Math.Max(0, microvolts - Offset) * Millionths / (Millionths + (Accuracy.VbusPpm ?? 0)));

    /// <summary>"±0.1 % of volts, ±0.2 % of amps", or that nothing is stated.</summary>
    public Phrase Text() =>
        Phrase.Of($"volts {Part(Accuracy.VbusPpm, Accuracy.VbusMillivolts, "mV")}, amps {Part(Accuracy.IbusPpm, Accuracy.IbusMilliamperes, "mA")}")
        + (States ? "" : ", taken where none is stated");

    private long Offset => (Accuracy.VbusMillivolts ?? 0) * 1000L;

    private static Phrase Part(int? ppm, int? offset, string unit)
    {
        Phrase share = $"±{new Quantity(ppm ?? 0, QuantityUnit.PartsPerMillionExactly)}";
        return (ppm, offset) switch
        {
            ( > 0, > 0) => $"{share} ±{offset} {unit}",
            (_, > 0) => $"±{offset} {unit}",
            _ => share,
        };
    }
}
