namespace Portwitness.PowerDelivery.Framing;

/// <summary>How long bits take on the line: fBitRate is 270 to 330 kbit/s (R3.2v1.1, 5.8.1).</summary>
public static class BitRate
{
    private const int SlowestKilobits = 270;
    private const int FastestKilobits = 330;

    /// <summary>Shortest time of so many bits, in microseconds, rounded down.</summary>
    public static long LeastUs(int bits) => bits * 1000L / FastestKilobits;

    /// <summary>Longest time of so many bits, in microseconds, rounded up.</summary>
    public static long MostUs(int bits) => ((bits * 1000L) + SlowestKilobits - 1) / SlowestKilobits;
}
