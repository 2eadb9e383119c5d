using System.Globalization;

namespace Portwitness.PowerDelivery.Units;

/// <summary>An electric current, a whole number of milliamperes. Negative values are differences.</summary>
/// <remarks>Range: that of <see cref="int"/>. <c>default</c> is zero. Immutable, safe between threads.</remarks>
public readonly record struct Current : IComparable<Current>
{
    private Current(int value) => Milliamperes = value;

    /// <summary>The value in milliamperes.</summary>
    public int Milliamperes { get; }

    /// <summary>Zero.</summary>
    public static Current Zero => default;

    /// <summary>From a whole number of milliamperes.</summary>
    public static Current FromMilliamperes(int value) => new(value);

    /// <inheritdoc/>
    public int CompareTo(Current other) => Milliamperes.CompareTo(other.Milliamperes);

    /// <summary>In amperes with at least no and at most three decimals, for example "3.25 A".</summary>
    public override string ToString() =>
        string.Create(CultureInfo.InvariantCulture, $"{Milliamperes / 1000m:0.###} A");

    /// <summary>Sum; overflow throws <see cref="OverflowException"/>.</summary>
    public static Current operator +(Current left, Current right) => new(checked(left.Milliamperes + right.Milliamperes));

    /// <summary>Difference; overflow throws <see cref="OverflowException"/>.</summary>
    public static Current operator -(Current left, Current right) => new(checked(left.Milliamperes - right.Milliamperes));

    /// <summary>Whether the left value is smaller.</summary>
    public static bool operator <(Current left, Current right) => left.Milliamperes < right.Milliamperes;

    /// <summary>Whether the left value is larger.</summary>
    public static bool operator >(Current left, Current right) => left.Milliamperes > right.Milliamperes;

    /// <summary>Whether the left value is not larger.</summary>
    public static bool operator <=(Current left, Current right) => left.Milliamperes <= right.Milliamperes;

    /// <summary>Whether the left value is not smaller.</summary>
    public static bool operator >=(Current left, Current right) => left.Milliamperes >= right.Milliamperes;
}
