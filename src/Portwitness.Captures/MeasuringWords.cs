using System.Text;
using Portwitness.Text;

namespace Portwitness.Captures;

/// <summary>Reads where and how well an instrument measures, as options and product files say it.</summary>
public static class MeasuringWords
{
    /// <summary>What a point is called.</summary>
    public const string ExpectedPoint = "source (the port's connector), sink (behind the cable) or tester (between them) was expected";

    /// <summary>What an accuracy looks like.</summary>
    public const string ExpectedAccuracy =
        "an accuracy was expected, for example volts=0.05%+5mV,amps=0.1%+5mA; parts are in %, ppm, mV or V, mA or A";

    /// <summary>Points and their words, those of the capture format too.</summary>
    internal static readonly (string Word, MeasuringPoint Point)[] Points =
        [("source", MeasuringPoint.Source), ("sink", MeasuringPoint.Sink), ("tester", MeasuringPoint.Tester)];

    /// <summary>Reads "source", "sink" or "tester".</summary>
    public static bool TryParsePoint(string text, out MeasuringPoint point)
    {
        point = Array.Find(Points, known => known.Word == text).Point;
        return point != MeasuringPoint.Unknown;
    }

    /// <summary>
    /// Reads "volts=0.05%+5mV,amps=0.1%+5mA"; either may be left out. What lies between two steps is rounded up: an instrument
    /// is never taken to be better than it is.
    /// </summary>
    public static bool TryParseAccuracy(string text, out MeasuringAccuracy? accuracy)
    {
        accuracy = null;
        (int? Offset, int? Ppm) volts = default;
        (int? Offset, int? Ppm) amps = default;
        foreach (string part in text.Split(','))
        {
            string[] pair = part.Split('=', 2, StringSplitOptions.TrimEntries);
            bool isVolts = pair[0] == "volts";
            if (pair.Length < 2 || (!isVolts && pair[0] != "amps") || (isVolts ? volts : amps) != default
                || !TryParseTerms(pair[1], isVolts ? "V" : "A", out (int?, int?) terms))
            {
                return false;
            }

            (volts, amps) = isVolts ? (terms, amps) : (volts, terms);
        }

        accuracy = new MeasuringAccuracy(volts.Offset, volts.Ppm, amps.Offset, amps.Ppm);
        return true;
    }

    private static bool TryParseTerms(string text, string unit, out (int? Offset, int? Ppm) terms)
    {
        terms = default;
        foreach (string term in text.Split('+', StringSplitOptions.TrimEntries))
        {
            int end = term.AsSpan().LastIndexOfAnyInRange('0', '9') + 1;
            string of = term[end..].Trim();
            int? power = of == "%" ? 4
                : of == "ppm" ? 0
                : of == unit ? 3
                : of == "m" + unit ? 0
                : null;
            if (power is null || RoundedUp(term[..end], power.Value) is not { } value)
            {
                return false;
            }

            bool isShare = of is "%" or "ppm";
            if ((isShare ? terms.Ppm : terms.Offset) is not null)
            {
                return false;
            }

            terms = isShare ? (terms.Offset, value) : (value, terms.Ppm);
        }

        return true;
    }

    private static int? RoundedUp(string number, int power)
    {
        const long finer = 1_000_000;
        return DecimalText.TryRead(Encoding.UTF8.GetBytes(number), power + 6, out long value)
            && value is >= 0 and <= MeasuringAccuracy.Maximum * finer
                ? (int)((value + finer - 1) / finer)
                : null;
    }
}
