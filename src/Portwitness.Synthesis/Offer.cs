using Portwitness.PowerDelivery.PowerData;
using Portwitness.PowerDelivery.Units;
using Portwitness.Text;

namespace Portwitness.Synthesis;

/// <summary>One offer of a script, taken apart; what the kind does not have is zero.</summary>
/// <param name="Text">As written.</param>
/// <param name="Kind">The kind of object.</param>
/// <param name="Minimum">Lowest voltage; of a fixed offer, its voltage.</param>
/// <param name="Maximum">Highest voltage.</param>
/// <param name="Current">Current; of SPR AVS, that up to 15 V.</param>
/// <param name="Current20V">Of SPR AVS, that up to 20 V.</param>
/// <param name="Power">Power of a battery, PDP of EPR AVS.</param>
internal sealed record Offer(
    string Text, PowerObjectKind Kind, Voltage Minimum, Voltage Maximum, Current Current, Current Current20V, Power Power)
{
    private const string VoltsExpected = "a range such as 5-21V";
    private const string AmperesExpected = "a current such as 3.25A";
    private const string WattsExpected = "a power such as 60W";

    /// <summary>Reads everything but flags, which are left in the words.</summary>
    public static Offer Read(ScriptWords words)
    {
        if (words.Take("PPS"))
        {
            return Ranged(words, PowerObjectKind.Pps);
        }

        if (words.Take("SPR"))
        {
            return SprAvs(words);
        }

        if (words.Take("EPR"))
        {
            ExpectAvs(words);
            return Ranged(words, PowerObjectKind.EprAvs);
        }

        return words.Take("variable") ? Ranged(words, PowerObjectKind.Variable)
            : words.Take("battery") ? Ranged(words, PowerObjectKind.Battery)
            : Fixed(words);
    }

    private static Offer Fixed(ScriptWords words)
    {
        Voltage voltage = Voltage.FromMillivolts(words.Expect(
            AmountWords.Millivolts, "an offer such as 9V 3A, PPS 5-21V 3A, SPR AVS 3A/3A, EPR AVS 15-28V 140W, variable, battery or 0x0002D12C"));
        Current current = Current.FromMilliamperes(words.Expect(AmountWords.Milliamperes, AmperesExpected));
        return new Offer(words.Text, PowerObjectKind.Fixed, voltage, voltage, current, default, default);
    }

    private static Offer Ranged(ScriptWords words, PowerObjectKind kind)
    {
        (int minimum, int maximum) = words.Expect(AmountWords.MillivoltRange, VoltsExpected);
        bool byPower = kind is PowerObjectKind.Battery or PowerObjectKind.EprAvs;
        Power power = byPower ? Power.FromMilliwatts(words.Expect(AmountWords.Milliwatts, WattsExpected)) : default;
        Current current = byPower ? default : Current.FromMilliamperes(words.Expect(AmountWords.Milliamperes, AmperesExpected));
        return new Offer(
            words.Text, kind, Voltage.FromMillivolts(minimum), Voltage.FromMillivolts(maximum), current, default, power);
    }

    private static Offer SprAvs(ScriptWords words)
    {
        ExpectAvs(words);
        (int to15V, int? to20V) = words.Expect(AmountWords.MilliamperePair, "currents such as 3A/3.25A, or 3A for 9 to 15 V alone");
        return new Offer(
            words.Text, PowerObjectKind.SprAvs, default, default,
            Current.FromMilliamperes(to15V), Current.FromMilliamperes(to20V ?? 0), default);
    }

    private static void ExpectAvs(ScriptWords words)
    {
        if (!words.Take("AVS"))
        {
            throw ScriptFault.Value($"\"AVS\" was expected after SPR or EPR in \"{words.Text}\"");
        }
    }
}
