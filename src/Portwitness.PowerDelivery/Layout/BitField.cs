using System.Runtime.CompilerServices;

namespace Portwitness.PowerDelivery.Layout;

/// <summary>What one step of a field is worth.</summary>
public enum FieldUnit
{
    /// <summary>A bare number or code.</summary>
    None,

    /// <summary>One bit: yes or no.</summary>
    Flag,

    /// <summary>Millivolts a step.</summary>
    Millivolts,

    /// <summary>Milliamperes a step.</summary>
    Milliamperes,

    /// <summary>Milliwatts a step.</summary>
    Milliwatts,

    /// <summary>Milliwatt-hours a step.</summary>
    MilliwattHours,

    /// <summary>Milliseconds a step.</summary>
    Milliseconds,

    /// <summary>Percent a step.</summary>
    Percent,

    /// <summary>Degrees Celsius a step.</summary>
    DegreesCelsius,
}

/// <summary>One run of bits of a word, described once: name as in the standard, place, and worth of a step.</summary>
/// <param name="Name">The standard's name; reserved bits are named "Reserved".</param>
/// <param name="High">Highest bit, counted from 0.</param>
/// <param name="Low">Lowest bit, counted from 0, not above <paramref name="High"/>.</param>
/// <param name="Unit">What a step is worth.</param>
/// <param name="Scale">How many of the unit a step is.</param>
/// <param name="IsReserved">Whether the standard reserves these bits; they are sent as zero.</param>
public readonly record struct BitField(
    string Name, int High, int Low, FieldUnit Unit = FieldUnit.None, int Scale = 1, bool IsReserved = false)
{
    /// <summary>Number of bits, 1 to 32.</summary>
    public int Width => High - Low + 1;

    /// <summary>The field's bits within the word.</summary>
    public uint Mask
    {
        // Read several times for each message; a call costs more than the work.
        [MethodImpl(MethodImplOptions.AggressiveInlining)]
        get => (uint.MaxValue >> (31 - High + Low)) << Low;
    }

    /// <summary>The largest raw value.</summary>
    public uint Maximum => (uint)((1UL << Width) - 1);

    /// <summary>Raw value to words; null when number and unit say it.</summary>
    internal Func<uint, string?>? Meaning { get; init; }

    /// <summary>The same for a meaning that depends on the rest of the word: the whole word, and the raw value.</summary>
    internal Func<uint, uint, string?>? MeaningInWord { get; init; }

    /// <summary>A reserved run of bits.</summary>
    public static BitField Reserved(int high, int low) => new("Reserved", high, low, IsReserved: true);

    /// <summary>A single yes-or-no bit.</summary>
    public static BitField Flag(string name, int bit) => new(name, bit, bit, FieldUnit.Flag);

    /// <summary>The field's raw value in a word.</summary>
    [MethodImpl(MethodImplOptions.AggressiveInlining)]
    public uint Get(uint word) => (word & Mask) >> Low;

    /// <summary>Whether any of the field's bits is set.</summary>
    [MethodImpl(MethodImplOptions.AggressiveInlining)]
    public bool IsSet(uint word) => (word & Mask) != 0;

    /// <summary>The field's value in its unit: raw value times <see cref="Scale"/>. For fields that fit an int.</summary>
    public int GetScaled(uint word) => (int)Get(word) * Scale;

    /// <summary>The word with this field replaced by a raw value.</summary>
    /// <exception cref="ArgumentOutOfRangeException">The value does not fit the field.</exception>
    public uint Set(uint word, uint value) => value > Maximum
        ? throw new ArgumentOutOfRangeException(nameof(value), value, $"{Name} holds 0 to {Maximum}.")
        : (word & ~Mask) | (value << Low);

    /// <summary>The word with this field replaced by a value in its unit.</summary>
    /// <exception cref="ArgumentOutOfRangeException">The value does not fit, or is not a whole number of steps.</exception>
    public uint SetScaled(uint word, int value) => value < 0 || value % Scale != 0
        ? throw new ArgumentOutOfRangeException(nameof(value), value, $"{Name} is coded in steps of {Scale} from 0.")
        : Set(word, (uint)(value / Scale));

    /// <summary>The word with this one-bit field set or cleared.</summary>
    /// <exception cref="ArgumentException">The field is wider than one bit.</exception>
    public uint SetFlag(uint word, bool value) => Width != 1
        ? throw new ArgumentException($"{Name} is {Width} bits wide, not one.", nameof(value))
        : value ? word | Mask : word & ~Mask;

    /// <summary>The same field with the names of its codes; of a field without a unit, other codes are "reserved (n)".</summary>
    public BitField Codes(params (uint Code, string Name)[] names)
    {
        bool hasUnit = Unit != FieldUnit.None;
        return Means(raw =>
        {
            foreach ((uint code, string name) in names)
            {
                if (code == raw)
                {
                    return name;
                }
            }

            return hasUnit ? null : $"reserved ({raw})";
        });
    }

    /// <summary>The same field with words for its raw value; null leaves it to number and unit.</summary>
    public BitField Means(Func<uint, string?> meaning) => this with { Meaning = meaning };

    /// <summary>The same field with words that the rest of the word decides: whole word and raw value to words.</summary>
    public BitField Means(Func<uint, uint, string?> meaning) => this with { MeaningInWord = meaning };

    /// <summary>
    /// The field's value in words: the name of its code, "20 V (400 x 50 mV)", "yes", a number; "reserved" for reserved bits.
    /// </summary>
    /// <param name="word">The word that holds the field.</param>
    /// <param name="known">Bits of the word that were shown; a meaning that other bits decide needs all of them.</param>
    public string Describe(uint word, uint known = uint.MaxValue)
    {
        uint raw = Get(word);
        return IsReserved
            ? "reserved"
            : Meaning?.Invoke(raw) ?? (known == uint.MaxValue ? MeaningInWord?.Invoke(word, raw) : null) ?? UnitText.Of(this, raw);
    }
}
