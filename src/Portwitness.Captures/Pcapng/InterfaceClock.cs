namespace Portwitness.Captures.Pcapng;

/// <summary>Turns the time stamps of one interface into microseconds since 1970 (if_tsresol and if_tsoffset).</summary>
/// <remarks>What is finer than a microsecond is cut off; records have whole microseconds.</remarks>
internal readonly struct InterfaceClock
{
    private const int MicrosecondDigits = 6;
    private const long MicrosecondsPerSecond = 1_000_000;

    // 10^19 is the largest power of ten in 64 bits.
    private const int MaxDigits = 19;

    // Far beyond any date, and far enough from the ends of 64 bits to be added to another time.
    private const long MaxMicroseconds = 1L << 61;

    private readonly ulong _factor;
    private readonly ulong _divisor;
    private readonly int _shift;
    private readonly Int128 _offset;

    /// <summary>A clock.</summary>
    /// <param name="resolution">The option's byte: a negative power of 10, or of 2 when the highest bit is set.</param>
    /// <param name="offsetSeconds">Seconds that are added to every stamp.</param>
    public InterfaceClock(byte resolution, long offsetSeconds)
    {
        int power = resolution & 0x7F;
        bool binary = (resolution & 0x80) != 0;
        int finer = Math.Min(power - MicrosecondDigits, MaxDigits);
        _factor = binary ? MicrosecondsPerSecond : finer < 0 ? PowerOfTen(-finer) : 1;
        _divisor = !binary && finer > 0 ? PowerOfTen(finer) : 1;
        _shift = binary ? power : 0;
        _offset = (Int128)offsetSeconds * MicrosecondsPerSecond;
        ResolutionUs = binary ? (MicrosecondsPerSecond >> Math.Min(power, 62)) is var us && us > 0 ? (int)us : 1 : (int)_factor;
    }

    /// <summary>The step of the stamps in microseconds; 1 when they are as fine, or finer.</summary>
    public int ResolutionUs { get; }

    /// <summary>The time of a stamp; false when it is beyond any date.</summary>
    public bool TryRead(ulong stamp, out long microseconds)
    {
        if (_factor == 1 && _shift == 0 && _offset == 0)
        {
            stamp = _divisor == 1 ? stamp : stamp / _divisor;
            microseconds = (long)Math.Min(stamp, MaxMicroseconds);
            return stamp < MaxMicroseconds;
        }

        Int128 time = (Int128)(((UInt128)stamp * _factor) >> _shift) / _divisor + _offset;
        microseconds = (long)Int128.Clamp(time, -MaxMicroseconds, MaxMicroseconds);
        return time == microseconds;
    }

    private static ulong PowerOfTen(int power)
    {
        ulong value = 1;
        for (int digit = 0; digit < power; digit++)
        {
            value *= 10;
        }

        return value;
    }
}
