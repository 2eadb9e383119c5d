using System.Diagnostics;
using Portwitness.Analysis.Phrases;
using Portwitness.PowerDelivery.Framing;
using Portwitness.PowerDelivery.Headers;
using Portwitness.PowerDelivery.Limits;
using Portwitness.PowerDelivery.PowerData;
using Portwitness.PowerDelivery.Units;

using Wire = Portwitness.Contracts.V1;

namespace Portwitness.Service.Translation;

/// <summary>The values of a phrase, for scripts that read no words.</summary>
internal static class PhraseTranslation
{
    /// <summary>Its values in the order of its words, those of phrases inside it among them; none for null.</summary>
    public static IEnumerable<Wire.FindingValue> ToContract(this Phrase? phrase) => phrase?.Values.SelectMany(Translate) ?? [];

    private static IEnumerable<Wire.FindingValue> Translate(object value) => value switch
    {
        Phrase inner => inner.ToContract(),
        VoltageBand band => [Amount(band.Minimum.Millivolts, "mV"), Amount(band.Maximum.Millivolts, "mV")],
        Voltage voltage => [Amount(voltage.Millivolts, "mV")],
        Current current => [Amount(current.Milliamperes, "mA")],
        Power power => [Amount(power.Milliwatts, "mW")],
        Energy energy => [Amount(energy.MilliwattHours, "mWh")],
        Duration duration => [Amount(duration.Microseconds, "us")],
        Quantity quantity => [Amount(quantity.Value, UnitOf(quantity.Unit))],
        int number => [Amount(number, "")],
        long number => [Amount(number, "")],
        HexNumber bits => [Amount(bits.Value, "")],
        Name name => [Named(name.Text)],
        MessageKind kind => [Named(kind.Name)],
        SopKind sop => [Named(sop.ToText())],
        PowerObjectKind kind => [Named(kind.ToText())],
        Editions editions => [Named(editions.ToText())],
        _ => throw new UnreachableException($"A phrase cannot hold {value.GetType()}."),
    };

    /// <summary>The unit as reports name it.</summary>
    public static string UnitOf(QuantityUnit unit) => unit switch
    {
        QuantityUnit.Microvolts => "uV",
        QuantityUnit.Microamperes => "uA",
        QuantityUnit.Milliwatts => "mW",
        QuantityUnit.MicroampereHours => "uAh",
        QuantityUnit.MilliampereHours => "mAh",
        QuantityUnit.MicrowattHours => "uWh",
        QuantityUnit.MilliwattHours => "mWh",
        QuantityUnit.Millidegrees => "mdegC",
        QuantityUnit.Microohms => "uOhm",
        _ => "ppm",
    };

    private static Wire.FindingValue Amount(long amount, string unit) => new() { Amount = amount, Unit = unit };

    private static Wire.FindingValue Named(string name) => new() { Name = name };
}
