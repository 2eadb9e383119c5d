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
    public uint Mask => (uint)(((1UL << Width) - 1) << Low);

    /// <summary>The largest raw value.</summary>
    public uint Maximum => (uint)((1UL << Width) - 1);

    /// <summary>A reserved run of bits.</summary>
    public static BitField Reserved(int high, int low) => new("Reserved", high, low, IsReserved: true);

    /// <summary>A single yes-or-no bit.</summary>
    public static BitField Flag(string name, int bit) => new(name, bit, bit, FieldUnit.Flag);

    /// <summary>The field's raw value in a word.</summary>
    public uint Get(uint word) => (word & Mask) >> Low;

    /// <summary>Whether any of the field's bits is set.</summary>
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
}
