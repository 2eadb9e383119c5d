using System.Globalization;

namespace Portwitness.PowerDelivery.Units;

/// <summary>A power, a whole number of milliwatts. Negative values are differences.</summary>
/// <remarks>Range: that of <see cref="int"/>. <c>default</c> is zero. Immutable, safe between threads.</remarks>
public readonly record struct Power : IComparable<Power>
{
    private Power(int value) => Milliwatts = value;

    /// <summary>The value in milliwatts.</summary>
    public int Milliwatts { get; }

    /// <summary>Zero.</summary>
    public static Power Zero => default;

    /// <summary>From a whole number of milliwatts.</summary>
    public static Power FromMilliwatts(int value) => new(value);

    /// <inheritdoc/>
    public int CompareTo(Power other) => Milliwatts.CompareTo(other.Milliwatts);

    /// <summary>In watts with at least no and at most three decimals, for example "65 W".</summary>
    public override string ToString() =>
        string.Create(CultureInfo.InvariantCulture, $"{Milliwatts / 1000m:0.###} W");

    /// <summary>Sum; overflow throws <see cref="OverflowException"/>.</summary>
    public static Power operator +(Power left, Power right) => new(checked(left.Milliwatts + right.Milliwatts));

    /// <summary>Difference; overflow throws <see cref="OverflowException"/>.</summary>
    public static Power operator -(Power left, Power right) => new(checked(left.Milliwatts - right.Milliwatts));

    /// <summary>Whether the left value is smaller.</summary>
    public static bool operator <(Power left, Power right) => left.Milliwatts < right.Milliwatts;

    /// <summary>Whether the left value is larger.</summary>
    public static bool operator >(Power left, Power right) => left.Milliwatts > right.Milliwatts;

    /// <summary>Whether the left value is not larger.</summary>
    public static bool operator <=(Power left, Power right) => left.Milliwatts <= right.Milliwatts;

    /// <summary>Whether the left value is not smaller.</summary>
    public static bool operator >=(Power left, Power right) => left.Milliwatts >= right.Milliwatts;
}
