namespace Portwitness.PowerDelivery.VendorDefined;

/// <summary>Fields in which each bit stands for something of its own.</summary>
internal static class CapabilityBits
{
    /// <summary>The names of the set bits, lowest first; a bit without a name is "reserved bit n".</summary>
    internal static string Read(uint bits, params string[] names)
    {
        List<string> set = [];
        for (int bit = 0; bits >> bit != 0; bit++)
        {
            if ((bits & (1u << bit)) != 0)
            {
                set.Add(bit < names.Length ? names[bit] : $"reserved bit {bit}");
            }
        }

        return set.Count == 0 ? "none" : string.Join(", ", set);
    }
}
