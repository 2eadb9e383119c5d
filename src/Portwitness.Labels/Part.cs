namespace Portwitness.Labels;

/// <summary>
/// What a part of a compound word, or a word of a heading of several words, adds to the meaning of the whole. In Words/*.parts each has the
/// same name, in lower case with hyphens.
/// </summary>
[Flags]
internal enum Part : ulong
{
    None,
    Input = 1UL << 0,
    Output = 1UL << 1,
    Charge = 1UL << 2,
    Power = 1UL << 3,
    Voltage = 1UL << 4,
    Current = 1UL << 5,
    Frequency = 1UL << 6,
    Port = 1UL << 7,
    Capacity = 1UL << 8,
    Energy = 1UL << 9,
    Total = 1UL << 10,
    Maximum = 1UL << 11,
    Rated = 1UL << 12,
    Usable = 1UL << 13,
    Average = 1UL << 14,
    Use = 1UL << 15,
    Efficiency = 1UL << 16,
    NoLoad = 1UL << 17,
    LowLoad = 1UL << 18,
    Conversion = 1UL << 19,
    Battery = 1UL << 20,

    /// <summary>"Content", "pack": changes no meaning.</summary>
    Value = 1UL << 21,
    Wireless = 1UL << 22,

    /// <summary>The surface of a wireless charger.</summary>
    Pad = 1UL << 23,
    Alone = 1UL << 24,
    Two = 1UL << 25,
    Three = 1UL << 26,
    Four = 1UL << 27,
    Together = 1UL << 28,
    Cable = 1UL << 29,

    /// <summary>"Consumption": of nothing that a port gives.</summary>
    Consumption = 1UL << 30,

    /// <summary>"Of", "in", "the".</summary>
    Link = 1UL << 31,

    /// <summary>"Mains", which is always an input's unless an output is named.</summary>
    Mains = 1UL << 32,

    /// <summary>"Spiral", "flat": of a cable.</summary>
    Coil = 1UL << 33,
}
