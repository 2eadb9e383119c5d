using Portwitness.PowerDelivery.Layout;
using Portwitness.PowerDelivery.Units;

namespace Portwitness.PowerDelivery.Requests;

/// <summary>Request of a battery supply (R3.2v1.1, Table 6.24).</summary>
/// <param name="Raw">The word.</param>
public readonly record struct BatteryRequest(uint Raw)
{
    /// <summary>Bits 19 to 10, steps of 250 mW.</summary>
    public static readonly BitField OperatingField = new("Operating Power", 19, 10, FieldUnit.Milliwatts, 250);

    /// <summary>Bits 9 to 0, steps of 250 mW.</summary>
    public static readonly BitField MaximumField = new("Maximum Operating Power", 9, 0, FieldUnit.Milliwatts, 250);

    /// <summary>All 32 bits, R3.1 and later.</summary>
    public static BitLayout Layout { get; } = RequestLayouts.Since31(
        "Battery RDO", "R3.2v1.1 Table 6.24", RequestObject.GiveBackField, BitField.Reserved(21, 20),
        OperatingField, MaximumField);

    /// <summary>All 32 bits in R2.0 and R3.0, GiveBack clear.</summary>
    public static BitLayout LayoutBeforeR31 { get; } = RequestLayouts.Before31(
        "Battery RDO, before R3.1", RequestObject.GiveBackField, BitField.Reserved(22, 20), OperatingField, MaximumField);

    /// <summary>All 32 bits in R2.0 and R3.0, GiveBack set.</summary>
    public static BitLayout GiveBackLayout { get; } = RequestLayouts.Before31(
        "Battery RDO with GiveBack", RequestObject.GiveBackField, BitField.Reserved(22, 20),
        OperatingField, MaximumField with { Name = "Minimum Operating Power" });

    /// <summary>Position and flags.</summary>
    public RequestObject Request => new(Raw);

    /// <summary>0 to 255.75 W.</summary>
    public Power OperatingPower => Power.FromMilliwatts(OperatingField.GetScaled(Raw));

    /// <summary>0 to 255.75 W; null when GiveBack makes the field a minimum. To be ignored since R3.2 (6.4.2.11).</summary>
    public Power? MaximumOperatingPower => Request.GiveBack ? null : LowPower;

    /// <summary>0 to 255.75 W, what the sink can be told to go down to; null without GiveBack (R2.0, R3.0).</summary>
    public Power? MinimumOperatingPower => Request.GiveBack ? LowPower : null;

    private Power LowPower => Power.FromMilliwatts(MaximumField.GetScaled(Raw));

    /// <summary>A request without flags.</summary>
    /// <param name="objectPosition">0 to 15.</param>
    /// <param name="operating">Up to 255.75 W in steps of 250 mW.</param>
    /// <param name="low">The low field: maximum operating power, or the minimum once GiveBack is set.</param>
    /// <exception cref="ArgumentOutOfRangeException">A value does not fit, or is no whole number of steps.</exception>
    public static BatteryRequest Create(int objectPosition, Power operating, Power low)
    {
        uint word = RequestObject.ObjectPositionField.SetScaled(0, objectPosition);
        word = OperatingField.SetScaled(word, operating.Milliwatts);
        return new BatteryRequest(MaximumField.SetScaled(word, low.Milliwatts));
    }
}
