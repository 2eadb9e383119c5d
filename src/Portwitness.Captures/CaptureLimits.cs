using Portwitness.Text;

namespace Portwitness.Captures;

/// <summary>Bounds of the capture format, version 1.</summary>
public static class CaptureLimits
{
    /// <summary>Fewest bytes of a message: the header (R3.2v1.1, 6.2.1.1).</summary>
    public const int MinimumMessageBytes = 2;

    /// <summary>
    /// Most bytes of a message that are read. The longest that the standard knows is 264: header, extended header and
    /// MaxExtendedMsgLen of 260 (R3.2v1.1, 6.2.1.2); the rest is room for what a faulty sender sends.
    /// </summary>
    public const int MaximumMessageBytes = 1024;

    /// <summary>Latest time, in microseconds: 2^53 - 1, the largest whole number that every JSON reader keeps.</summary>
    public const long MaximumTimeUs = (1L << 53) - 1;

    /// <summary>Largest measured value, in mV or mA, of either sign.</summary>
    public const int MaximumMeasurement = AmountWords.MaxThousandths;

    /// <summary>Longest line, in bytes, its end not counted.</summary>
    public const int MaximumLineBytes = 64 * 1024;
}
