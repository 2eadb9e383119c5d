namespace Portwitness.PowerDelivery.Framing;

/// <summary>What five bits on the line stand for (R3.2v1.1, 5.3).</summary>
public enum SymbolKind
{
    /// <summary>Not in the table.</summary>
    Invalid,

    /// <summary>Four bits of data.</summary>
    Data,

    /// <summary>Starts ordered sets.</summary>
    Sync1,

    /// <summary>Ends the ordered set of SOP.</summary>
    Sync2,

    /// <summary>In ordered sets of cable plugs.</summary>
    Sync3,

    /// <summary>In ordered sets of resets.</summary>
    Rst1,

    /// <summary>Ends a hard reset.</summary>
    Rst2,

    /// <summary>End of packet.</summary>
    Eop,
}

/// <summary>One decoded symbol.</summary>
/// <param name="Kind">Data, which K-code, or invalid.</param>
/// <param name="Nibble">The four bits of data, 0 to 15; zero for other kinds.</param>
public readonly record struct Symbol(SymbolKind Kind, int Nibble = 0);

/// <summary>The 4b5b table (R3.2v1.1, 5.3). Codes are written with bit 4 first; bit 0 is sent first.</summary>
public static class SymbolCode
{
    private static readonly byte[] DataCodes =
    [
        0b11110, 0b01001, 0b10100, 0b10101, 0b01010, 0b01011, 0b01110, 0b01111,
        0b10010, 0b10011, 0b10110, 0b10111, 0b11010, 0b11011, 0b11100, 0b11101,
    ];

    private static readonly (SymbolKind Kind, byte Code)[] KCodes =
    [
        (SymbolKind.Sync1, 0b11000), (SymbolKind.Sync2, 0b10001), (SymbolKind.Sync3, 0b00110),
        (SymbolKind.Rst1, 0b00111), (SymbolKind.Rst2, 0b11001), (SymbolKind.Eop, 0b01101),
    ];

    private static readonly Symbol[] Symbols = Invert();

    /// <summary>The five bits of a nibble.</summary>
    /// <exception cref="ArgumentOutOfRangeException">Not 0 to 15.</exception>
    public static byte Encode(int nibble) => (uint)nibble < (uint)DataCodes.Length
        ? DataCodes[nibble]
        : throw new ArgumentOutOfRangeException(nameof(nibble), nibble, "A nibble is 0 to 15.");

    /// <summary>The five bits of a K-code.</summary>
    /// <exception cref="ArgumentOutOfRangeException">Data and invalid have no single code.</exception>
    public static byte Encode(SymbolKind kind)
    {
        foreach ((SymbolKind candidate, byte code) in KCodes)
        {
            if (candidate == kind)
            {
                return code;
            }
        }

        throw new ArgumentOutOfRangeException(nameof(kind), kind, "Not a K-code.");
    }

    /// <summary>What five bits stand for; ten of the 32 patterns are invalid.</summary>
    /// <exception cref="ArgumentOutOfRangeException">Not 0 to 31.</exception>
    public static Symbol Decode(int fiveBits) => (uint)fiveBits < (uint)Symbols.Length
        ? Symbols[fiveBits]
        : throw new ArgumentOutOfRangeException(nameof(fiveBits), fiveBits, "Five bits are 0 to 31.");

    private static Symbol[] Invert()
    {
        Symbol[] symbols = new Symbol[32];
        for (int nibble = 0; nibble < DataCodes.Length; nibble++)
        {
            symbols[DataCodes[nibble]] = new Symbol(SymbolKind.Data, nibble);
        }

        foreach ((SymbolKind kind, byte code) in KCodes)
        {
            symbols[code] = new Symbol(kind);
        }

        return symbols;
    }
}
