using System.Diagnostics;
using System.Globalization;
using System.Text;
using Portwitness.PowerDelivery.Framing;
using Portwitness.PowerDelivery.Headers;
using Portwitness.PowerDelivery.Limits;
using Portwitness.PowerDelivery.PowerData;
using Portwitness.PowerDelivery.Units;

namespace Portwitness.Analysis.Phrases;

/// <summary>Phrases in English. Values are printed the same wherever the program runs.</summary>
public static class PhraseText
{
    private const string Thousandths = "0.###";
    private const string Tenths = "0.#";

    /// <summary>The phrase in English; empty for none.</summary>
    public static string Of(Phrase? phrase)
    {
        if (phrase is null || phrase.IsEmpty)
        {
            return "";
        }

        if (phrase.Parts is [string words])
        {
            return words;
        }

        StringBuilder text = new();
        Write(phrase, text);
        return text.ToString();
    }

    private static void Write(Phrase phrase, StringBuilder text)
    {
        foreach (object part in phrase.Parts)
        {
            if (part is Phrase inner)
            {
                Write(inner, text);
            }
            else
            {
                text.Append(part as string ?? Of(part));
            }
        }
    }

    private static string Of(object value) => value switch
    {
        Name name => name.Text,
        int number => number.ToString(CultureInfo.InvariantCulture),
        long number => number.ToString(CultureInfo.InvariantCulture),
        HexNumber hex => hex.Value.ToString("X" + hex.Digits.ToString(CultureInfo.InvariantCulture), CultureInfo.InvariantCulture),
        Voltage or VoltageBand or Current or Power or PowerDelivery.Units.Energy => value.ToString()!,
        Duration duration => Of(duration),
        Quantity quantity => Of(quantity),
        MessageKind kind => kind.Name,
        SopKind sop => sop.ToText(),
        PowerObjectKind kind => kind.ToText(),
        Editions editions => editions.ToText(),
        _ => throw new UnreachableException($"A phrase cannot hold {value.GetType()}."),
    };

    private static string Of(Duration duration)
    {
        long us = duration.Microseconds;
        return duration.Form switch
        {
            DurationForm.Limit => us < 10_000 ? Number(us, "0", "us")
                : us < 10_000_000 ? Number(us / 1000m, Tenths, "ms")
                : Number(us / 1_000_000m, "0.##", "s"),
            DurationForm.Milliseconds => Number((us + 500) / 1000, "0", "ms"),
            DurationForm.Moment => Number(us / 1_000_000m, "0.000", "s"),
            DurationForm.Offer => us < 1_000_000 ? Number((us + 500) / 1000, "0", "ms")
                : us < 60_000_000 ? Number(us / 100_000 / 10m, Tenths, "s")
                : us < 3_600_000_000 ? $"{Number(us / 60_000_000, "0", "min")} {Number(us / 1_000_000 % 60, "0", "s")}"
                : $"{Number(us / 3_600_000_000, "0", "h")} {Number(us / 60_000_000 % 60, "0", "min")}",
            DurationForm.Log => us < 1_000_000 ? Number(us / 1000m, Tenths, "ms")
                : us < 60_000_000 ? Number(us / 1_000_000m, Tenths, "s")
                : OfSeconds((us + 500_000) / 1_000_000),
            _ => us < 1_000_000 ? Number(us / 1000m, Thousandths, "ms") : Number(us / 1_000_000m, Thousandths, "s"),
        };
    }

    private static string OfSeconds(long seconds) =>
        (seconds >= 3600 ? Number(seconds / 3600, "0", "h") + " " : "") + Number(seconds / 60 % 60, "0", "min") + " " + Number(seconds % 60, "0", "s");

    private static string Of(Quantity quantity) => quantity.Unit switch
    {
        QuantityUnit.Microvolts => Number(quantity.Value / 1_000_000m, Thousandths, "V"),
        QuantityUnit.Microamperes => Number(quantity.Value / 1_000_000m, Thousandths, "A"),
        QuantityUnit.Milliwatts => Number(quantity.Value / 1000m, Thousandths, "W"),
        QuantityUnit.MicroampereHours => Number(quantity.Value / 1000m, Tenths, "mAh"),
        QuantityUnit.MilliampereHours => Number(quantity.Value, "0", "mAh"),
        QuantityUnit.MicrowattHours => Number(quantity.Value / 1_000_000m, Thousandths, "Wh"),
        QuantityUnit.MilliwattHours => Number(quantity.Value / 1000m, Thousandths, "Wh"),
        QuantityUnit.PartsPerMillionOfLimit => Number(quantity.Value / 10_000m, "0.##", "%"),
        QuantityUnit.Microohms => Number(quantity.Value / 1000m, Tenths, "mΩ"),
        QuantityUnit.Millidegrees => Number(quantity.Value / 1000m, "0.#", "°C"),
        QuantityUnit.PartsPerMillionExactly => Number(quantity.Value / 10_000m, "0.####", "%"),
        _ => Number(quantity.Value / 10_000m, Tenths, "%"),
    };

    private static string Number(decimal value, string format, string unit) => value.ToString(format, CultureInfo.InvariantCulture) + " " + unit;
}
