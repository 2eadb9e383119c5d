using System.Globalization;

namespace Portwitness.PowerDelivery.Units;

/// <summary>An energy, a whole number of milliwatt-hours. Negative values are differences.</summary>
/// <remarks>Range: that of <see cref="int"/>. <c>default</c> is zero. Immutable, safe between threads.</remarks>
public readonly record struct Energy : IComparable<Energy>
{
    private Energy(int value) => MilliwattHours = value;

    /// <summary>The value in milliwatt-hours.</summary>
    public int MilliwattHours { get; }

    /// <summary>Zero.</summary>
    public static Energy Zero => default;

    /// <summary>From a whole number of milliwatt-hours.</summary>
    public static Energy FromMilliwattHours(int value) => new(value);

    /// <inheritdoc/>
    public int CompareTo(Energy other) => MilliwattHours.CompareTo(other.MilliwattHours);

    /// <summary>In watt-hours with at least no and at most three decimals, for example "74 Wh".</summary>
    public override string ToString() =>
        string.Create(CultureInfo.InvariantCulture, $"{MilliwattHours / 1000m:0.###} Wh");

    /// <summary>Sum; overflow throws <see cref="OverflowException"/>.</summary>
    public static Energy operator +(Energy left, Energy right) => new(checked(left.MilliwattHours + right.MilliwattHours));

    /// <summary>Difference; overflow throws <see cref="OverflowException"/>.</summary>
    public static Energy operator -(Energy left, Energy right) => new(checked(left.MilliwattHours - right.MilliwattHours));

    /// <summary>Whether the left value is smaller.</summary>
    public static bool operator <(Energy left, Energy right) => left.MilliwattHours < right.MilliwattHours;

    /// <summary>Whether the left value is larger.</summary>
    public static bool operator >(Energy left, Energy right) => left.MilliwattHours > right.MilliwattHours;

    /// <summary>Whether the left value is not larger.</summary>
    public static bool operator <=(Energy left, Energy right) => left.MilliwattHours <= right.MilliwattHours;

    /// <summary>Whether the left value is not smaller.</summary>
    public static bool operator >=(Energy left, Energy right) => left.MilliwattHours >= right.MilliwattHours;
}
