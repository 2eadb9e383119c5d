namespace Portwitness.PowerDelivery.Framing;

/// <summary>Numbers spread evenly by chance; the same seed gives the same ones on every machine.</summary>
/// <remarks>SplitMix64, written out because the runtime does not promise its own generator to stay the same.</remarks>
public sealed class SeededNumbers(ulong seed)
{
    private ulong _state = seed;

    /// <summary>The next number.</summary>
    /// <param name="least">The least that it can be.</param>
    /// <param name="most">The most, not less than <paramref name="least"/>; less than 2^63 above it.</param>
    public long Next(long least, long most)
    {
        unchecked
        {
            ulong mixed = _state += 0x9E3779B97F4A7C15;
            mixed = (mixed ^ (mixed >> 30)) * 0xBF58476D1CE4E5B9;
            mixed = (mixed ^ (mixed >> 27)) * 0x94D049BB133111EB;
            return least + (long)((mixed ^ (mixed >> 31)) % ((ulong)(most - least) + 1));
        }
    }
}
