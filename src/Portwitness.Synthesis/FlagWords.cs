using Portwitness.PowerDelivery.Layout;

namespace Portwitness.Synthesis;

/// <summary>Flags that are written as words behind an offer or a request.</summary>
internal static class FlagWords
{
    /// <summary>Sets the bit of each flag that comes next.</summary>
    public static uint Take(ScriptWords words, IReadOnlyList<(string Word, BitField Flag)> flags, uint encoded)
    {
        for (int i = 0; i < flags.Count;)
        {
            if (words.Take(flags[i].Word))
            {
                encoded = flags[i].Flag.SetFlag(encoded, true);
                i = 0;
            }
            else
            {
                i++;
            }
        }

        return encoded;
    }
}
