using System.Globalization;

namespace Portwitness.PowerDelivery.Units;

/// <summary>An electric potential difference, a whole number of millivolts. Negative values are differences.</summary>
/// <remarks>Range: that of <see cref="int"/>. <c>default</c> is zero. Immutable, safe between threads.</remarks>
public readonly record struct Voltage : IComparable<Voltage>
{
    private Voltage(int value) => Millivolts = value;

    /// <summary>The value in millivolts.</summary>
    public int Millivolts { get; }

    /// <summary>Zero.</summary>
    public static Voltage Zero => default;

    /// <summary>From a whole number of millivolts.</summary>
    public static Voltage FromMillivolts(int value) => new(value);

    /// <inheritdoc/>
    public int CompareTo(Voltage other) => Millivolts.CompareTo(other.Millivolts);

    /// <summary>In volts with at least no and at most three decimals, for example "20 V".</summary>
    public override string ToString() =>
        string.Create(CultureInfo.InvariantCulture, $"{Millivolts / 1000m:0.###} V");

    /// <summary>Sum; overflow throws <see cref="OverflowException"/>.</summary>
    public static Voltage operator +(Voltage left, Voltage right) => new(checked(left.Millivolts + right.Millivolts));

    /// <summary>Difference; overflow throws <see cref="OverflowException"/>.</summary>
    public static Voltage operator -(Voltage left, Voltage right) => new(checked(left.Millivolts - right.Millivolts));

    /// <summary>Whether the left value is smaller.</summary>
    public static bool operator <(Voltage left, Voltage right) => left.Millivolts < right.Millivolts;

    /// <summary>Whether the left value is larger.</summary>
    public static bool operator >(Voltage left, Voltage right) => left.Millivolts > right.Millivolts;

    /// <summary>Whether the left value is not larger.</summary>
    public static bool operator <=(Voltage left, Voltage right) => left.Millivolts <= right.Millivolts;

    /// <summary>Whether the left value is not smaller.</summary>
    public static bool operator >=(Voltage left, Voltage right) => left.Millivolts >= right.Millivolts;

    /// <summary>The power at that current, rounded half up to the milliwatt (mV × mA is µW).</summary>
    /// <exception cref="OverflowException">The product is beyond <see cref="Power"/>.</exception>
    public static Power operator *(Voltage voltage, Current current) =>
        Power.FromMilliwatts(checked((int)(((long)voltage.Millivolts * current.Milliamperes + 500) / 1000)));
}
