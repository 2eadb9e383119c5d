namespace Portwitness.Analysis.Synthesis;

/// <summary>Makes gaps longer by an even spread of 0 to a largest time; the same seed gives the same times on every machine.</summary>
/// <remarks>SplitMix64, written out because the runtime does not promise its own generator to stay the same.</remarks>
internal sealed class Jitter(int mostUs, ulong seed)
{
    private ulong _state = seed;

    /// <summary>The next addition, in microseconds.</summary>
    public long NextUs()
    {
        if (mostUs == 0)
        {
            return 0;
        }

        unchecked
        {
            ulong mixed = _state += 0x9E3779B97F4A7C15;
            mixed = (mixed ^ (mixed >> 30)) * 0xBF58476D1CE4E5B9;
            mixed = (mixed ^ (mixed >> 27)) * 0x94D049BB133111EB;
            return (long)((mixed ^ (mixed >> 31)) % ((ulong)mostUs + 1));
        }
    }
}
