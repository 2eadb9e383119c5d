using Portwitness.PowerDelivery.Framing;

namespace Portwitness.Synthesis;

/// <summary>Makes gaps longer by an even spread of 0 to a largest time; the same seed gives the same times on every machine.</summary>
internal sealed class Jitter(int mostUs, ulong seed)
{
    private readonly SeededNumbers _numbers = new(seed);

    /// <summary>The next addition, in microseconds.</summary>
    public long NextUs() => mostUs == 0 ? 0 : _numbers.Next(0, mostUs);
}
