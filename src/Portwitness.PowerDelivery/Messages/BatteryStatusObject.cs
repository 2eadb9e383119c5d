using Portwitness.PowerDelivery.Layout;
using Portwitness.PowerDelivery.Units;

namespace Portwitness.PowerDelivery.Messages;

/// <summary>The object of a Battery_Status message, BSDO (R3.2v1.1, Table 6.46), since R3.0. Any word is kept.</summary>
/// <param name="Raw">The word.</param>
public readonly record struct BatteryStatusObject(uint Raw)
{
    private const uint UnknownCapacity = 0xFFFF;
    private static readonly BitField CapacityField =
        new BitField("Battery Present Capacity", 31, 16, FieldUnit.MilliwattHours, 100).Codes((UnknownCapacity, "unknown"));

    private static readonly BitField ChargingField = new BitField("Battery Charging Status", 11, 10)
        .Codes((0, "charging"), (1, "discharging"), (2, "idle"));

    private static readonly BitField PresentField = BitField.Flag("Battery is present", 9);
    private static readonly BitField InvalidReferenceField = BitField.Flag("Invalid Battery Reference", 8);

    /// <summary>All 32 bits.</summary>
    public static BitLayout Layout { get; } = new(
        "Battery Status Data Object", 32, "R3.2v1.1 Table 6.46",
        CapacityField, BitField.Reserved(15, 12), ChargingField, PresentField, InvalidReferenceField,
        BitField.Reserved(7, 0));

    /// <summary>0 to 6553.4 Wh in steps of 0.1 Wh; null when the battery does not know (0xFFFF).</summary>
    public Energy? PresentCapacity => CapacityField.Get(Raw) == UnknownCapacity
        ? null
        : Energy.FromMilliwattHours(CapacityField.GetScaled(Raw));

    /// <summary>0 charging, 1 discharging, 2 idle, 3 reserved; means something with a battery present only.</summary>
    public int ChargingCode => (int)ChargingField.Get(Raw);

    /// <summary>The battery is present.</summary>
    public bool BatteryPresent => PresentField.IsSet(Raw);

    /// <summary>The battery that was asked for does not exist.</summary>
    public bool InvalidReference => InvalidReferenceField.IsSet(Raw);

    /// <summary>Builds the object; a null capacity is "unknown".</summary>
    /// <exception cref="ArgumentOutOfRangeException">A value does not fit, or is no whole number of steps.</exception>
    public static BatteryStatusObject Create(
        Energy? presentCapacity, int chargingCode, bool batteryPresent, bool invalidReference = false)
    {
        uint word = presentCapacity is { } capacity
            ? CapacityField.SetScaled(0, capacity.MilliwattHours)
            : CapacityField.Set(0, UnknownCapacity);
        word = ChargingField.SetScaled(word, chargingCode);
        word = PresentField.SetFlag(word, batteryPresent);
        return new BatteryStatusObject(InvalidReferenceField.SetFlag(word, invalidReference));
    }
}
