
namespace Portwitness.Analysis.Phrases;

/// <summary>Something that a finding can name, and that says itself.</summary>
public interface IPhrased
{
    /// <summary>What it says.</summary>
    Phrase ToPhrase();
}

/// <summary>What is said as it is, in any language: a port, a file, a parameter of the standard, printed words.</summary>
/// <param name="Text">The words.</param>
public readonly record struct Name(string Text);

/// <summary>A word of bits.</summary>
/// <param name="Value">The bits.</param>
/// <param name="Digits">Hexadecimal digits that are shown.</param>
public readonly record struct HexNumber(uint Value, int Digits);

/// <summary>How exactly a time is told.</summary>
public enum DurationForm
{
    /// <summary>Of samples: "12.345 ms", "1.234 s".</summary>
    Exact,

    /// <summary>Of a limit, and of what exceeds it: "195 us", "27.5 ms", "12.25 s".</summary>
    Limit,

    /// <summary>Whole milliseconds: "212 ms".</summary>
    Milliseconds,

    /// <summary>A moment: "4.753 s".</summary>
    Moment,

    /// <summary>As long as an offer stood: "502 ms", "12.5 s", "10 min 2 s", "3 h 5 min".</summary>
    Offer,

    /// <summary>Of a log: "18.7 ms", "5.2 s", "12 min 5 s", "1 h 12 min 5 s".</summary>
    Log,
}

/// <summary>A time.</summary>
/// <param name="Microseconds">In µs.</param>
/// <param name="Form">How exactly it is told.</param>
public readonly record struct Duration(long Microseconds, DurationForm Form);

/// <summary>What a <see cref="Quantity"/> counts.</summary>
public enum QuantityUnit
{
    /// <summary>µV, told as V.</summary>
    Microvolts,

    /// <summary>µA, told as A.</summary>
    Microamperes,

    /// <summary>mW beyond the range of a printed power, told as W.</summary>
    Milliwatts,

    /// <summary>µAh, told as mAh.</summary>
    MicroampereHours,

    /// <summary>mAh.</summary>
    MilliampereHours,

    /// <summary>µWh, told as Wh.</summary>
    MicrowattHours,

    /// <summary>mWh beyond the range of a printed energy, told as Wh.</summary>
    MilliwattHours,

    /// <summary>Millionths, told as per cent with a decimal.</summary>
    PartsPerMillion,

    /// <summary>Millionths, told as per cent with the two decimals of the tables of limits.</summary>
    PartsPerMillionOfLimit,

    /// <summary>Millionths, told as per cent to the last of them: an accuracy.</summary>
    PartsPerMillionExactly,

    /// <summary>Thousandths of a °C, told as °C.</summary>
    Millidegrees,

    /// <summary>µΩ, told as mΩ.</summary>
    Microohms,
}

/// <summary>A measured or derived amount that is finer, or may be larger, than the units of the standard.</summary>
/// <param name="Value">The amount, in the unit.</param>
/// <param name="Unit">The unit.</param>
public readonly record struct Quantity(long Value, QuantityUnit Unit);
