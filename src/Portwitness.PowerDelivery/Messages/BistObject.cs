using Portwitness.PowerDelivery.Layout;

namespace Portwitness.PowerDelivery.Messages;

/// <summary>The first object of a BIST message, BDO (R3.2v1.1, Table 6.27). Any word is kept.</summary>
/// <param name="Raw">The word.</param>
public readonly record struct BistObject(uint Raw)
{
    private static readonly BitField ModeField = new BitField("BIST Mode", 31, 28).Codes(
        (5, "BIST Carrier Mode"), (8, "BIST Test Data"), (9, "BIST Shared Test Mode Entry"),
        (10, "BIST Shared Test Mode Exit"));


    /// <summary>All 32 bits.</summary>
    public static BitLayout Layout { get; } =
        new("BIST Data Object", 32, "R3.2v1.1 Table 6.27", ModeField, BitField.Reserved(27, 0));

    /// <summary>BIST Mode, 0 to 15.</summary>
    public int ModeCode => (int)ModeField.Get(Raw);

    /// <summary>The standard's name of the mode; "reserved (0)" for others.</summary>
    public string ModeName => ModeField.Describe(Raw);

    /// <summary>Builds the object.</summary>
    /// <exception cref="ArgumentOutOfRangeException">The code is not 0 to 15.</exception>
    public static BistObject Create(int modeCode) => new(ModeField.SetScaled(0, modeCode));
}
